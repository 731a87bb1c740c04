from datetime import date
from decimal import Decimal

import pytest
from filed import FiledClaim

from claimpack.core.survival import Wait, payment_curve, waits

TODAY = date(2026, 3, 1)


def paid(*days):
    return [Wait(day, paid=True) for day in days]


def still_open(*days):
    return [Wait(day, paid=False) for day in days]


def test_the_share_not_paid_falls_with_every_payment():
    steps = payment_curve(paid(10, 20, 30, 40)).steps
    assert [(step.day, step.unpaid) for step in steps] == [
        (10, Decimal("0.75")),
        (20, Decimal("0.5")),
        (30, Decimal("0.25")),
        (40, Decimal(0)),
    ]


def test_a_claim_still_open_leaves_without_a_payment():
    step = payment_curve(paid(10, 30) + still_open(20)).steps[1]
    assert (step.day, step.at_risk, step.paid, step.still_open, step.unpaid) == (
        20,
        2,
        0,
        1,
        payment_curve(paid(10, 30) + still_open(20)).steps[0].unpaid,
    )


def test_a_claim_last_seen_on_a_day_of_payments_waits_on_that_day():
    step = payment_curve(paid(10) + still_open(10)).steps[0]
    assert (step.at_risk, step.unpaid) == (2, Decimal("0.5"))


def test_a_half_is_reached_on_the_day_it_is_exactly_reached():
    curve = payment_curve(paid(1, 2, 3, 4))
    assert (curve.quarter, curve.median, curve.three_quarters) == (1, 2, 3)


def test_thirds_that_multiply_to_a_half_are_a_half():
    assert payment_curve(paid(5, 6, 7) + still_open(*[9] * 3)).median == 7


def test_the_median_of_a_curve_that_stays_above_a_half_is_not_known():
    assert payment_curve(paid(5) + still_open(9, 9, 9)).median is None


def test_all_paid_on_one_day_reach_everything_that_day():
    curve = payment_curve(paid(30, 30, 30))
    assert (curve.quarter, curve.median, curve.three_quarters) == (30, 30, 30)


def test_claims_that_are_all_open_show_no_payment():
    curve = payment_curve(still_open(3, 5))
    assert [step.unpaid for step in curve.steps] == [1, 1]
    assert curve.median is None


def test_without_claims_there_is_no_curve():
    assert payment_curve([]) == ((), None, None, None)


def test_the_band_lies_around_the_share():
    step = payment_curve(paid(10, 20, 30) + still_open(*[40] * 5)).steps[1]
    assert step.low < step.unpaid < step.high


def test_the_band_is_not_defined_when_all_are_paid():
    assert payment_curve(paid(10)).steps[0][-2:] == (None, None)


def test_before_the_first_payment_there_is_no_doubt():
    assert payment_curve(still_open(3) + paid(10, 20)).steps[0][-2:] == (1, 1)


def claim(state="filed", filed=date(2026, 1, 2), paid_on=None):
    return FiledClaim(state=state, filed=filed, paid_on=paid_on)


@pytest.mark.parametrize(
    ("waiting", "found"),
    [
        (claim("paid", paid_on=date(2026, 2, 1)), [Wait(30, paid=True)]),
        (claim("filed"), [Wait(58, paid=False)]),
        (claim("questioned"), [Wait(58, paid=False)]),
        (claim("accepted", paid_on=date(2026, 2, 1)), [Wait(58, paid=False)]),
        (claim("refused"), []),
        (claim("withdrawn"), []),
        (claim("written off"), []),
        (claim("draft", filed=None), []),
        (claim("filed", filed=date(2026, 3, 2)), []),
    ],
    ids=["paid", "filed", "questioned", "paid in part", "refused", "withdrawn", "written off", "draft", "filed later"],
)
def test_a_wait_lasts_until_the_claim_is_settled_or_today(waiting, found):
    assert waits([waiting], TODAY) == found


def test_a_payment_noted_before_the_filing_waited_no_day():
    assert waits([claim("paid", paid_on=date(2026, 1, 1))], TODAY) == [Wait(0, paid=True)]
