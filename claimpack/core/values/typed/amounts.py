"""Amounts as people write them, read only where they can be read one way."""

from __future__ import annotations

import re
import unicodedata

_SYMBOLS = {
    "$": "USD CAD AUD NZD MXN SGD HKD ARS CLP COP",
    "€": "EUR",
    "£": "GBP EGP",
    "¥": "JPY CNY",
    "₹": "INR",
    "kr": "SEK NOK DKK ISK",
}
_POINT_BEFORE_COINS = "USD GBP AUD NZD JPY CNY HKD SGD MXN ILS THB KRW PHP MYR NGN KES"
"""Currencies in whose countries a comma parts thousands and nothing else."""

_NO_CURRENCY = 'shop.toml names no currency; say it there, as in currency = "USD"'

_PLAIN = re.compile(r"-?\d+(\.\d+)?", re.ASCII)
_GROUPED = r"\d{1,3}(?:%s\d{3})+"


def amount_written(written: str, currency: str = "", whose: str = "the shop's") -> str:
    """An amount as digits with a point: `$1,200.00` and `1.200,00` are 1200.00; what is none is left as it is.

    Args:
        written: as it was written.
        currency: the code of the currency it is in; empty where it is not known.
        whose: whose currency that is, for messages.

    Raises:
        ValueError: it can be read two ways, or names another currency; the readings are named.

    Source: a rule of this tool's, no source.
    """
    text = unicodedata.normalize("NFKC", written).strip()
    figures = _without_currency(text, currency, whose)
    minus, figures = ("-", figures[1:].strip()) if figures.startswith("-") else ("", figures)
    # a blank or an apostrophe parts thousands and never coins, so it can go
    figures = re.sub(r"(?<=\d)[ '\u2019](?=\d{3}(?!\d))", "", figures)
    read = _read(figures, written, currency)
    return written if read is None else minus + read


_PER = re.compile(
    r"(?<=\d)\s*(?:(?:/|\bper\b|\ban?\b)?\s*(?:h|hrs?|hours?)\.?|(?:/|per|an?|each)\s*claim)$", re.IGNORECASE
)


def without_unit(written: str) -> str:
    """A number of hours, or an amount for an hour or a claim, without the words for that: `300 h`, `$92 an hour`."""
    return _PER.sub("", written.strip())


def _without_currency(text: str, currency: str, whose: str) -> str:
    """The figures alone; a sign or a code of the currency stands before or after them.

    Raises:
        ValueError: it is that of another currency.
    """
    found = re.fullmatch(r"(?P<before>[^\d,.'-]*)(?P<figures>-?\s*[\d.,' \u2019]*\d)(?P<after>[^\d]*)", text)
    if not found:
        return text
    marks = [mark.strip() for mark in (found["before"], found["after"]) if mark.strip()]
    # marks that are no currency make it no amount; what it is then, its own reader says
    for mark in marks:
        goes_with = _SYMBOLS.get(mark.casefold(), mark.upper()).split()
        if not (mark.casefold() in _SYMBOLS or re.fullmatch("[A-Za-z]{3}", mark)):
            return text
        if currency not in goes_with:
            said = f"{whose} currency is {currency}" if currency else _NO_CURRENCY
            raise ValueError(f"{text!r} is in {mark}, and {said}")
    return found["figures"]


def _read(figures: str, written: str, currency: str) -> str | None:
    """Digits with a point; None where the figures are no amount."""
    # with both, the last one parts the coins
    if "," in figures and "." in figures:
        point = max(",.", key=figures.rfind)
        comma = "," if point == "." else "."
        whole, coins = figures.rsplit(point, 1)
        grouped = re.fullmatch(_GROUPED % re.escape(comma), whole, re.ASCII)
        return f"{whole.replace(comma, '')}.{coins}" if grouped and coins.isdecimal() and coins.isascii() else None
    mark = "," if "," in figures else "."
    thousands = re.fullmatch(_GROUPED % re.escape(mark), figures, re.ASCII) and figures[0] != "0"
    as_thousands, as_coins = figures.replace(mark, ""), figures.replace(mark, ".")
    one = figures.count(mark) == 1
    if currency and currency in _POINT_BEFORE_COINS:
        if mark == ",":
            return as_thousands if thousands else _refuse_comma(written, as_coins) if one else None
        return figures if _PLAIN.fullmatch(figures) else None
    if mark == "," and not currency and one:
        raise ValueError(f"{written!r} has a comma, and shop.toml names no currency: write {as_coins}, or all digits")
    # 1.200 is twelve hundred in one country and one and a fifth in another
    if thousands and one and currency:
        small = as_coins.rstrip("0") if as_coins.endswith("0") else f"{as_coins}0"
        raise ValueError(f"{written!r} may be {as_thousands} or {small}: write it so")
    if thousands and (currency or mark == ","):
        return as_thousands
    return as_coins if _PLAIN.fullmatch(as_coins) else None


def _refuse_comma(written: str, as_coins: str) -> str:
    raise ValueError(f"{written!r} has a comma where thousands do not end: write {as_coins}, or all its digits")
