from __future__ import annotations

from pathlib import Path

import pytest
from builders import a_claim
from running import Pipe

from claimpack.commands.desk.say import Say
from claimpack.commands.desk.world import World
from claimpack.commands.screen.telling_claim import Told, tell_claim
from claimpack.core.events.standing import Standing

FILED = {"state": "filed", "filed": "2026-02-28", "claimed": "150.00", "currency": "USD"}


def said(standing=None, waits_for="", **changes):
    """The lines that are told of a claim."""
    world = World(stdin=Pipe(), stdout=Pipe(), stderr=Pipe(), environ={}, folder=Path("/nowhere"))
    stands = Standing.model_validate(standing) if standing else None
    tell_claim(Say(world), Told(a_claim(**changes), stands, 1 if stands else None, None, waits_for))
    return world.stdout.getvalue().splitlines()


def fact(label, *args, **changes):
    """What stands behind a label; None where it is left out."""
    return next((line.removeprefix(label).strip() for line in said(*args, **changes) if line.startswith(label)), None)


def row(number, **changes):
    """The first row of a table that begins with a number, its columns one blank apart."""
    return next(" ".join(line.split()) for line in said(**changes) if line.startswith(f"  {number}  "))


def test_a_folder_is_called_one_and_a_claim_by_its_state():
    assert [said()[0].split()[1], said(FILED)[0].split()[1]] == ["FOLDER", "FILED"]


@pytest.mark.parametrize(
    ("changes", "meter"),
    [
        ({"unit__hours": "0"}, "0 hours"),
        ({"unit__hours": "1E+2"}, "100 hours"),
        ({"unit__meter": False, "unit__hours": None}, "no hour meter"),
        ({"unit__meter": None, "unit__hours": None}, ""),
    ],
    ids=["nothing on it", "written short", "none", "not known"],
)
def test_the_hour_meter_is_told_as_far_as_it_is_known(changes, meter):
    assert fact("Unit", **changes).partition(" · professional")[2].removeprefix(" · ") == meter


def test_an_address_of_several_lines_is_one_line():
    assert "18 Quarry Road, Ashby" in fact("Owner", owner__address="18 Quarry Road\nAshby")


@pytest.mark.parametrize(("first", "word"), [(True, "first owner"), (False, "not the first owner"), (None, None)])
def test_the_first_owner_is_told_where_it_is_known(first, word):
    assert fact("Owner", owner={"name": "A", "first_owner": first}) == (f"A · {word}" if word else "A")


def test_lines_of_a_complaint_stay_lines_under_each_other():
    lines = said(failure__complaint="Will not start.\n\nSmokes.")
    at = next(place for place, line in enumerate(lines) if line.startswith("Complaint"))
    column = lines[at].index("Will not start.")
    assert lines[at + 1 : at + 3] == [" " * column, " " * column + "Smokes."]


def test_what_steers_a_terminal_is_shown_not_obeyed():
    whole = "\n".join(said(failure__complaint="a\N{RIGHT-TO-LEFT OVERRIDE}b", held=[{"part": "c\N{ZERO WIDTH SPACE}"}]))
    assert ("a[U+202E]b" in whole, "c[U+200B]" in whole) == (True, True)


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


def test_a_long_cell_is_cut_and_marked():
    assert row(1, parts=[{"name": "x" * 300}]).split()[1] == "x" * 33 + "…"


def test_an_earlier_repair_without_a_claim_says_so():
    earlier = [{"component": "short block", "repaired": "2024-02-29"}]
    assert fact("Earlier", earlier=earlier) == "short block 2024-02-29 (no claim)"


def test_the_makers_reason_is_not_told_twice():
    answer = {"on": "2026-03-01", "answer": "refused", "because": "No plate."}
    refused = {**FILED, "state": "refused", "answers": [answer], "answered": "2026-03-01", "because": "No plate."}
    (told,) = [line for line in said(refused) if "No plate." in line]
    assert told.split(maxsplit=1) == ["Answered", "2026-03-01 · No plate."]


def test_what_comes_next_is_the_last_line():
    assert said(waits_for="wait for the answer")[-1].split(maxsplit=1) == ["Next", "wait for the answer"]
