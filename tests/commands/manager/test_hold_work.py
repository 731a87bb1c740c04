from __future__ import annotations

import datetime as dt

import pytest
from manager_shop import PART, a_managed_shop, filed_in
from running import NOW, Pipe

from claimpack.commands.desk.world import World
from claimpack.commands.manager.hold_work import HoldStep
from claimpack.core.events.events import NewEvent
from claimpack.core.holding.release_rules import RELEASED
from claimpack.errors import AlreadyChanged, BadInput, WrongState

MORNING = dt.datetime(2026, 3, 20, 8, tzinfo=NOW.tzinfo)
TODAY = MORNING.date()


@pytest.fixture
def work(tmp_path):
    """A step on the 20th of March in a shop with a filed claim that holds two parts."""
    shop = a_managed_shop(tmp_path)
    filed_in(shop, "26-0001", held=[PART, PART])
    environ = {"CLAIMPACK_WHO": "ann"}
    world = World(stdin=Pipe(), stdout=Pipe(), stderr=Pipe(), environ=environ, folder=shop, clock=MORNING)
    return HoldStep.begun(world, "", "No room.", "")


def step(what, nth, on=TODAY, **facts):
    return NewEvent(what=what, on=on, facts={"part": str(nth), **facts})


def both(work):
    return [work.find(f"26-0001/{nth}") for nth in (1, 2)]


def events(work):
    return [event.what for event in work.desk.book.history("26-0001") if event.what.startswith("part")]


def test_a_step_is_of_today_unless_told(work):
    assert (work.step.on, work.step.why) == (TODAY, "No room.")


def test_parts_of_one_claim_are_recorded_in_one_change(work):
    work.keep_all([(part, [step("part called back", part.code.nth)]) for part in both(work)])
    assert events(work) == ["part called back"] * 2
    assert {part.keeping.state for part in both(work)} == {"called back"}


def test_an_impossible_day_of_one_part_keeps_both_as_they_were(work):
    first, second = both(work)
    tomorrow = TODAY + dt.timedelta(1)
    with pytest.raises(BadInput):
        work.keep_all([(first, [step("part called back", 1)]), (second, [step("part called back", 2, tomorrow)])])
    assert events(work) == []


def test_a_part_that_somebody_moved_meanwhile_is_not_changed(work):
    first, again = work.find("26-0001/1"), work.find("26-0001/1")
    work.keep(first, first.entry.claim, step("part called back", 1))
    with pytest.raises(AlreadyChanged):
        work.keep(again, again.entry.claim, step("part called back", 1))


def test_a_step_that_does_not_follow_is_refused_before_anything_is_written(work):
    with pytest.raises(WrongState):
        work.refuse_unless_it_follows(work.find("26-0001/1"), step("part sent", 1))


@pytest.mark.parametrize(("left", "command"), [("part sent", "hold send"), ("part scrapped", "hold scrap")])
def test_a_part_leaves_the_shop_once(work, left, command):
    part = work.find("26-0001/1")
    before = "part called back" if left == "part sent" else "part released"
    work.keep(part, part.entry.claim, step(before, 1, rule=RELEASED), step(left, 1))
    with pytest.raises(WrongState) as refused:
        work.refuse_what_is_gone(both(work))
    assert f"claimpack {command} 26-0001/1 --undo" in refused.value.do


def test_each_caution_is_shown_once(work):
    work.caution(both(work))
    cautions = [line for line in work.say.world.stderr.getvalue().splitlines() if line.startswith("!")]
    assert len(cautions) == len(set(cautions)) > 0


def test_scripts_read_the_code_and_the_facts(work):
    assert work.tell(work.find("26-0001/1"), "was sent", {"carrier": "Northway"}, json=True) == 0
    assert '"code": "26-0001/1"' in work.say.world.stdout.getvalue()
