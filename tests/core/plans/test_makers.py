from __future__ import annotations

import pytest
from builders import a_claim, a_plan

from claimpack.core.plans.makers import Maker, is_maker_of, maker_of, name_of, names_shown, spellings

TESSALY = a_plan(id="t", maker="tessaly", maker_name="Tessaly Pumps", models=["TP-*"])
HALDEN = a_plan()


@pytest.mark.parametrize(("said", "same"), [("Tessaly", True), ("tessaly-pumps", True), ("Tessaly Pump", False)])
def test_a_maker_goes_by_its_word_and_by_its_name(said, same):
    assert is_maker_of(TESSALY, said) is same


def test_a_maker_is_named_as_the_plan_found_names_it():
    assert maker_of(a_claim(maker="Tessaly Pumps"), TESSALY) == Maker("tessaly", "Tessaly Pumps")


def test_a_plan_without_a_name_for_people_gives_its_word():
    assert maker_of(a_claim(maker="HALDEN"), HALDEN) == Maker("halden", "halden")


def test_without_a_plan_the_maker_is_named_as_any_plan_of_that_maker_does():
    assert maker_of(a_claim(maker="TESSALY"), None, [HALDEN, TESSALY]) == Maker("tessaly", "Tessaly Pumps")


def test_a_maker_of_no_plan_has_no_other_name():
    assert maker_of(a_claim(maker="ashby"), None, [HALDEN, TESSALY]) == Maker()


@pytest.mark.parametrize(("maker", "name"), [(Maker("halden", "Halden"), "Halden"), (Maker(), "HALDEN")])
def test_a_maker_is_called_as_its_plans_call_it_else_as_the_claim_does(maker, name):
    assert name_of(a_claim(maker="HALDEN"), maker) == name


def test_a_plan_without_a_name_for_people_gives_one_other_spelling():
    assert spellings("HALDEN", [HALDEN]) == ("HALDEN", "halden")


def test_spellings_begin_with_the_one_written():
    assert spellings("Tessaly pumps", [HALDEN, TESSALY]) == ("Tessaly pumps", "tessaly", "Tessaly Pumps")


def test_makers_are_listed_once_by_the_name_for_people():
    assert names_shown([TESSALY, HALDEN, TESSALY]) == ["Tessaly Pumps", "halden"]
