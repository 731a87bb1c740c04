from __future__ import annotations

from pathlib import Path

import pytest
from builders import a_claim
from running import Pipe

from claimpack.commands.desk.say import Say
from claimpack.commands.desk.world import World
from claimpack.commands.screen.telling_claim import ClaimTold, tell_claim
from claimpack.core.events.standing import Standing

FILED = {"state": "filed", "filed": "2026-02-28", "claimed": "150.00", "currency": "USD"}


def said(standing=None, waits_for="", **changes):
    """The lines that are told of a claim."""
    world = World(stdin=Pipe(), stdout=Pipe(), stderr=Pipe(), environ={}, folder=Path("/nowhere"))
    stands = Standing.model_validate(standing) if standing else None
    tell_claim(Say(world), ClaimTold(a_claim(**changes), stands, 1 if stands else None, None, waits_for))
    return world.stdout.getvalue().splitlines()


def fact(label, *args, **changes):
    """What stands behind a label; None where it is left out."""
    return next((line.removeprefix(label).strip() for line in said(*args, **changes) if line.startswith(label)), None)


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


def test_what_steers_a_terminal_is_shown_not_obeyed():
    whole = "\n".join(said(failure__complaint="a\N{RIGHT-TO-LEFT OVERRIDE}b", held=[{"part": "c\N{ZERO WIDTH SPACE}"}]))
    assert ("a[U+202E]b" in whole, "c[U+200B]" in whole) == (True, True)


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
