from __future__ import annotations

import datetime as dt
from pathlib import Path

import pytest
from builders import TODAY, a_claim, a_plan
from running import Pipe

from claimpack.commands.desk.say import Say
from claimpack.commands.desk.world import World
from claimpack.commands.screen.telling_claim import ClaimTold, tell_claim
from claimpack.core.events.standing import Standing
from claimpack.core.judging.assessment import assess
from claimpack.core.steps.notes import Note

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


@pytest.mark.parametrize(
    ("changes", "told"),
    [
        ({"unit__sold_in": "US-CA"}, "sold in US-CA"),
        ({"unit__built": "2024-11-02"}, "built 2024-11-02"),
        ({"unit__invoiced": "2025-01-10"}, "invoiced 2025-01-10"),
        ({"unit__model_year": 2025}, "model year 2025"),
        ({"dates__never_registered": True}, "never registered"),
        ({"dates__registered": "2025-03-20"}, "registered 2025-03-20"),
        ({"failure__part": {"number": "70-1", "name": "coil"}}, "70-1 coil"),
        ({"failure__defect": "wear"}, "short block · wear"),
        ({"proof": {"kind": "receipt", "file": "papers/r.pdf"}}, "receipt · papers/r.pdf"),
        ({"proof": {"kind": "receipt"}}, "receipt"),
        ({"unit__meters": [{"kind": "cycles", "value": "4100"}]}, "4,100 cycles"),
        ({"unit__meters": [{"kind": "cycles", "fitted": False}]}, "no cycles"),
        ({"parts": [{"name": "Ring", "unit_cost": "3.10"}], "currency": "CAD"}, "1 x 3.10 CAD"),
    ],
    ids=[
        *("where sold", "built", "invoiced", "model year", "never registered", "registered", "what failed", "defect"),
        *("proof and paper", "proof alone", "cycles", "no such meter", "currency of a folder"),
    ],
)
def test_what_is_known_is_told_and_nothing_where_nothing_is(changes, told):
    assert (told in "\n".join(said(**changes)), "None" in "\n".join(said())) == (True, False)


@pytest.mark.parametrize(
    ("approval", "told"),
    [
        ({"number": "A-7", "on": "2026-02-10"}, "A-7 · 2026-02-10"),
        ({"number": "A-7", "on": "2026-02-10", "up_to": "0.00"}, "A-7 · 2026-02-10 · up to 0.00"),
        (
            {"number": "A-7", "on": "2026-02-10", "expires": "2026-03-10"},
            "A-7 · 2026-02-10 · for a repair up to 2026-03-10",
        ),
        ({"state": "asked", "asked": "2026-02-09"}, "asked for 2026-02-09, no answer yet"),
        ({"state": "refused", "on": "2026-02-12"}, "REFUSED 2026-02-12"),
    ],
    ids=["given", "up to an amount", "up to a day", "waited for", "refused"],
)
def test_an_approval_is_told_with_its_limits(approval, told):
    assert fact("Approval", approval=approval) == told


@pytest.mark.parametrize(
    ("standing", "label", "told"),
    [
        ({"reference": "R-9", "received": "2026-03-02"}, "Filed", "2026-02-28 · R-9 · received 2026-03-02 · claimed "),
        ({}, "Filed", "2026-02-28 · claimed 150.00 USD"),
        ({"accepted": "0.00", "answered": "2026-03-01"}, "Answered", "2026-03-01 · accepted 0.00 USD"),
        ({}, "Answered", None),
        ({"written_off": "50.00", "accepted": "100.00"}, "Money", "written off 50.00 USD"),
    ],
    ids=["received", "not received", "accepted nothing", "not answered", "written off"],
)
def test_where_a_claim_stands_is_told_as_far_as_there_is_anything(standing, label, told):
    said_of = fact(label, {**FILED, **standing})
    assert said_of is None if told is None else told in said_of


@pytest.mark.parametrize(
    ("payments", "told"),
    [
        ([{"on": "2026-03-05", "amount": "150.00", "memo": "CM-4"}], "150.00 USD on 2026-03-05, memo CM-4"),
        ([{"on": "2026-03-05", "amount": "150.00"}], "150.00 USD on 2026-03-05"),
        ([], None),
    ],
)
def test_payments_are_told_with_their_memo_where_there_is_one(payments, told):
    assert fact("Paid", {**FILED, "payments": payments}) == told


def test_failures_are_numbered_where_there_are_several():
    other = {"complaint": "Leaks.", "component": "tank", "cause": "Crack.", "correction": "New tank.", "defect": "wear"}
    assert [fact("Failed").startswith("failure 1"), fact("Failed", failure__also=[other]).startswith("failure 1")] == [
        False,
        True,
    ]


@pytest.mark.parametrize(("count", "shown", "more"), [(0, 0, False), (5, 5, False), (6, 5, True)])
def test_the_five_latest_notes_are_told_and_where_the_others_are(count, shown, more):
    notes = [Note(dt.date(2026, 2, 2), "ann", f"Called {n}.", None) for n in range(count)]
    world = World(stdin=Pipe(), stdout=Pipe(), stderr=Pipe(), environ={}, folder=Path("/nowhere"))
    told = ClaimTold(a_claim(), Standing.model_validate(FILED), 1, None, "", notes=notes)
    tell_claim(Say(world), told)
    said_of = (world.stdout.getvalue().count("Called"), "claimpack history 26-0001" in world.stderr.getvalue())
    assert (*said_of, "Notes" in world.stdout.getvalue()) == (shown, more, count > 0)


@pytest.mark.parametrize(
    ("standing", "need"), [(None, True), ({"state": "draft"}, True), (FILED, False)], ids=["a folder", "draft", "filed"]
)
def test_what_is_missing_is_told_until_a_claim_is_filed(standing, need):
    plan = a_plan(requires={"shots": ["serial plate"]})
    judged = assess(a_claim(dates__repaired="2026-03-05"), [plan], TODAY)
    world = World(stdin=Pipe(), stdout=Pipe(), stderr=Pipe(), environ={}, folder=Path("/nowhere"))
    stands = Standing.model_validate(standing) if standing else None
    tell_claim(Say(world), ClaimTold(a_claim(), stands, 1 if stands else None, judged, ""))
    said_of = world.stdout.getvalue()
    titles_of = ("To correct before it can be filed", "Missing before it can be filed")
    titles = [title in said_of for title in titles_of]
    assert (titles, said_of.count("photo: serial plate")) == ([need, need], int(need))
    assert ("photo: serial plate" in said_of.partition(titles_of[1])[2]) is need


def test_an_earlier_version_is_said_to_be_one():
    assert ["as of revision" in said(standing)[0] for standing in (FILED, None)] == [True, False]


def test_a_maker_is_told_by_the_name_that_lists_show():
    world = World(stdin=Pipe(), stdout=Pipe(), stderr=Pipe(), environ={}, folder=Path("/nowhere"))
    tell_claim(Say(world), ClaimTold(a_claim(), None, None, None, "", maker="Halden Tools"))
    assert "Halden Tools CS-70" in world.stdout.getvalue()
