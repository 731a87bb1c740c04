from __future__ import annotations

from datetime import date, timedelta
from decimal import Decimal

import pytest
from reported_claims import paid, told, waiting

from claimpack.reports.manager.payment import months_section, speed_section

FILED = date(2026, 1, 10)


def paid_after(*days, **changes):
    """Claims filed on the tenth of January and paid after so many days each."""
    return tuple(
        paid(f"26-{index:04}", paid_on=FILED + timedelta(days=day), **changes) for index, day in enumerate(days)
    )


def speed(*claims):
    return speed_section(told(claims=claims))


def months(*claims):
    return months_section(told(claims=claims))


def in_months(*days, **changes):
    return tuple(paid(f"{index}", filed=date.fromisoformat(day), **changes) for index, day in enumerate(days))


def test_with_four_payments_each_is_told_alone():
    table = speed(*paid_after(5, 5, 20, 30), waiting()).tables[0]
    assert (table.name, table.rows) == ("payments-so-far", [(5, 2, 3), (20, 1, 2), (30, 1, 1)])


def test_with_five_a_curve_is_drawn():
    assert [chart.key for chart in speed(*paid_after(5, 5, 20, 30, 30)).charts] == ["payment-curve"]


def test_a_share_of_a_third_is_rounded_to_a_tenth():
    table = speed(*paid_after(10, 10, 40, 40, 40, 40)).tables[0]
    assert [row[:2] for row in table.rows] == [(15, Decimal("33.3")), (30, Decimal("33.3"))]


def test_where_everything_is_paid_before_the_first_mark_its_last_day_is_the_mark():
    assert [row[:2] for row in speed(*paid_after(1, 2, 2, 3, 3)).tables[0].rows] == [(3, Decimal("100.0"))]


@pytest.mark.parametrize(
    ("days", "title"),
    [
        ((1, 1, 1, 1, 1), "Three quarters of the claims are paid within 1 day"),
        ((1, 1, 1, 1, 1, *[None] * 6), "A quarter of the claims are paid within 1 day"),
        ((1, 1, 1, 1, 1, *[None] * 16), "Fewer than a quarter of the claims are paid so far"),
    ],
    ids=["all", "five of eleven", "five of twenty-one"],
)
def test_the_curve_says_the_most_that_can_be_said(days, title):
    claims = (*paid_after(*(day for day in days if day)), *(waiting(f"w{n}") for n, day in enumerate(days) if not day))
    assert speed(*claims).charts[0].title == title


def test_a_maker_with_ten_claims_is_told_alone_and_with_nine_is_not():
    claims = (*paid_after(*range(1, 11), maker="Halden"), *paid_after(*range(1, 10), maker="Tessaly"))
    found = speed(*claims)
    assert [row[0] for row in found.tables[1].rows] == ["Halden"]
    assert found.notes[-1] == "Fewer than 10 claims, so not listed alone: Tessaly."


@pytest.mark.parametrize(
    ("after", "title"),
    [
        ({"Halden": [7] * 10}, "Halden pays half of its claims within 7 days"),
        ({"Tessaly": [20] * 10, "Halden": [7] * 10}, "Halden pays half of its claims within 7 days, Tessaly within 20"),
        ({"Halden": [7] * 10, "Orrin": [9, *[None] * 9]}, "Halden pays half of its claims within 7 days"),
        ({"Halden": [*[7] * 5, *[None] * 10]}, "No maker has paid half of its claims so far"),
    ],
    ids=["one", "two", "one that has not yet paid half", "none that has"],
)
def test_the_fastest_maker_and_the_slowest_that_paid_half_are_the_title(after, title):
    claims = [
        paid(f"{maker}{n}", maker=maker, paid_on=FILED + timedelta(days=day)) if day else waiting(f"{n}", maker=maker)
        for maker, days in after.items()
        for n, day in enumerate(days)
    ]
    assert speed(*claims).charts[1].title == title


