from __future__ import annotations

from functools import cache
from typing import Literal

import pytest

from claimpack.core.drafting.key_list import OTHER_WORDS, as_toml, example_of, filtered, key_list
from claimpack.core.drafting.meanings import every_record, meanings_of
from claimpack.core.facts.record import Record
from claimpack.core.plans.plan import Plan
from claimpack.core.values.days import Day
from claimpack.folder.file_kinds import FILE_KINDS, record_of


@cache
def of_a_plan(path):
    return next((key for key in key_list(Plan) if key.path == path), None)


class Lid(Record):
    """A lid.

    Args:
        tight: whether it is tight.
    """

    tight: bool = False


class Box(Record):
    """A box.

    Args:
        holds: what is in it.
        lid: what closes it.
    """

    holds: str
    lid: Lid | None = None


class Shelf(Record):
    """A shelf.

    Args:
        label: what is written on it, as in `42`.
        since: the day it was put up.
        locked: whether it can be locked.
        side: on which side it stands.
        boxes: what stands on it.
    """

    label: str
    since: Day | None = None
    locked: bool = False
    side: Literal["left", "right"] = "left"
    boxes: tuple[Box, ...] | None = None


@pytest.mark.parametrize("kind", FILE_KINDS)
def test_every_example_is_one_that_its_key_takes(kind):
    refused = [
        f"{record.__name__}.{name}"
        for record in every_record(record_of(kind))
        for name, meaning in meanings_of(record).items()
        if meaning.example and not example_of(record.model_fields[name], meaning.example)
    ]
    assert refused == []


def test_an_example_is_told_as_the_key_takes_it():
    assert [key.example for key in key_list(Shelf)][:3] == ['"42"', "2026-02-24", "true"]


def test_a_key_is_told_with_the_tables_it_stands_in():
    assert (of_a_plan("window.limits.at").table, of_a_plan("window.period").table) == (
        "[[window]] limits = [{ }]",
        "[[window]]",
    )


def test_a_key_is_told_by_the_name_that_files_have_for_it():
    assert of_a_plan("window.except")
    assert not of_a_plan("window.except_")


def test_what_a_key_counts_as_while_it_is_absent_is_told():
    assert (of_a_plan("judged_on").absent, of_a_plan("window.period").needed) == ('"presented"', True)


def test_the_words_that_a_key_takes_are_told():
    assert of_a_plan("pays.labour_rounding").choices == ("nearest", "up", "down")


def test_a_word_without_others_to_choose_is_no_choice():
    assert of_a_plan("start_without_proof.from").choices == ()


def test_an_example_is_another_word_than_the_one_that_stands_for_an_absent_key():
    assert example_of(Shelf.model_fields["side"], "") == '"right"'


def test_an_example_of_a_table_is_the_line_that_begins_it_where_it_has_one():
    assert {key.path: key.example for key in key_list(Shelf) if key.path in ("boxes", "boxes.lid")} == {
        "boxes": "[[boxes]]",
        "boxes.lid": "",
    }


def test_a_table_that_may_be_absent_and_may_be_there_several_times_is_told_as_such():
    assert [key.table for key in key_list(Shelf) if key.path == "boxes.holds"] == ["[[boxes]]"]


@pytest.mark.parametrize(
    ("value", "toml"),
    [("Größe", '"Größe"'), ({"größe": 1}, '{"größe" = 1}'), ({"size-2": True}, "{size-2 = true}")],
)
def test_letters_of_other_languages_are_written_as_they_are(value, toml):
    assert as_toml(value) == toml


def test_letters_of_other_languages_in_an_example_are_written_as_they_are():
    assert example_of(Shelf.model_fields["label"], "Öl") == '"Öl"'


def test_keys_are_found_by_words_that_are_all_said_of_them():
    found = [key.path for key in filtered(key_list(Plan), ["Labour", "dealer's level"]).keys]
    assert found == ["pays.labour_rates", "pays.labour_rates.level"]


@pytest.mark.parametrize(
    ("words", "path"),
    [
        (["prorated"], "window.shares"),
        (["mileage"], "window.limits.meter"),
        (["transferable"], "window.owners"),
        (["commercial"], "window.uses"),
        (["sales", "tax"], "pays.tax"),
    ],
)
def test_words_that_people_use_instead_find_the_keys_they_mean(words, path):
    found = filtered(key_list(Plan), words)
    assert found.instead
    assert path in [key.path for key in found.keys]


def test_other_words_lead_to_keys_that_there_are():
    assert {path for paths in OTHER_WORDS.values() for path in paths} <= {key.path for key in key_list(Plan)}


def test_a_mistyped_word_finds_what_the_nearest_one_finds():
    found = filtered(key_list(Plan), ["deductable"])
    assert (found.instead, "pays.deductible" in [key.path for key in found.keys]) == ("deductible", True)


def test_words_that_are_like_none_find_nothing():
    assert filtered(key_list(Plan), ["zeppelin"]).keys == ()
