"""Worked examples of payment rights in law: the shipped terms against the days their sections give."""

from datetime import date, timedelta
from decimal import Decimal

import pytest
from filed import FiledClaim

from claimpack.core.payment.payment_dates import payment_dates
from claimpack.core.plans.terms import parts_floor_gap
from claimpack.template_files import Places, read_terms

TEXAS = pytest.mark.source("Tex. Bus. & Com. Code 57.253, 57.257, read 2026-11-25")
WASHINGTON = pytest.mark.source("Wash. RCW 19.98.170, read 2026-11-25")
SOUTH_CAROLINA = pytest.mark.source("S.C. Code 39-59-100, read 2026-11-25")


def dates(terms, **facts):
    return payment_dates(FiledClaim(**facts), read_terms(terms, Places()))


@TEXAS
def test_texas_accepts_by_silence_on_the_45th_day_and_pays_30_days_later():
    found = dates("us-tx", received=date(2026, 1, 2))
    assert found.answer_due == found.accepted_by_silence_on == date(2026, 2, 16)
    assert found.pay_due == date(2026, 3, 18)


@TEXAS
@pytest.mark.parametrize(("day", "spoken"), [(15, False), (16, False), (17, True)])
def test_silence_speaks_at_the_end_of_the_last_day(day, spoken):
    assert dates("us-tx").silence_has_spoken(date(2026, 2, day)) is spoken


@TEXAS
@pytest.mark.parametrize("state", ["accepted", "refused", "questioned"])
def test_an_answer_after_the_45th_day_takes_nothing_from_the_days_texas_gives(state):
    late = {"state": state, "answered": date(2026, 3, 5), "heard": date(2026, 3, 5)}
    accepted = date(2026, 3, 5) if state == "accepted" else None
    found = dates("us-tx", received=date(2026, 1, 2), accepted_on=accepted, **late)
    assert (found.accepted_by_silence_on, found.pay_due) == (date(2026, 2, 16), date(2026, 3, 18))


@TEXAS
def test_an_answer_on_the_45th_day_is_in_time():
    in_time = {"state": "refused", "answered": date(2026, 2, 16), "heard": date(2026, 2, 16)}
    assert dates("us-tx", received=date(2026, 1, 2), **in_time).accepted_by_silence_on is None


@TEXAS
def test_a_refusal_without_grounds_counts_as_acceptance_in_texas():
    assert read_terms("us-tx", Places()).without_grounds == "accepted"


@WASHINGTON
def test_washington_counts_payment_from_the_end_of_the_answer_period():
    found = dates("us-wa", received=date(2026, 1, 2))
    assert (found.answer_due, found.pay_due) == (date(2026, 2, 1), date(2026, 3, 3))


@SOUTH_CAROLINA
def test_south_carolina_counts_the_answer_from_receipt_and_inspection_from_filing():
    found = dates("us-sc", filed=date(2026, 1, 2), received=date(2026, 1, 5))
    assert (found.answer_due, found.pay_due) == (date(2026, 2, 4), date(2026, 3, 6))
    assert found.inspect_by == date(2026, 3, 3)


@pytest.mark.source("S.D. Codified Laws 32-39-1, read 2026-11-25")
def test_south_dakota_gives_30_days_to_send_in_again():
    found = dates("us-sd-agricultural", state="refused", answered=date(2026, 2, 10), refused_for_form=True)
    assert found.resubmit_by == date(2026, 3, 12)


@pytest.mark.source("S.D. Codified Laws 37-5-17, read 2026-11-25")
def test_south_dakota_asks_for_cost_plus_30_percent_on_parts():
    terms = read_terms("us-sd-outdoor-power", Places())
    assert terms.floor_of(Decimal("40.00")) == Decimal("52.00")
    assert parts_floor_gap(Decimal("40.00"), Decimal("0.20"), terms, "USD") == Decimal("4.00")


@TEXAS
def test_texas_reaches_back_to_the_first_anniversary_of_payment():
    found = dates("us-tx", state="paid", paid_on=date(2026, 3, 18))
    assert found.audit_until == date(2027, 3, 18)


@pytest.mark.source("day counts: the day of the event is left out, the last day counts; Reg. 1182/71 Art. 3(1)")
@pytest.mark.parametrize("terms", ["us-sc", "us-wa", "us-la", "us-mn", "us-ny", "us-sd-agricultural"])
def test_thirty_days_to_answer_are_thirty_days_after_receipt(terms):
    assert dates(terms).answer_due == date(2026, 1, 2) + timedelta(days=30)
