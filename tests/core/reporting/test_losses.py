from __future__ import annotations

from datetime import date, timedelta
from decimal import Decimal

import pytest
from new_events import FILED, OPENED, accepted_in_part, paid
from reported_claims import PAID, counted

from claimpack.core.events.events import NewEvent
from claimpack.core.events.fold import stand
from claimpack.core.events.standing import Standing
from claimpack.core.judging.claim_summary import ClaimSummary
from claimpack.core.plans.terms import Terms
from claimpack.core.reporting.losses import Loss, Losses, Whose, losses_of
from claimpack.core.reporting.reported import Days

TERMS = Terms(id="x", name="x", answer_within="P30D", pay_within="P30D", resubmit_within="P30D")
LAST = date(2026, 3, 2)


def happened(what, why="", **facts):
    return NewEvent(what=what, on=FILED.on, why=why, facts=facts)


def lost(*events, today=date(2026, 12, 1), file_by=None, chased=False, draft=False):
    """The cause and the amount of all that is lost of a claim of 150.00 after events."""
    standing = Standing() if draft else stand([OPENED, FILED, *events])
    summary = ClaimSummary(verdict="covered", claimed=Decimal("150.00"), currency="USD", file_by=file_by)
    found = losses_of(Whose("26-0001", "Halden", TERMS, is_chased=chased), standing, summary, today)
    return [(loss.cause, str(loss.amount)) for loss in found]


GIVEN_UP = happened("written off", amount="150.00")
TAKEN_BACK = happened("charged back", amount="150.00")
CALLED = happened("part called back", part="1", send_by="2026-03-10")


@pytest.mark.parametrize(("today", "causes"), [(LAST, []), (date(2026, 3, 3), [("missed filing", "150.00")])])
def test_a_draft_past_its_last_day_to_file_is_lost(today, causes):
    assert lost(draft=True, file_by=LAST, today=today) == causes


def test_a_claim_filed_too_late_and_given_up_was_lost_by_filing():
    assert lost(GIVEN_UP, file_by=date(2020, 1, 1)) == [("missed filing", "150.00")]


def test_a_refusal_for_form_that_was_not_put_right_in_time_is_lost():
    refused = happened("answered", answer="refused", form="yes")
    assert lost(refused) == lost(refused, GIVEN_UP) == [("missed resubmission", "150.00")]


def test_a_refusal_that_is_given_up_is_lost_by_the_refusal():
    assert lost(happened("answered", answer="refused"), GIVEN_UP) == [("refused", "150.00")]


@pytest.mark.parametrize(("today", "count"), [(30, 0), (31, 0), (32, 1)])
def test_a_refusal_for_form_is_lost_from_the_day_after_the_last_to_put_it_right(today, count):
    refused = happened("answered", answer="refused", form="yes")
    assert len(lost(refused, today=FILED.on + timedelta(days=today - 1))) == count


@pytest.mark.parametrize(("file_by", "cause"), [(0, "missed filing"), (1, "given up unpaid"), (2, "given up unpaid")])
def test_a_claim_filed_on_its_last_day_was_filed_in_time(file_by, cause):
    assert lost(GIVEN_UP, file_by=FILED.on + timedelta(days=file_by - 1)) == [(cause, "150.00")]


@pytest.mark.parametrize(("today", "count"), [(9, 0), (10, 0), (11, 1)])
def test_a_part_called_back_may_still_be_sent_on_its_last_day(today, count):
    assert len(lost(paid("150.00"), CALLED, TAKEN_BACK, today=date(2026, 3, today))) == count


def test_what_the_maker_paid_again_for_a_part_that_was_not_sent_is_not_lost():
    assert lost(paid("150.00"), CALLED, TAKEN_BACK, paid("100.00")) == [("part not kept", "50.00")]


