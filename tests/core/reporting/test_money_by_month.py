from datetime import date
from decimal import Decimal

from reported_claims import EVER, counted, paid, waiting

from claimpack.core.reporting.money_by_month import MoneyByMonth, by_currency, whole_of
from claimpack.core.reporting.reported import Days


def only(*claims):
    return counted(MoneyByMonth(EVER), claims)[0]


def test_claims_are_told_by_the_month_they_were_filed_in():
    months = counted(MoneyByMonth(EVER), [paid(filed=date(2026, 1, 31)), paid(filed=date(2026, 2, 1))])
    assert [(month.month, month.claims) for month in months] == [(date(2026, 1, 1), 1), (date(2026, 2, 1), 1)]


def test_a_month_in_between_without_claims_is_there():
    months = counted(MoneyByMonth(EVER), [paid(filed=date(2025, 11, 30)), paid(filed=date(2026, 2, 1))])
    assert [f"{month.month:%m} {month.claims}" for month in months] == ["11 1", "12 0", "01 0", "02 1"]


def test_what_the_maker_did_not_accept_is_short():
    month = only(paid(accepted=Decimal("70.00"), paid=Decimal("70.00")))
    assert (month.claimed, month.accepted, month.paid, month.short) == (100, 70, 70, 30)


def test_every_amount_claimed_is_paid_owed_written_off_or_short():
    lost = waiting(state="written off", outstanding=Decimal(0), written_off=Decimal("60.00"), paid=Decimal("30.00"))
    month = only(paid(), waiting(), lost)
    assert (month.paid, month.outstanding, month.written_off, month.short) == (130, 100, 60, 10)
    assert month.claimed == month.paid + month.outstanding + month.written_off + month.short


def test_what_was_paid_beyond_what_was_claimed_is_over_and_not_paid():
    month = only(paid(paid=Decimal("101.00")))
    assert (month.paid, month.over, month.short) == (100, 1, 0)


def test_what_one_claim_was_paid_over_is_not_taken_from_what_another_was_refused():
    refused = paid(accepted=Decimal("70.00"), paid=Decimal("70.00"))
    month = only(paid(paid=Decimal("180.00")), refused)
    assert (month.claimed, month.paid, month.short, month.over) == (200, 170, 30, 80)


def test_a_claim_paid_over_in_a_month_of_its_own_leaves_no_amount_below_zero():
    assert min(only(paid(paid=Decimal("180.00")))[3:]) == 0


def test_a_claim_withdrawn_is_left_out():
    assert counted(MoneyByMonth(EVER), [waiting(state="withdrawn")]) == ()


def test_a_claim_filed_before_the_days_is_left_out():
    assert counted(MoneyByMonth(Days(date(2026, 1, 11), date(2026, 3, 1))), [paid()]) == ()


def test_a_draft_is_left_out():
    assert counted(MoneyByMonth(EVER), [waiting(state="draft", filed=None)]) == ()


def test_each_currency_has_its_own_months():
    months = counted(MoneyByMonth(EVER), [paid(), paid(), paid(currency="CAD")])
    assert [(currency, whole_of(some).claims) for currency, some in by_currency(months).items()] == [
        ("USD", 2),
        ("CAD", 1),
    ]
