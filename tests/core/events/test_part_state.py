from datetime import date

import pytest
from new_events import DAY, LATER, OPENED, PART_WAY_TO, happened, part

from claimpack.core.events.fold import stand
from claimpack.core.events.part_state import HeldStanding
from claimpack.core.holding.release_rules import RAN_OUT, RELEASED

ASKED_AGAIN = [*PART_WAY_TO["called back"], happened("part called back", LATER, part="1", send_by="2026-04-30")]


def stood(events, undone, state):
    """Where the part stands after its last step was undone."""
    return stand([*events, part(undone, state=state)]).part(1)


def test_a_part_called_back_knows_when_it_must_be_sent():
    called = stand(PART_WAY_TO["called back"]).part(1)
    assert called == HeldStanding(index=1, state="called back", called_back=DAY, send_by=date(2026, 3, 20))


def test_another_day_to_send_it_by_moves_that_day_alone():
    called = stand(ASKED_AGAIN).part(1)
    assert (called.state, called.called_back, called.send_by) == ("called back", DAY, date(2026, 4, 30))


def test_a_released_part_carries_the_rule_that_let_it_go():
    assert stand(PART_WAY_TO["released"]).part(1).rule == "hold over"


def test_a_part_not_found_is_missing_until_a_count_finds_it():
    lost = happened("shelf counted", LATER, part="1", found="no")
    found = happened("shelf counted", LATER, part="1", found="yes")
    assert [stand([OPENED, lost]).part(1).missing, stand([OPENED, lost, found]).part(1).missing] == [LATER, None]


@pytest.mark.parametrize(
    ("before", "step", "undone"),
    [
        ("held", [part("called back", send_by="2026-03-20")], "call-back undone"),
        ("called back", [part("sent")], "sending undone"),
        ("held", [part("released", rule=RELEASED)], "release undone"),
        ("called back", [part("released", rule=RELEASED)], "release undone"),
        ("released", [part("scrapped")], "scrapping undone"),
        ("held", [part("released", rule=RAN_OUT), part("scrapped")], "scrapping undone"),
    ],
)
def test_after_an_undone_step_a_part_stands_as_if_it_had_not_been(before, step, undone):
    way = PART_WAY_TO[before]
    expected = stand(way).part(1)
    assert stood([*way, *step], undone, before) == expected


def test_a_day_undone_leaves_the_one_the_maker_named_before():
    assert stood(ASKED_AGAIN, "call-back undone", "called back") == stand(PART_WAY_TO["called back"]).part(1)
