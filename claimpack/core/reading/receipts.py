"""What a receipt says: its day, its seller and its total, as far as it says them one way."""

from __future__ import annotations

import datetime as dt
import re
from collections.abc import Iterator, Sequence
from contextlib import suppress
from decimal import Decimal
from typing import NamedTuple

from claimpack.core.reading.look_alikes import tidied
from claimpack.core.reading.read_text import TextRead
from claimpack.core.values.days import MONTHS
from claimpack.core.values.typed.amounts import amount_written
from claimpack.core.values.typed.days import DateOrder, day_written

_MONTH = "|".join(f"{month[:3]}[a-z]*" for month in MONTHS)
_DAYS = re.compile(
    rf"\d{{4}}-\d\d-\d\d|\d{{1,2}}([/.-])\d{{1,2}}\1(?:\d{{4}}|\d\d)(?!\d)"
    rf"|\d{{1,2}}(?:st|nd|rd|th)? (?:{_MONTH})\.?,? \d{{4}}|(?:{_MONTH})\.? \d{{1,2}}(?:st|nd|rd|th)?,? \d{{4}}",
    re.IGNORECASE | re.ASCII,
)
_OF_THE_SALE = re.compile(r"\b(?:date|sold|sale|purchased?|invoice)\b", re.IGNORECASE)
_OF_ANOTHER_DAY = re.compile(
    r"\b(?:due|until|expir\w*|return|valid|deliver\w*|printed|warranty|ship\w*)\b", re.IGNORECASE
)
_TOTAL = re.compile(
    r"(?<![a-z-])(?:total(?: (?:due|paid|amount))?|amount (?:due|paid)|balance due)\b[ :.]*", re.IGNORECASE
)
_AMOUNT = re.compile(r"(?P<amount>(?:[A-Z]{3} ?|[$€£¥] ?)?\d[\d.,']*(?: ?(?:[A-Z]{3}\b|[€]))?)(?![\d/-])")
_TITLES = re.compile(r"(?:sales? )?(?:receipt|invoice|bill|order|tax invoice|proof of purchase)\W*\S*", re.IGNORECASE)
_LONGEST_SELLER = 80


class ReceiptRead(NamedTuple):
    """What a receipt says; None, or an empty text, for what it does not say, or says in two ways.

    `days` are all days on it, in the order they were read.
    """

    day: dt.date | None
    seller: str
    total: Decimal | None
    days: tuple[dt.date, ...] = ()


def receipt_read(lines: Sequence[TextRead], today: dt.date, order: DateOrder = "", currency: str = "") -> ReceiptRead:
    """What the lines of a receipt say.

    Args:
        lines: what was read, from the top.
        today: no receipt is of a later day.
        order: which comes first in a day in figures; where it is not said, 3/4 is not read.
        currency: the code of the shop's currency; empty where it is not known.

    Source: a rule of this tool's, no source. The seller's name stands first on a receipt: common practice, no source.
    """
    told = [found for line in lines for found in _days_in(line.text, today, order)]
    days = tuple(dict.fromkeys(day for day, _ in told))
    others = {day for day, before in told if _OF_ANOTHER_DAY.search(before)}
    named = {day for day, before in told if _OF_THE_SALE.search(before) and not _OF_ANOTHER_DAY.search(before)}
    # a day beside a word of the sale goes before any other; days of delivery or return are nobody's purchase
    left = named or set(days) - others
    return ReceiptRead(next(iter(left)) if len(left) == 1 else None, _seller(lines), _total(lines, currency), days)


def _days_in(text: str, today: dt.date, order: DateOrder) -> Iterator[tuple[dt.date, str]]:
    """The days in a line, each with the words before it."""
    before = 0
    for found in _DAYS.finditer(text):
        with suppress(ValueError):
            day = day_written(found[0].replace(".,", ","), today, order)
            if day and day <= today:
                yield day, text[before : found.start()]
        before = found.end()


def _seller(lines: Sequence[TextRead]) -> str:
    """The first line that names somebody: letters, no title of the paper, no day, no amount."""
    for line in lines:
        text = tidied(line.text)
        # the first line with more letters than digits, which is neither a title nor a date, is who sold it
        is_named = sum(map(str.isalpha, text)) > sum(map(str.isdecimal, text)) and len(text) <= _LONGEST_SELLER
        if is_named and not _TITLES.fullmatch(text) and not _DAYS.search(text):
            return text
    return ""


def _total(lines: Sequence[TextRead], currency: str) -> Decimal | None:
    """The amount behind the word for the total, on its line or the next; None where there are several."""
    found = set()
    for place, line in enumerate(lines):
        label = _TOTAL.search(line.text)
        if label is None:
            continue
        behind = tidied(line.text[label.end() :])
        text = behind or (tidied(lines[place + 1].text) if place + 1 < len(lines) else "")
        amount = _AMOUNT.match(text)
        with suppress(ValueError, ArithmeticError):
            found |= {Decimal(amount_written(amount["amount"].strip(), currency))} if amount else set()
    # a subtotal and a total that differ are not told apart by guess
    return found.pop() if len(found) == 1 else None
