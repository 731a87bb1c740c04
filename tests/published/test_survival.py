"""The Kaplan-Meier curve against a reference library and a published table."""

import random

import pytest

from claimpack.core.reporting.payment_speed import Wait, payment_curve

pytestmark = pytest.mark.filterwarnings("ignore:Approximating using")
LIFELINES = pytest.mark.source("lifelines.KaplanMeierFitter as reference library (Greenwood's variance, log-log band)")


def drawn(seed, count, longest, paid_share):
    """So many waits; short ranges of days make ties."""
    draw = random.Random(seed)
    return [Wait(draw.randint(0, longest), draw.random() < paid_share) for _ in range(count)]


CASES = {
    "many ties": drawn(1, 200, 10, 0.7),
    "few ties": drawn(2, 60, 400, 0.6),
    "mostly open": drawn(3, 80, 90, 0.1),
    "all paid": drawn(4, 50, 60, 1.1),
    "all open": drawn(5, 30, 60, -1.0),
    "one paid": [Wait(14, paid=True)],
    "one open": [Wait(14, paid=False)],
    "paid and open the same day": [Wait(7, paid=True), Wait(7, paid=False), Wait(7, paid=True), Wait(9, paid=False)],
    "paid on the day of filing": [Wait(0, paid=True), Wait(0, paid=False), Wait(3, paid=True), Wait(5, paid=False)],
}


def fitted(waits):
    from lifelines import KaplanMeierFitter  # takes seconds to load: only when these tests run

    return KaplanMeierFitter().fit([wait.days for wait in waits], [wait.paid for wait in waits])


@LIFELINES
@pytest.mark.parametrize("waits", CASES.values(), ids=CASES)
def test_the_share_not_paid_is_the_library_s(waits):
    shares = fitted(waits).survival_function_["KM_estimate"]
    for step in payment_curve(waits).steps:
        assert float(step.unpaid) == pytest.approx(shares.loc[step.day], abs=1e-12)


@LIFELINES
@pytest.mark.parametrize("waits", CASES.values(), ids=CASES)
def test_the_numbers_at_risk_paid_and_open_are_the_library_s(waits):
    table = fitted(waits).event_table
    for step in payment_curve(waits).steps:
        row = table.loc[step.day]
        assert (step.at_risk, step.paid, step.still_open) == (row.at_risk, row.observed, row.censored)


@LIFELINES
@pytest.mark.parametrize("waits", CASES.values(), ids=CASES)
def test_the_band_is_the_library_s(waits):
    band = fitted(waits).confidence_interval_
    for step in payment_curve(waits).steps:
        low, high = band.loc[step.day]
        if 0 < step.unpaid < 1:
            assert (float(step.low), float(step.high)) == (pytest.approx(low, abs=1e-9), pytest.approx(high, abs=1e-9))
        else:
            assert (step.low, step.high) == ((None, None) if step.unpaid == 0 else (1, 1))


@LIFELINES
@pytest.mark.parametrize("waits", CASES.values(), ids=CASES)
def test_median_and_quarters_are_the_library_s(waits):
    fit, curve = fitted(waits), payment_curve(waits)
    expected = [fit.percentile(share + 1e-12) for share in (0.75, 0.5, 0.25)]  # binary fractions miss a half by a hair
    found = [curve.quarter, curve.median, curve.three_quarters]
    assert [float("inf") if day is None else day for day in found] == expected


@pytest.mark.memory
def test_the_remission_times_of_the_treated_group_of_a_textbook_trial():
    """Freireich et al. 1963, 6-MP group, as most texts print it: S(6) 0.857, S(7) 0.807, S(13) 0.690, S(23) 0.448."""
    paid = [6, 6, 6, 7, 10, 13, 16, 22, 23]
    still_open = [6, 9, 10, 11, 17, 19, 20, 25, 32, 32, 34, 35]
    curve = payment_curve([*(Wait(day, paid=True) for day in paid), *(Wait(day, paid=False) for day in still_open)])
    shares = {step.day: round(float(step.unpaid), 3) for step in curve.steps}
    assert [shares[day] for day in (6, 7, 13, 23)] == [0.857, 0.807, 0.69, 0.448]
    assert curve.median == 23