@pytest.mark.parametrize("then", [(), (happened("shelf counted", part="1", found="no"),)], ids=["not sent", "missing"])
def test_money_taken_back_for_a_part_that_was_not_sent_or_found_is_lost(then):
    assert lost(paid("150.00"), CALLED, TAKEN_BACK, *then) == [("part not kept", "150.00")]


def test_money_taken_back_for_a_part_that_was_sent_is_not_lost_yet():
    sent = happened("part sent", part="1")
    assert lost(paid("150.00"), CALLED, sent, TAKEN_BACK) == []
    assert lost(paid("150.00"), CALLED, sent, TAKEN_BACK, GIVEN_UP) == [("charged back", "150.00")]


def test_money_given_up_for_a_part_that_was_not_sent_counts_once():
    assert lost(paid("150.00"), CALLED, TAKEN_BACK, GIVEN_UP) == [("part not kept", "150.00")]


@pytest.mark.parametrize(
    ("chased", "cause"), [(False, "short pay, no letter noted"), (True, "short pay, chased in vain")]
)
def test_a_short_pay_that_is_given_up_says_whether_it_was_chased(chased, cause):
    rest = happened("written off", amount="30.00")
    assert lost(paid("120.00"), rest, chased=chased) == [(cause, "30.00")]


def test_a_rest_that_the_maker_refused_and_the_shop_let_go_is_lost_by_the_refusal():
    let_go = happened("written off", amount="30.00", rest="30.00")
    assert lost(accepted_in_part("120.00"), paid("120.00"), let_go) == [("refused", "30.00")]


def test_a_claim_filed_too_late_and_paid_in_part_was_not_lost_by_filing():
    short = (paid("120.00"), happened("written off", amount="30.00"))
    assert lost(*short, file_by=date(2020, 1, 1)) == [("short pay, no letter noted", "30.00")]


def test_a_refused_rest_that_was_let_go_is_lost_besides_money_taken_back():
    let_go = happened("written off", amount="30.00", rest="30.00")
    taken = (CALLED, happened("charged back", amount="120.00"))
    found = lost(accepted_in_part("120.00"), paid("120.00"), let_go, *taken)
    assert found == [("part not kept", "120.00"), ("refused", "30.00")]


def test_a_claim_that_is_waited_for_is_not_lost():
    assert lost() == lost(accepted_in_part("90.00")) == []


@pytest.mark.parametrize(
    ("standing", "currency"),
    [(Standing(), "CAD"), (stand([OPENED, FILED, GIVEN_UP]), "USD")],
    ids=["a draft in its plan's", "a filed claim as it was filed"],
)
def test_what_is_lost_is_lost_in_the_currency_of_the_claim(standing, currency):
    summary = ClaimSummary(verdict="covered", claimed=Decimal("150.00"), currency="CAD", file_by=LAST)
    found = losses_of(Whose("26-0001", "Halden", TERMS, is_chased=False), standing, summary, date(2026, 12, 1))
    assert [loss.currency for loss in found] == [currency]


def test_claims_that_lost_money_for_one_cause_are_counted():
    some = [PAID._replace(losses=(Loss(number, "Halden", "refused", Decimal(5), "USD", LAST),)) for number in "123"]
    assert [one.claims for one in counted(Losses(Days(None, LAST)), some)] == [3]


def test_causes_stand_in_their_order_and_currencies_apart():
    some = [
        Loss("1", "Halden", "refused", Decimal(5), "USD", LAST),
        Loss("2", "Halden", "missed filing", Decimal(7), "USD", LAST),
        Loss("3", "Halden", "refused", Decimal(9), "CAD", LAST),
        Loss("4", "Halden", "refused", Decimal(1), "USD", date(2026, 3, 3)),
    ]
    found = counted(Losses(Days(None, LAST)), [PAID._replace(losses=(one,)) for one in some])
    assert [(one.cause, one.currency, one.amount) for one in found] == [
        ("missed filing", "USD", 7),
        ("refused", "CAD", 9),
        ("refused", "USD", 5),
    ]
