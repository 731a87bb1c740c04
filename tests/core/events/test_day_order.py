from datetime import date

import pytest
from new_events import OPENED, accepted_in_part, happened, paid

from claimpack.core.events.day_order import refuse_before_what_it_follows, refuse_received_after_heard
from claimpack.core.events.fold import stand
from claimpack.errors import BadInput


def march(day):
    return date(2026, 3, day)


FILED = happened("filed", march(2), claimed="150.00", currency="USD", revision="1")
REFUSED = happened("answered", march(20), answer="refused")
ACCEPTED = happened("answered", march(20), answer="accepted")
QUESTIONED = happened("answered", march(20), answer="questioned")
IN_PART = accepted_in_part("100.00", march(20))
PAID = paid("100.00", march(20))
TAKEN = happened("charged back", march(20), amount="20.00")
CALLED_BACK = happened("part called back", march(20), part="1")
RELEASED = happened("part released", march(20), part="1")


FOLLOWED = [
    ([REFUSED], "filed", "it was refused"),
    ([QUESTIONED], "filed", "the maker asked about it"),
    ([IN_PART], "filed", "it was accepted in part"),
    ([REFUSED], "answered", "it was refused"),
    ([happened("received", march(20))], "answered", "the maker received it"),
    ([ACCEPTED], "written off", "it was accepted"),
    ([PAID], "written off", "it was paid"),
    ([PAID, TAKEN], "written off", "money was taken back"),
    ([ACCEPTED, happened("written off", march(21), amount="150.00")], "reopened", "it was accepted"),
    ([ACCEPTED], "withdrawn", "it was accepted"),
    ([PAID], "charged back", "it was paid"),
    ([REFUSED], "answer undone", "it was refused"),
    ([PAID], "payment undone", "it was paid"),
    ([CALLED_BACK], "part called back", "it was called back"),
    ([CALLED_BACK], "part sent", "it was called back"),
    ([CALLED_BACK], "part released", "it was called back"),
    ([RELEASED], "part scrapped", "it was released"),
]


@pytest.mark.parametrize(("before", "what", "named"), FOLLOWED)
def test_a_step_lies_on_no_day_before_what_it_follows(before, what, named):
    step = happened(what, march(19), amount="50.00", part="1")
    with pytest.raises(BadInput, match=f"--on: 2026-03-19 is before 2026-03-20, the day {named}"):
        refuse_before_what_it_follows(stand([OPENED, FILED, *before]), step)


@pytest.mark.parametrize(("before", "what"), [case[:2] for case in FOLLOWED])
def test_a_step_may_lie_on_the_day_of_what_it_follows(before, what):
    step = happened(what, march(20), amount="50.00", part="1")
    assert refuse_before_what_it_follows(stand([OPENED, FILED, *before]), step) is None


@pytest.mark.parametrize("what", ["part called back", "part released", "part scrapped"])
def test_a_step_with_a_held_part_may_lie_on_any_day_where_nothing_came_before_it(what):
    assert refuse_before_what_it_follows(stand([FILED]), happened(what, march(1), part="1")) is None


def test_a_step_with_a_held_part_follows_nothing_of_another_part():
    step = happened("part released", march(19), part="2")
    assert refuse_before_what_it_follows(stand([FILED, CALLED_BACK]), step) is None


@pytest.mark.parametrize(
    ("undone", "step"),
    [(CALLED_BACK, "part call-back undone"), (RELEASED, "part release undone")],
)
def test_a_step_with_a_held_part_may_be_taken_back_on_a_day_before_it(undone, step):
    taken_back = happened(step, march(19), part="1", state="held")
    assert refuse_before_what_it_follows(stand([FILED, undone]), taken_back) is None


def test_what_was_taken_back_is_followed_by_nothing():
    undone = happened("part call-back undone", march(20), part="1", state="held")
    step = happened("part released", march(19), part="1")
    assert refuse_before_what_it_follows(stand([FILED, CALLED_BACK, undone]), step) is None


def test_money_may_come_in_before_the_answer_that_was_recorded_first():
    assert refuse_before_what_it_follows(stand([FILED, ACCEPTED]), paid("10.00", march(10))) is None


TWICE = [FILED, paid("60.00", march(10)), paid("40.00", march(20))]


def test_money_is_taken_back_from_what_had_come_in_by_then():
    assert refuse_before_what_it_follows(stand(TWICE), happened("charged back", march(15), amount="60.00")) is None


def test_money_is_taken_back_on_the_day_it_came_in():
    assert refuse_before_what_it_follows(stand(TWICE), happened("charged back", march(10), amount="60.00")) is None


def test_before_any_money_came_in_none_is_taken_back():
    with pytest.raises(BadInput, match="is before 2026-03-20, the day it was paid"):
        refuse_before_what_it_follows(stand(TWICE), happened("charged back", march(9), amount="0.01"))


def test_more_than_had_come_in_by_then_is_not_taken_back():
    with pytest.raises(BadInput, match="is before 2026-03-20, the day it was paid"):
        refuse_before_what_it_follows(stand(TWICE), happened("charged back", march(15), amount="60.01"))


@pytest.mark.parametrize("day", [19, 20])
def test_a_claim_was_received_by_the_day_the_maker_asked_about_it(day):
    assert refuse_received_after_heard(stand([FILED, QUESTIONED]), march(day)) is None


def test_a_claim_was_not_received_after_the_maker_asked_about_it():
    with pytest.raises(BadInput, match="2026-03-21 is after 2026-03-20, the day the maker asked about it"):
        refuse_received_after_heard(stand([FILED, QUESTIONED]), march(21))
