from datetime import date, timedelta
from decimal import Decimal

import pytest
from filed import FiledClaim
from reported_claims import EVER, TODAY, counted, paid, waiting

from claimpack.core.reporting.payment_speed import PaymentSpeeds, Wait, paid_within, payment_curve, wait_of
from claimpack.core.reporting.reported import Days


def paid_after(*days, maker="Halden"):
    filed = date(2025, 11, 1)
    return [
        paid(f"{maker} {n}", maker=maker, filed=filed, paid_on=filed + timedelta(day)) for n, day in enumerate(days)
    ]


def speed(claims, days=EVER):
    return counted(PaymentSpeeds(days, TODAY), claims)


def test_open_claims_count_as_open():
    found = speed([*paid_after(10, 20), waiting()])
    assert (found.paid, found.still_open) == (2, 1)


def test_an_open_claim_makes_the_median_later():
    assert (speed(paid_after(10, 20)).curve.median, speed([*paid_after(10, 20), waiting()]).curve.median) == (10, 20)


def test_a_maker_with_ten_claims_is_told_alone():
    assert [maker.maker for maker in speed(paid_after(*range(10, 20))).makers] == ["Halden"]


def test_a_maker_with_nine_claims_is_not():
    found = speed(paid_after(*range(10, 19)))
    assert (found.makers, found.too_few) == ((), ("Halden",))


def test_a_maker_for_whose_claims_nobody_waits_is_not_among_those_with_too_few():
    assert speed([waiting(state="refused")]).too_few == ()


@pytest.mark.parametrize(("payments", "enough"), [(4, False), (5, True), (6, True)])
def test_a_curve_needs_five_payments(payments, enough):
    assert speed(paid_after(*range(payments))).enough is enough


@pytest.mark.parametrize(
    ("facts", "in_part"),
    [
        ({"state": "accepted", "paid": Decimal("0.01")}, 1),
        ({"state": "accepted"}, 0),
        ({"state": "refused", "paid": Decimal("0.01")}, 0),
    ],
    ids=["a cent", "nothing", "refused after all"],
)
def test_an_open_claim_for_which_some_money_came_is_paid_in_part(facts, in_part):
    assert speed([waiting(**facts)]).in_part == in_part


@pytest.mark.parametrize(
    ("facts", "left_paid"),
    [
        ({"state": "refused", "paid_on": TODAY}, 1),
        ({"state": "refused"}, 0),
        ({"state": "accepted", "paid_on": TODAY}, 0),
        ({"state": "paid", "paid_on": TODAY}, 0),
    ],
    ids=["had brought money", "brought none", "still waited for", "paid"],
)
def test_claims_nobody_waits_for_any_more_are_counted_where_they_had_brought_money(facts, left_paid):
    assert speed([waiting(**facts)]).left_paid == left_paid


def test_the_fastest_maker_stands_first_and_one_without_a_median_last():
    slow = [waiting(f"s{n}", maker="Slow") for n in range(10)]
    claims = [*slow, *paid_after(*[40] * 10, maker="Halden"), *paid_after(*[20] * 10, maker="Tessaly")]
    assert [(maker.maker, maker.median) for maker in speed(claims).makers] == [
        ("Tessaly", 20),
        ("Halden", 40),
        ("Slow", None),
    ]


def test_claims_filed_before_the_days_do_not_count():
    assert speed(paid_after(10, 20), Days(date(2025, 11, 2), TODAY)).paid == 0


def test_the_share_paid_is_told_at_each_mark_that_was_watched_for():
    found = paid_within(speed(paid_after(10, 20, 40, 50)).curve, (15, 30, 45, 60))
    assert [(mark.days, mark.share, mark.waiting) for mark in found] == [
        (15, Decimal("0.25"), 3),
        (30, Decimal("0.5"), 2),
        (45, Decimal("0.75"), 1),
    ]


def test_a_mark_takes_in_what_was_paid_on_its_day():
    assert [mark.share for mark in paid_within(speed(paid_after(15, 40)).curve, (14, 15))] == [0, Decimal("0.5")]


@pytest.mark.parametrize(("mark", "told"), [(39, 1), (40, 1), (41, 0)])
def test_a_share_is_told_up_to_the_last_day_that_anybody_was_watched(mark, told):
    assert len(paid_within(speed(paid_after(15, 40)).curve, (mark,))) == told


def test_before_the_first_payment_nothing_is_paid():
    assert paid_within(speed(paid_after(40, 50)).curve, (15,))[0].share == 0


def test_the_band_lies_around_the_share_paid():
    mark = paid_within(speed(paid_after(10, 20, 40, 50)).curve, (30,))[0]
    assert 0 < mark.low < mark.share < mark.high < 1


