from datetime import date
from decimal import Decimal

import pytest

from claimpack.core.reading.read_text import TextRead
from claimpack.core.reading.receipts import receipt_read

TODAY = date(2026, 3, 1)


def receipt(*lines, order="", currency="USD"):
    return receipt_read([TextRead(line, "text") for line in lines], TODAY, order, currency)


def test_the_seller_stands_first_and_the_day_and_the_total_behind_their_words():
    told = receipt("RECEIPT", "Pell Hardware", "Date of sale: 2025-03-01", "Subtotal $343.90", "Total $371.76")
    assert told[:3] == (date(2025, 3, 1), "Pell Hardware", Decimal("371.76"))


@pytest.mark.parametrize("text", ["03/14/2025", "14 March 2025", "Mar 14, 2025", "Date 2025-03-14Delivered 2025-03-16"])
def test_a_day_is_read_as_people_write_it(text):
    assert receipt(text).day == date(2025, 3, 14)


@pytest.mark.parametrize("lines", [("3/4/2025",), ("2025-03-14", "2025-03-16"), ("2027-03-14",), ("30/30/2025",)])
def test_a_day_that_may_be_another_is_not_proposed(lines):
    assert receipt(*lines).day is None


@pytest.mark.parametrize(("day", "found"), [("2026-02-28", 28), ("2026-03-01", 1), ("2026-03-02", None)])
def test_a_receipt_is_of_today_at_the_latest(day, found):
    told = receipt(day).day
    assert (told and told.day) == found


@pytest.mark.parametrize(
    ("line", "is_seller"),
    [("AB12", False), ("ABC12", True), ("P" * 80, True), ("P" * 81, False), ("2025-03-14 Pell", False)],
    ids=["as many digits", "more letters", "as long as a name", "too long", "a day"],
)
def test_the_seller_is_a_line_of_letters_as_long_as_a_name(line, is_seller):
    assert receipt("RECEIPT", line, "Counter").seller == (line if is_seller else "Counter")


def test_the_shops_order_of_days_settles_figures():
    assert receipt("3/4/2025", order="day-first").day == date(2025, 4, 3)


def test_a_day_to_pay_by_is_not_the_day_of_the_sale():
    assert receipt("2025-03-14", "Due date 2025-04-14").day == date(2025, 3, 14)


@pytest.mark.parametrize(
    ("lines", "total"),
    [
        (("PAID Total $1,396.54 2025-03-14",), "1396.54"),
        (("TOTAL", "371.76"), "371.76"),
        (("TOTAL", "371.76", "Thank you"), "371.76"),
        (("Sub-total 10.00", "Amount due 12.00"), "12.00"),
    ],
)
def test_the_total_stands_behind_its_word_or_below_it(lines, total):
    assert receipt(*lines).total == Decimal(total)


@pytest.mark.parametrize("lines", [("Total 12.00", "Total 13.00"), ("Total 12,34",), ("Total",), ("12.00",)])
def test_a_total_that_may_be_another_is_not_proposed(lines):
    assert receipt(*lines).total is None
