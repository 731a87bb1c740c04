from __future__ import annotations

from pathlib import Path

import pytest
from builders import a_claim
from running import Pipe

from claimpack.commands.desk.say import Say
from claimpack.commands.desk.world import World
from claimpack.commands.screen.telling_work import tell_evidence, tell_held, tell_work
from claimpack.core.events.part_state import HeldStanding
from claimpack.core.events.standing import Standing


def row(number, **changes):
    """The first row of a table that begins with a number, its columns one blank apart."""
    world = World(stdin=Pipe(), stdout=Pipe(), stderr=Pipe(), environ={}, folder=Path("/nowhere"))
    tell_work(Say(world), a_claim(**changes), "")
    tell_evidence(Say(world), a_claim(**changes))
    lines = world.stdout.getvalue().splitlines()
    return next(" ".join(line.split()) for line in lines if line.startswith(f"  {number}  "))


@pytest.mark.parametrize(
    ("keys", "time"),
    [
        ({"hours": "1.60"}, "1.60 h"),
        ({"started": "2026-02-24T09:05:59"}, "since 2026-02-24 09:05"),
        ({"started": "2026-02-24T09:05", "ended": "2026-02-24T17:00"}, "2026-02-24 09:05 to 17:00"),
        ({"started": "2026-02-28T22:00", "ended": "2026-03-01T06:00"}, "2026-02-28 22:00 to 03-01 06:00"),
        ({}, ""),
    ],
    ids=["hours", "still running", "one day", "over midnight", "neither"],
)
def test_labour_is_told_in_hours_or_from_when_to_when(keys, time):
    assert row(1, labour=[{"operation": "clean", **keys}]) == f"1 clean {time}".strip()


@pytest.mark.parametrize(
    ("limits", "told"),
    [
        ({"low": "110", "high": "150"}, "limits 110 to 150"),
        ({"low": "0"}, "at least 0"),
        ({"high": "0.5"}, "at most 0.5"),
        ({}, ""),
    ],
)
def test_limits_are_told_as_far_as_there_are_any(limits, told):
    finding = {"what": "gap", "value": "0.7", "unit": "mm", **limits}
    assert row(1, findings=[finding]) == f"1 gap 0.7 mm {told}".strip()


def test_who_pays_is_told_unless_the_maker_does():
    parts = [{"name": "Ring", "unit_cost": "3.1250"}, {"name": "Blade", "payer": "owner"}]
    assert (row(1, parts=parts), row(2, parts=parts)) == ("1 Ring 1 x 3.1250", "2 Blade 1 x 0 owner pays")


@pytest.mark.parametrize(
    ("extra", "told"),
    [({"amount": "10.00"}, "10.00"), ({"distance": "12.5"}, "distance 12.5")],
    ids=["an amount", "a distance"],
)
def test_an_extra_is_told_with_its_amount_or_how_far_it_was(extra, told):
    assert row(1, extras=[{"what": "visit", "kind": "travel", **extra}]) == f"1 visit {told}"


@pytest.mark.parametrize(
    ("stands", "told"),
    [
        ({}, "1 rod no shelf held since 2026-02-24"),
        ({"state": "scrapped", "scrapped": "2026-06-02"}, "1 rod no shelf held since 2026-02-24 scrapped 2026-06-02"),
    ],
)
def test_a_part_is_told_since_when_it_is_held_and_when_it_went(stands, told):
    world = World(stdin=Pipe(), stdout=Pipe(), stderr=Pipe(), environ={}, folder=Path("/nowhere"))
    standing = Standing(parts=[HeldStanding(index=1, **stands)])
    tell_held(Say(world), a_claim(held=[{"part": "rod", "since": "2026-02-24"}]), standing)
    assert " ".join(world.stdout.getvalue().splitlines()[-1].split()) == told


@pytest.mark.parametrize(("drained", "told"), [(True, " drained"), (False, " NOT drained"), (None, "")])
def test_a_part_is_told_drained_or_not_where_it_is_known(drained, told):
    world = World(stdin=Pipe(), stdout=Pipe(), stderr=Pipe(), environ={}, folder=Path("/nowhere"))
    tell_held(Say(world), a_claim(held=[{"part": "rod", "shelf": "B3", "drained": drained}]), None)
    assert " ".join(world.stdout.getvalue().splitlines()[-1].split()) == f"1 rod shelf B3 held{told}"


def test_amounts_and_hours_stand_at_the_right():
    parts = [{"name": "Ring", "unit_cost": "3.10"}, {"name": "Block", "unit_cost": "1318.40"}]
    labour = [{"operation": "clean", "hours": "0.5"}, {"operation": "rebuild", "hours": "12.25"}]
    extras = [
        {"what": "crate", "kind": "freight", "amount": "5"},
        {"what": "lorry", "kind": "freight", "amount": "120"},
    ]
    world = World(stdin=Pipe(), stdout=Pipe(), stderr=Pipe(), environ={}, folder=Path("/nowhere"))
    tell_work(Say(world), a_claim(parts=parts, labour=labour, extras=extras), "USD")
    rows = [line for line in world.stdout.getvalue().splitlines() if line.startswith("  ")]
    assert [len(one) == len(other) for one, other in zip(rows[::2], rows[1::2], strict=True)] == [True] * 3


@pytest.mark.parametrize(("also", "told"), [([], ""), ([{"complaint": "Leaks.", "component": "tank"}], "failure 1")])
def test_which_failure_a_part_is_for_is_told_where_there_are_several(also, told):
    parts = [{"name": "Ring", "number": "7", "unit_cost": "3"}]
    assert row(1, parts=parts, failure__also=also) == f"1 Ring 7 1 x 3 {told}".strip()


@pytest.mark.parametrize(
    ("paper", "told"),
    [
        ({"kind": "service record", "on": "2026-01-05"}, "a.pdf (service record, 2026-01-05)"),
        ({"kind": "service record"}, "a.pdf (service record)"),
        ({"on": "2026-01-05"}, "a.pdf (2026-01-05)"),
        ({}, "a.pdf"),
    ],
)
def test_a_paper_is_told_with_its_kind_and_day_where_they_are_known(paper, told):
    world = World(stdin=Pipe(), stdout=Pipe(), stderr=Pipe(), environ={}, folder=Path("/nowhere"))
    tell_evidence(Say(world), a_claim(papers=[{"file": "papers/a.pdf", **paper}]))
    assert world.stdout.getvalue().splitlines()[-1].endswith(f" papers/{told}")


@pytest.mark.parametrize(("marks", "told"), [(0, "1 plate photos/a.jpg"), (2, "1 plate photos/a.jpg 2 marks")])
def test_marks_of_a_picture_are_counted_where_there_are_any(marks, told):
    mark = {"shape": "ring", "x": "0.1", "y": "0.1"}
    assert row(1, photos=[{"file": "photos/a.jpg", "shot": "plate", "marks": [mark] * marks}]) == told


def test_a_claim_without_papers_has_no_line_for_them():
    world = World(stdin=Pipe(), stdout=Pipe(), stderr=Pipe(), environ={}, folder=Path("/nowhere"))
    tell_evidence(Say(world), a_claim(proof=None))
    assert world.stdout.getvalue() == ""
