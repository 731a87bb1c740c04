from __future__ import annotations

from pathlib import Path

import pytest
from builders import a_claim, a_plan
from running import NOW, Pipe

from claimpack.commands.desk.one_claim import (
    at_place,
    must_have_failure,
    note_near_shot,
    number_of,
    shot_meant,
    tell_shots,
    without,
)
from claimpack.commands.desk.say import Say
from claimpack.commands.desk.world import World
from claimpack.errors import BadInput, NotFound

PLAN = a_plan(requires={"shots": ["serial plate", "whole unit"]})
PLATE = {"file": "photos/a.jpg", "shot": "Serial Plate"}


def noted(tell, *what):
    """What is said beside the answer."""
    world = World(stdin=Pipe(), stdout=Pipe(), stderr=Pipe(), environ={}, folder=Path(), clock=NOW)
    tell(Say(world), *what)
    return " ".join(world.stderr.getvalue().split())


@pytest.mark.parametrize("path", [".", "..", "claims/26-0041", "./26-0041"])
def test_a_claim_folder_is_no_claim_of_the_book(path):
    with pytest.raises(BadInput) as refused:
        number_of(path)
    assert f"claimpack import {path}" in refused.value.do


@pytest.mark.parametrize("place", [0, 3, -1])
def test_an_entry_that_is_not_there_is_not_found(place):
    with pytest.raises(NotFound, match=f"2 labour entries, so there is no labour entry {place}") as refused:
        at_place("ab", place, "labour entry", a_claim())
    assert "claimpack labour list" in refused.value.do


def test_entries_are_counted_from_one():
    assert [at_place("ab", place, "part", a_claim()) for place in (1, 2)] == ["a", "b"]


@pytest.mark.parametrize(("place", "left"), [(1, "bc"), (2, "ac"), (3, "ab")])
def test_one_entry_is_taken_out_and_the_order_kept(place, left):
    assert without("abc", place) == tuple(left)


@pytest.mark.parametrize(
    ("photos", "command"),
    [([], "claimpack photo add 26-0001 FILE --shot 'serial plate'"), ([PLATE], "claimpack photo shot 26-0001 N TEXT")],
)
def test_shots_the_plan_asks_for_are_named_with_the_next_command(photos, command):
    assert command in noted(tell_shots, a_claim(photos=photos), PLAN)


def test_where_no_shot_is_missing_nothing_is_said():
    every = [PLATE, {"file": "photos/b.jpg", "shot": "whole unit"}]
    assert noted(tell_shots, a_claim(photos=every), PLAN) == noted(tell_shots, a_claim(), None) == ""


@pytest.mark.parametrize("shot", ["", "serial plate", "SERIAL-PLATE", "hands"])
def test_a_shot_that_is_meant_as_it_stands_is_left_alone(shot):
    assert noted(note_near_shot, shot, PLAN) == ""


def test_a_shot_that_looks_mistyped_is_told_with_the_one_it_is_near():
    assert "'serial plate'" in noted(note_near_shot, "serail plate", PLAN)


def test_one_entry_is_named_as_one():
    with pytest.raises(NotFound, match="1 part, so there is no part 2"):
        at_place("a", 2, "part", a_claim())


@pytest.mark.parametrize(("failure", "taken"), [(1, True), (2, False)])
def test_a_line_is_for_a_failure_that_the_claim_has(failure, taken):
    if taken:
        must_have_failure(a_claim(), failure)
    else:
        with pytest.raises(BadInput) as refused:
            must_have_failure(a_claim(), failure)
        assert "'failure[2].component'" in refused.value.do


@pytest.mark.parametrize(
    ("said", "plan", "meant", "told"),
    [
        ("plate", PLAN, "serial plate", True),
        ("serial plate", PLAN, "serial plate", False),
        ("hands", PLAN, "hands", False),
        ("plate", None, "plate", False),
    ],
    ids=["a word of it", "as the plan says", "another", "no plan"],
)
def test_a_word_of_a_shot_means_the_shot_and_that_is_told(said, plan, meant, told):
    found = []
    noted_so = noted(lambda say: found.append(shot_meant(say, said, plan)))
    assert (found, bool(noted_so)) == ([meant], told)


def test_a_word_of_two_shots_means_neither():
    with pytest.raises(BadInput, match="'serial plate' or 'engine plate'"):
        noted(shot_meant, "plate", a_plan(requires={"shots": ["serial plate", "engine plate"]}))


def test_a_shot_without_a_plan_is_near_none():
    assert noted(note_near_shot, "serail plate", None) == ""
