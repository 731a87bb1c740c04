from datetime import date

import pytest
from builders import a_plan

from claimpack.core.reading.read_text import TextRead
from claimpack.core.reading.unit_shown import unit_shown

HALDEN = a_plan(maker_name="Halden", requires__serial_patterns={"unit": "HC70-[0-9]{3}", "engine": "E70-[0-9]{3}"})
OTHER = a_plan(id="other", maker="tessaly", models=["TP-*"], requires__serial_patterns={"unit": "TP-[0-9]{3}"})


def shown(*texts, maker="", plans=(HALDEN, OTHER)):
    found = unit_shown([TextRead(text, "letters") for text in texts], plans, maker, date(2026, 3, 1), "")
    return {each.key: each.text for each in found}


def test_the_maker_is_the_one_whose_form_the_serial_has():
    assert shown("HC70-118") == {"maker": "halden", "unit.serials.unit": "HC70-118"}


def test_maker_model_and_serials_of_a_whole_plate():
    assert shown("HALDEN", "MODEL", "CS-7O", "SERIAL No.", "HC7O-118", "E70-551", "BUILT 2024-05-17") == {
        "maker": "halden",
        "unit.model": "CS-7O",
        "unit.serials.unit": "HC70-118",
        "unit.serials.engine": "E70-551",
        "unit.built": "2024-05-17",
    }


def test_a_maker_that_was_said_is_not_proposed_and_its_plans_alone_count():
    assert shown("TP-118", maker="halden") == {}


def test_a_serial_that_two_makers_give_that_form_names_neither():
    twin = OTHER.model_copy(update={"requires": HALDEN.requires})
    assert shown("HC70-118", plans=(HALDEN, twin)) == {"unit.serials.unit": "HC70-118"}


def test_without_a_plan_the_words_on_the_plate_tell():
    assert shown("MODEL X-1", "S/N AB12-993", plans=()) == {"unit.model": "X-1", "unit.serials.unit": "AB12-993"}


@pytest.mark.parametrize("texts", [(), ("Quote the number in all claims",)])
def test_nothing_is_guessed(texts):
    assert shown(*texts) == {}