@pytest.mark.parametrize(("last", "said"), [(30, False), (31, True)])
def test_a_payment_beyond_the_end_of_the_picture_is_told(last, said):
    notes = " ".join(speed(*paid_after(*[10] * 200, last)).notes)
    assert ("1 claim was paid later" in notes) == said


def test_makers_that_are_as_fast_stand_by_name():
    claims = (*paid_after(*[7] * 10, maker="Tessaly"), *paid_after(*[7] * 10, maker="Halden"))
    assert [row[0] for row in speed(*claims).tables[1].rows] == ["Halden", "Tessaly"]


def test_nothing_filed_is_a_sentence():
    found = speed()
    assert (found.charts, found.tables, found.notes) == ((), (), ())


@pytest.mark.parametrize(
    ("filed", "row"), [("2025-12-31", "2025-12"), ("2026-01-01", "2026-01"), ("2024-02-29", "2024-02")]
)
def test_a_claim_counts_in_the_month_it_was_filed_to_its_last_day(filed, row):
    assert [month[0] for month in months(*in_months(filed)).tables[0].rows] == [row]


def test_months_are_told_the_latest_first_and_added_up():
    table = months(*in_months("2025-12-31", "2026-01-01", "2026-01-31")).tables[0]
    assert [row[:3] for row in table.rows] == [("2026-01", "USD", 2), ("2025-12", "USD", 1)]
    assert table.totals[0][:4] == ("All months", "USD", 3, Decimal("300.00"))


def test_the_currency_of_months_stands_above_them_and_in_a_column_of_the_spreadsheet_alone():
    table = months(*in_months("2026-01-01")).tables[0]
    assert ("Currency" in {column.heading for _, column in table.visible()}, ", USD," in table.caption) == (False, True)


def test_the_month_with_most_claimed_is_the_title():
    claims = in_months("2025-11-30", "2025-12-01", "2025-12-31", "2026-01-01")
    assert months(*claims).charts[0].title == "Most was claimed in December 2025: 200.00 USD"


def test_amounts_without_a_currency_have_a_table_of_their_own():
    claims = (*in_months("2026-01-01"), *in_months("2026-01-02", currency=""))
    tables = months(*claims).tables
    assert [table.name for table in tables] == ["claimed-and-paid-none", "claimed-and-paid-usd"]
    assert tables[0].caption == "Claimed against paid by month of filing, latest first"


def test_pictures_of_several_currencies_have_names_of_their_own():
    days = ("2025-11-30", "2025-12-31", "2026-01-31")
    charts = months(*in_months(*days), *in_months(*days, currency="CAD")).charts
    assert [chart.key for chart in charts] == ["months-cad", "months-usd"]


def test_the_scale_of_small_amounts_has_their_decimals():
    small = dict.fromkeys(("claimed", "accepted", "paid"), Decimal("0.40"))
    chart = months(*in_months("2025-11-30", "2025-12-31", "2026-01-31", **small)).charts[0]
    words = [shape.said for shape in chart.draw(500).shapes if hasattr(shape, "said")]
    assert ("0.2" in words, "0.20" in words) == (True, False)


def test_amounts_without_a_currency_are_drawn_without_one():
    chart = months(*in_months("2025-11-30", "2025-12-31", "2026-01-31", currency="")).charts[0]
    assert (chart.title, chart.description) == (
        "Most was claimed in November 2025: 100.00",
        "Claimed, accepted and paid, the latest months. The table has every month.",
    )


@pytest.mark.parametrize(("came", "shown"), [("100.00", False), ("100.01", True)], ids=["as claimed", "more"])
def test_what_came_beyond_what_was_claimed_has_a_column_where_there_is_any(came, shown):
    section = months(*in_months("2026-01-10", paid=Decimal(came)))
    over = section.tables[0].columns[-1]
    assert (over.shown, "more came in" in section.finding) == (shown, shown)
    assert section.tables[0].totals[0][5] == Decimal("100.00")