def test_without_claims_no_share_is_told():
    assert paid_within(speed([]).curve) == ()


TODAY_survival = date(2026, 3, 1)


def paid_survival(*days):
    return [Wait(day, paid=True) for day in days]


def still_open(*days):
    return [Wait(day, paid=False) for day in days]


def test_the_share_not_paid_falls_with_every_payment():
    steps = payment_curve(paid_survival(10, 20, 30, 40)).steps
    assert [(step.day, step.unpaid) for step in steps] == [
        (10, Decimal("0.75")),
        (20, Decimal("0.5")),
        (30, Decimal("0.25")),
        (40, Decimal(0)),
    ]


def test_a_claim_still_open_leaves_without_a_payment():
    step = payment_curve(paid_survival(10, 30) + still_open(20)).steps[1]
    assert (step.day, step.at_risk, step.paid, step.still_open, step.unpaid) == (
        20,
        2,
        0,
        1,
        payment_curve(paid_survival(10, 30) + still_open(20)).steps[0].unpaid,
    )


def test_a_claim_last_seen_on_a_day_of_payments_waits_on_that_day():
    step = payment_curve(paid_survival(10) + still_open(10)).steps[0]
    assert (step.at_risk, step.unpaid) == (2, Decimal("0.5"))


def test_who_was_paid_or_is_still_open_waits_no_longer():
    steps = payment_curve([*paid_survival(10, 30), *still_open(20, 30)]).steps
    assert [step.at_risk for step in steps] == [4, 3, 2]


def test_those_who_still_wait_at_a_mark_are_neither_paid_nor_last_seen_before():
    (within,) = paid_within(payment_curve([*paid_survival(10, 60), *still_open(10, 60)]), (30,))
    assert within.waiting == 2


def test_a_half_is_reached_on_the_day_it_is_exactly_reached():
    curve = payment_curve(paid_survival(1, 2, 3, 4))
    assert (curve.quarter, curve.median, curve.three_quarters) == (1, 2, 3)


def test_thirds_that_multiply_to_a_half_are_a_half():
    assert payment_curve(paid_survival(5, 6, 7) + still_open(*[9] * 3)).median == 7


def test_the_median_of_a_curve_that_stays_above_a_half_is_not_known():
    assert payment_curve(paid_survival(5) + still_open(9, 9, 9)).median is None


def test_all_paid_on_one_day_reach_everything_that_day():
    curve = payment_curve(paid_survival(30, 30, 30))
    assert (curve.quarter, curve.median, curve.three_quarters) == (30, 30, 30)


def test_claims_that_are_all_open_show_no_payment():
    curve = payment_curve(still_open(3, 5))
    assert [step.unpaid for step in curve.steps] == [1, 1]
    assert curve.median is None


def test_without_claims_there_is_no_curve():
    assert payment_curve([]) == ((), None, None, None)


def test_the_band_lies_around_the_share():
    step = payment_curve(paid_survival(10, 20, 30) + still_open(*[40] * 5)).steps[1]
    assert step.low < step.unpaid < step.high


def test_the_band_is_not_defined_when_all_are_paid():
    assert payment_curve(paid_survival(10)).steps[0][-2:] == (None, None)


def test_before_the_first_payment_there_is_no_doubt():
    assert payment_curve(still_open(3) + paid_survival(10, 20)).steps[0][-2:] == (1, 1)


def claim(state="filed", filed=date(2026, 1, 2), paid_on=None):
    return FiledClaim(state=state, filed=filed, paid_on=paid_on)


@pytest.mark.parametrize(
    ("waiting", "found"),
    [
        (claim("paid", paid_on=date(2026, 2, 1)), Wait(30, paid=True)),
        (claim("filed"), Wait(58, paid=False)),
        (claim("questioned"), Wait(58, paid=False)),
        (claim("accepted", paid_on=date(2026, 2, 1)), Wait(58, paid=False)),
        (claim("refused"), None),
        (claim("withdrawn"), None),
        (claim("written off"), None),
        (claim("draft", filed=None), None),
        (claim("filed", filed=TODAY_survival), Wait(0, paid=False)),
        (claim("filed", filed=date(2026, 3, 2)), None),
    ],
    ids=[
        "paid",
        "filed",
        "questioned",
        "paid in part",
        "refused",
        "withdrawn",
        "written off",
        "draft",
        "filed today",
        "filed later",
    ],
)
def test_a_wait_lasts_until_the_claim_is_settled_or_today(waiting, found):
    assert wait_of(waiting, TODAY_survival) == found


def test_a_payment_noted_before_the_filing_waited_no_day():
    assert wait_of(claim("paid", paid_on=date(2026, 1, 1)), TODAY_survival) == Wait(0, paid=True)
