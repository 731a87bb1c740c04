from __future__ import annotations

import datetime as dt

import pytest
from running import NOW, Pipe
from shop_builders import a_shop, happen, the_desk

from claimpack.commands.desk.world import World
from claimpack.commands.money.settled import take, tell
from claimpack.core.events.events import NewEvent
from claimpack.errors import BadInput, NotFound, WrongState


@pytest.fixture
def filed(tmp_path):
    shop = a_shop(tmp_path)
    happen(shop, "26-0001", "filed", claimed="150.00", currency="USD")
    return shop


def a_world(shop):
    return World(stdin=Pipe(), stdout=Pipe(), stderr=Pipe(), environ={"CLAIMPACK_WHO": "ann"}, folder=shop, clock=NOW)


def withdrawn(_standing, step):
    return NewEvent(what="withdrawn", on=step.on, why=step.why)


def steps(shop):
    return [event.what for event in the_desk(shop).book.history("26-0001")]


def test_a_step_is_recorded_with_its_day_and_reason(filed):
    taken = take(a_world(filed), "26-0001", withdrawn, on="2026-03-01", why="  no\n fault found ")
    event = the_desk(filed).book.history("26-0001")[-1]
    assert (taken.standing.state, event.on, event.why, event.who) == (
        "withdrawn",
        dt.date(2026, 3, 1),
        "no\n fault found",
        "ann",
    )


def test_a_step_without_a_day_is_taken_today(filed):
    take(a_world(filed), "26-0001", withdrawn, today="2026-03-31")
    assert the_desk(filed).book.history("26-0001")[-1].on == dt.date(2026, 3, 31)


@pytest.mark.parametrize(
    ("on", "says"),
    [
        ("2026-03-02", "2026-03-02 is still to come"),
        ("2026-02-28", "is before 2026-03-01, the day the claim was filed"),
        ("2026-02-30", "--on: '2026-02-30' is not a date"),
        ("1899-12-31", "--on"),
    ],
    ids=["tomorrow", "before filing", "no day", "a slip of the pen"],
)
def test_a_day_that_cannot_be_is_refused_and_nothing_recorded(filed, on, says):
    with pytest.raises(BadInput, match=says):
        take(a_world(filed), "26-0001", withdrawn, on=on)
    assert steps(filed) == ["opened", "filed"]


def test_a_reason_that_cannot_be_printed_names_its_option(filed):
    with pytest.raises(BadInput, match="--because: holds the control character U\\+0007"):
        take(a_world(filed), "26-0001", withdrawn, why="\x07")


def test_what_does_not_follow_is_not_recorded(filed):
    take(a_world(filed), "26-0001", withdrawn)
    with pytest.raises(WrongState):
        take(a_world(filed), "26-0001", withdrawn)
    assert steps(filed) == ["opened", "filed", "withdrawn"]


def test_a_claim_that_is_not_there_takes_no_step(filed):
    with pytest.raises(NotFound, match="26-0009"):
        take(a_world(filed), "26-0009", withdrawn)


def test_where_the_claim_stands_is_the_answer_and_notes_stand_beside_it(filed):
    world = a_world(filed)
    code = tell(take(world, "26-0001", withdrawn), json=False, notes=("See: claimpack reopen",))
    assert (code, world.stderr.getvalue()) == (0, "See: claimpack reopen\n")
    assert world.stdout.getvalue().startswith("26-0001 is withdrawn: ")


def test_a_claim_that_was_never_filed_has_no_money_told(tmp_path):
    world = a_world(a_shop(tmp_path))
    tell(take(world, "26-0001", withdrawn), json=False)
    assert world.stdout.getvalue() == "26-0001 is withdrawn\n"
