"""What a form may say: every key of claim, assessment, shop and priced line, and its value in words."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from datetime import date
from decimal import Decimal
from typing import NamedTuple

from claimpack.core.claims.claim import Claim
from claimpack.core.claims.editing.key_paths import ItemRole, every_key, key_path
from claimpack.core.claims.editing.key_values import value_under
from claimpack.core.facts.lines import known_name
from claimpack.core.judging.assessment import Assessment
from claimpack.core.pricing.lines import PricedLine
from claimpack.core.pricing.pricing import Amounts
from claimpack.core.values.money import plain
from claimpack.core.values.words import did_you_mean, folded
from claimpack.errors import BadInput

_SERIALS = ("unit", "serials")


class ShopSays(NamedTuple):
    """The shop as a form names it; every text may be empty."""

    name: str = ""
    address: str = ""
    phone: str = ""
    email: str = ""
    dealer_number: str = ""


class Facts(NamedTuple):
    """What a form is filled from: the claim assessed, the shop, the sheet of so many, and in a row its line."""

    assessment: Assessment
    shop: ShopSays = ShopSays()
    sheet: int = 1
    sheets: int = 1
    line: PricedLine | None = None

    def value(self, key: str) -> object:
        """What a key says; None or an empty text where nobody said it.

        Raises:
            BadInput: there is no such key; the nearest is suggested.
        """
        if key in _OTHERS:
            return _OTHERS[key](self)
        if key.startswith(_LINE):
            # rows of a form beyond the claim's lines stay empty
            return _LINES[_known_of_line(key)](self.line) if self.line else None
        path = key_path(Claim, key)
        if path.steps[:2] == _SERIALS and isinstance(path.steps[2], ItemRole):
            return self.assessment.claim.unit.serial(str(path.steps[2]))
        try:
            value = value_under(self.assessment.claim, path)
            return known_name(str(value)) if path.steps[-1] == "technician" else value
        except IndexError:
            return None

    def said(self, key: str, day_form: str) -> str:
        """What a key says, as it is written; empty where nobody said it."""
        return in_words(self.value(key), day_form)


def in_words(value: object, day_form: str) -> str:
    """A value as it is written on a form; days as in MM/DD/YYYY."""
    if value is None:
        return ""
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, date):
        parts = {"YYYY": f"{value:%Y}", "YY": f"{value:%y}", "MM": f"{value:%m}", "DD": f"{value:%d}"}
        for token, number in parts.items():
            # four digits of the year first, or YY would be found in YYYY
            day_form = day_form.replace(token, number)
        return day_form
    return plain(value) if isinstance(value, Decimal) else str(value)


def must_be_a_key(key: str, *, in_row: bool) -> None:
    """Refuse a key that no claim, assessment or shop has.

    Args:
        key: the key.
        in_row: whether it is asked for in a row, where keys of the line are known.

    Raises:
        BadInput: there is no such key; the nearest is suggested.
    """
    if key in _OTHERS:
        return
    if key.startswith(_LINE):
        _known_of_line(key)
        if not in_row:
            raise BadInput(f"key {key} is of a line", "Lines of the claim stand in rows.", "Move it into [[rows]].")
        return
    try:
        path = key_path(Claim, key)
    except BadInput:
        near = did_you_mean(key, [*_OTHERS, *every_key(Claim)])
        # nothing is near: then the claim's own list of keys says more
        if near.startswith("Known"):
            raise
        raise BadInput(f"key {key} is not known", do=near) from None
    if not path.is_value:
        raise BadInput(f"key {key} holds more than one value", do="Name one of the keys in it.")


def _known_of_line(key: str) -> str:
    if key not in _LINES:
        raise BadInput(f"key {key} is not known", do=did_you_mean(key, _LINES))
    return key


def _amount(name: str) -> Callable[[Facts], object]:
    return lambda facts: getattr(facts.assessment.amounts, name, None)


def _parts_and_handling(facts: Facts) -> object:
    amounts = facts.assessment.amounts
    return amounts.parts + amounts.handling if amounts else None


def _of_shop(name: str) -> Callable[[Facts], object]:
    return lambda facts: getattr(facts.shop, name)


_OTHERS: Mapping[str, Callable[[Facts], object]] = {
    "maker_name": lambda facts: facts.assessment.maker_name,
    "unit.serial": lambda facts: facts.assessment.claim.unit.own_serial,
    "unit.hours_run": lambda facts: facts.assessment.claim.unit.hours_run,
    "today": lambda facts: facts.assessment.today,
    "verdict": lambda facts: facts.assessment.verdict,
    "window": lambda facts: facts.assessment.window.title if facts.assessment.window else None,
    "starts": lambda facts: facts.assessment.starts,
    "ends": lambda facts: facts.assessment.window.ends if facts.assessment.window else None,
    "judged_on": lambda facts: facts.assessment.judged_on,
    "days_left": lambda facts: facts.assessment.days_left,
    "hours_left": lambda facts: facts.assessment.hours_left,
    "sheet": lambda facts: facts.sheet,
    "sheets": lambda facts: facts.sheets,
    **{f"amounts.{name}": _amount(name) for name in Amounts.declared},
    "amounts.parts_and_handling": _parts_and_handling,
    **{f"shop.{name}": _of_shop(name) for name in ShopSays._fields},
}
"""The keys of assessment, shop and sheet, and those that a claim answers from several of its own."""

_LINE = "line."
_LINES: Mapping[str, Callable[[PricedLine], object]] = {
    "line.number": lambda line: line.code,
    "line.name": lambda line: line.what,
    "line.quantity": lambda line: line.quantity,
    "line.unit_price": lambda line: line.unit_price,
    "line.amount": lambda line: line.amount,
    "line.handling": lambda line: line.handling,
    "line.whole": lambda line: line.whole,
    "line.technician": lambda line: line.technician,
    "line.kind": lambda line: line.group or line.kind,
    "line.payer": lambda line: line.payer,
}
"""The keys of a priced line: quantity is pieces, of labour hours; whole is the amount and its handling."""


def is_said(value: str, among: tuple[str, ...]) -> bool:
    """Whether a box is ticked: the value is one of those given, or without any it says yes."""
    return folded(value) in {folded(word) for word in among or ("yes",)}
