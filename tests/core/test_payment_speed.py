from datetime import date, timedelta
from decimal import Decimal

from reported_claims import EVER, TODAY, paid, waiting

from claimpack.core.payment_speed import paid_within, payment_speed
from claimpack.core.reported import Days


def paid_after(*days, maker="Halden"):
    filed = date(2025, 11, 1)
    return [
        paid(f"{maker} {n}", maker=maker, filed=filed, paid_on=filed + timedelta(day)) for n, day in enumerate(days)
    ]


def speed(claims, days=EVER):
    return payment_speed(claims, days, TODAY)


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


def test_before_the_first_payment_nothing_is_paid():
    assert paid_within(speed(paid_after(40, 50)).curve, (15,))[0].share == 0


def test_the_band_lies_around_the_share_paid():
    mark = paid_within(speed(paid_after(10, 20, 40, 50)).curve, (30,))[0]
    assert mark.low < mark.share < mark.high


def test_without_claims_no_share_is_told():
    assert paid_within(speed([]).curve) == ()
