"""What a claim keeps of the filings it had: the first, the one the maker asked about, and how it stood meanwhile."""

from datetime import date
from decimal import Decimal

import pytest
from folded_claims import PAID_IN_PART
from new_events import (
    ACCEPTED,
    DAY,
    FILED,
    LATER,
    OPENED,
    PAYMENT_UNDONE,
    QUESTIONED,
    REFUSED,
    UNDONE,
    WAY_TO,
    accepted_in_part,
    happened,
    paid,
    part,
)

from claimpack.core.events.fold import stand

AGAIN = happened("filed", LATER, claimed="150.00", currency="USD", received="2026-04-04")
ONCE_MORE = happened("filed", date(2026, 5, 5), claimed="150.00", currency="USD")
RECEIVED = date(2026, 3, 3)


def test_a_claim_sent_in_again_was_first_filed_on_its_first_day():
    standing = stand([*WAY_TO["refused"], AGAIN])
    assert (standing.first_filed, standing.filed) == (DAY, LATER)


def test_a_claim_filed_once_was_first_filed_then():
    assert stand(WAY_TO["filed"]).first_filed == DAY


@pytest.mark.parametrize(
    ("events", "asked"),
    [
        ([QUESTIONED, AGAIN], (DAY, RECEIVED)),
        ([QUESTIONED, AGAIN, QUESTIONED, ONCE_MORE], (DAY, RECEIVED)),
        ([REFUSED, AGAIN], (None, None)),
        ([QUESTIONED, AGAIN, REFUSED, ONCE_MORE], (None, None)),
        ([], (None, None)),
    ],
    ids=["asked", "asked twice", "refused", "asked and then refused", "filed once"],
)
def test_the_filing_that_a_question_was_about_is_kept_until_another_answer(events, asked):
    standing = stand([OPENED, FILED, *events])
    assert (standing.asked_filed, standing.asked_received) == asked


@pytest.mark.parametrize(("before", "count"), [([], 0), ([paid("10.00"), paid("20.00")], 2)])
def test_the_payments_before_the_last_filing_are_counted(before, count):
    assert stand([OPENED, FILED, *before, QUESTIONED, AGAIN, paid("5.00")]).paid_before == count


def test_a_day_of_receipt_that_is_not_told_with_the_filing_is_not_known():
    assert stand([OPENED, FILED, QUESTIONED, ONCE_MORE]).received is None


def test_a_scrapped_part_keeps_how_its_claim_stood():
    gone = [part("released"), part("scrapped")]
    kept = stand([OPENED, FILED, ACCEPTED, paid("150.00", date(2026, 3, 9)), *gone, paid("1.00", LATER)]).part(1)
    assert (kept.then_filed, kept.then_received, kept.then_paid) == (DAY, RECEIVED, date(2026, 3, 9))


def test_a_part_that_is_only_released_keeps_nothing_of_its_claim():
    assert stand([OPENED, FILED, part("released")]).part(1).then_filed is None


@pytest.mark.parametrize(("facts", "shop"), [({"shop": "ashby"}, "ashby"), ({}, "")])
def test_whose_claim_it_is_is_told_as_it_is_opened_or_later(facts, shop):
    told = [stand([happened("opened", **facts)]), stand([OPENED, happened("shop named", **facts)])]
    assert [standing.shop for standing in told] == [shop, shop]


def test_as_much_of_the_accepted_part_as_of_the_refused_rest_given_up_ends_the_claim():
    accepted = happened("answered", answer="part", amount="75.00")
    standing = stand([OPENED, FILED, accepted, happened("written off", amount="150.00", rest="75.00")])
    assert (standing.state, standing.written_off, standing.rest_written_off) == ("written off", 150, 75)


def test_a_claim_that_comes_to_nothing_is_written_off_all_the_same():
    free = happened("filed", claimed="0.00", currency="USD")
    assert stand([OPENED, free, happened("written off", amount="0")]).state == "written off"


FILED_AGAIN = [*PAID_IN_PART, happened("filed", LATER, claimed="150.00", currency="USD")]


def test_a_claim_filed_again_after_payment_counts_what_was_paid():
    standing = stand(FILED_AGAIN)
    assert (standing.state, standing.paid, standing.outstanding) == ("filed", Decimal("100.00"), Decimal("50.00"))


def test_a_claim_filed_again_waits_for_an_answer_and_not_for_the_old_one():
    standing = stand(FILED_AGAIN)
    assert (standing.answers, standing.accepted_on, standing.refused_rest) == ((), None, 0)


@pytest.mark.parametrize(("accepted", "state"), [("100.00", "paid"), ("100.01", "accepted")])
def test_the_answer_to_a_claim_filed_again_settles_what_is_paid_already(accepted, state):
    assert stand([*FILED_AGAIN, accepted_in_part(accepted)]).state == state


def test_an_answer_undone_after_filing_again_waits_for_the_answer():
    assert stand([*FILED_AGAIN, ACCEPTED, UNDONE]).state == "filed"


def test_a_payment_undone_after_filing_again_waits_for_the_answer():
    standing = stand([*FILED_AGAIN, paid("50.00", LATER), PAYMENT_UNDONE])
    assert (standing.state, standing.paid, standing.accepted_on) == ("filed", Decimal("100.00"), None)


def test_an_earlier_payment_undone_after_filing_again_is_owed_by_the_new_answer():
    standing = stand([*FILED_AGAIN, ACCEPTED, PAYMENT_UNDONE])
    assert (standing.state, standing.paid, standing.outstanding) == ("accepted", 0, Decimal("150.00"))


def test_a_part_that_came_after_an_earlier_payment_was_undone_is_no_acceptance():
    standing = stand([*FILED_AGAIN, ACCEPTED, PAYMENT_UNDONE, paid("140.00", LATER), UNDONE])
    assert (standing.state, standing.outstanding) == ("filed", Decimal("10.00"))
