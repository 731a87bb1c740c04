import itertools

import pytest

from claimpack.core.reading.look_alikes import Differing, differing, is_near, same_number, swapped, tidied

PLATE = "HC70-118-20417"


@pytest.mark.parametrize("typed", ["HC70-118-20417", "hc7011820417", "HC70 118 20417"])
def test_a_number_is_the_same_whatever_its_hyphens_blanks_and_capitals(typed):
    assert same_number(typed, PLATE)


@pytest.mark.parametrize("place", [place for place, mark in enumerate(PLATE) if mark != "-"])
def test_one_character_typed_otherwise_is_found_at_its_place(place):
    typed = f"{PLATE[:place]}X{PLATE[place + 1 :]}"
    assert differing(typed, PLATE) == (Differing(place + 1, "X", PLATE[place]),)


@pytest.mark.parametrize("place", [place for place, mark in enumerate(PLATE) if mark != "-"])
def test_one_character_left_out_is_found(place):
    found = differing(PLATE[:place] + PLATE[place + 1 :], PLATE)
    assert [(each.typed, each.read) for each in found] == [("", PLATE[place])]


def test_one_character_too_many_is_found():
    assert [(each.typed, each.read) for each in differing(f"{PLATE}9", PLATE)] == [("9", "")]


@pytest.mark.parametrize(("typed", "read"), ["O0", "1I", "8B", "S5"])
def test_marks_that_look_alike_are_known(typed, read):
    assert Differing(1, typed, read).looks_alike


@pytest.mark.parametrize(("typed", "read"), [("7", "1"), ("", "0"), ("0", ""), ("K", "X")])
def test_others_do_not_look_alike(typed, read):
    assert not Differing(1, typed, read).looks_alike


@pytest.mark.parametrize(("other", "near"), [("HC7O-118-2O417", True), ("E70-55102", False), ("HT26-204-00871", False)])
def test_a_number_misread_in_a_few_marks_is_near(other, near):
    assert is_near(PLATE, other) is near


@pytest.mark.parametrize(
    ("typed", "read", "near"),
    [
        ("AB1", "AB1", False),
        ("AB12", "AB12", True),
        ("AB12", "AB13", True),
        ("AB123", "AB145", False),
        ("AB1234", "AB1256", True),
    ],
    ids=["three marks", "four", "one of four", "two of five", "two of six"],
)
def test_a_number_of_four_marks_or_more_is_near_where_every_third_differs_at_most(typed, read, near):
    assert is_near(typed, read) is near


def test_a_mark_too_many_in_a_long_number_of_few_marks_is_the_only_one_that_differs():
    assert len(differing("A1" * 120, f"7{'A1' * 120}")) == 1


def test_no_more_than_three_thousand_readings_are_tried():
    assert sum(1 for _ in swapped("0" * 12)) == 1 + 3000


def test_marks_that_look_alike_are_swapped_the_fewest_first():
    assert list(itertools.islice(swapped("A8"), 2)) == [(0, "A8"), (1, "AB")]


def test_a_text_is_tidied_of_other_dashes_and_marks_around_it():
    assert tidied(" .HC70\N{EN DASH}118\N{MINUS SIGN}20417: ") == PLATE
