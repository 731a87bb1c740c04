"""Exact numbers: currencies, their minor unit, and the one rounding."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from decimal import ROUND_CEILING, ROUND_FLOOR, ROUND_HALF_UP, Context, Decimal, InvalidOperation
from typing import Annotated, Any

from claimpack.core.values.marks import AfterValidator, BeforeValidator, Field
from claimpack.errors import BadInput


def summed(amounts: Iterable[tuple[str, Decimal]]) -> dict[str, Decimal]:
    """Amounts added up by currency, in the order of the codes; currencies are never added to each other."""
    sums: dict[str, Decimal] = {}
    for currency, amount in amounts:
        sums[currency] = sums.get(currency, ZERO) + amount
    return dict(sorted(sums.items()))


ZERO = Decimal(0)
MOST_DIGITS, MOST_DECIMALS = 13, 12
_PLAINLY_WRITTEN = 6

_WIDE = Context(prec=100)
_LONGEST_SAID = 60

_BESIDE = (
    r"(?P<sign>[$€£]?)\s*(?P<figures>\d+(?:\.\d+)?)\s*"
    r"(?P<unit>(?:(?:/|per|an?)?\s*(?:h|hrs?|hours?|mi|miles?|km|cycles?|claim)|[%$€£])?)"
)
"""A number with a sign of money or a unit beside it."""

_TWO = """AED AFN ALL AMD ANG AOA ARS AUD AWG AZN BAM BBD BDT BGN BMD BND BOB BRL BSD BTN BWP BYN BZD CAD CDF CHF CNY
COP CRC CUP CVE CZK DKK DOP DZD EGP ERN ETB EUR FJD FKP GBP GEL GHS GIP GMD GTQ GYD HKD HNL HTG HUF IDR ILS INR IRR JMD
KES KGS KHR KPW KYD KZT LAK LBP LKR LRD LSL MAD MDL MGA MKD MMK MNT MOP MRU MUR MVR MWK MXN MYR MZN NAD NGN NIO NOK NPR
NZD PAB PEN PGK PHP PKR PLN QAR RON RSD RUB SAR SBD SCR SDG SEK SGD SHP SLE SOS SRD SSP STN SVC SYP SZL THB TJS TMT TOP
TRY TTD TWD TZS UAH USD UYU UZS VED VES WST XCD XCG YER ZAR ZMW ZWG"""
_NONE = "BIF CLP DJF GNF ISK JPY KMF KRW PYG RWF UGX VND VUV XAF XOF XPF"
_THREE = "BHD IQD JOD KWD LYD OMR TND"

MINOR_UNITS: dict[str, int] = (
    dict.fromkeys(_TWO.split(), 2) | dict.fromkeys(_NONE.split(), 0) | dict.fromkeys(_THREE.split(), 3)
)


def exact(value: Any) -> Decimal:
    """A number as it was written, never through binary floating point.

    What comes out, Python itself writes in ordinary digits: nothing is smaller than a millionth, or has an exponent.

    Raises:
        ValueError: the value is a binary float, a truth value, not finite or no number at all.
    """
    # true is an int to Python, and 1.1 as a float is not one and a tenth
    if isinstance(value, bool) or not isinstance(value, (str, int, Decimal)):
        raise ValueError("must be a decimal number such as 12.50")
    said = repr(value) if len(repr(value)) <= _LONGEST_SAID else f"{repr(value)[:_LONGEST_SAID]}..."
    try:
        number = _as_written(value)
    except InvalidOperation:
        raise ValueError(f"{said} is not a decimal number such as 12.50{_number_alone(value)}") from None
    if not number.is_finite() or number.adjusted() > MOST_DIGITS - 1:
        raise ValueError(f"{said} is not an amount anybody could owe")
    if number and number.adjusted() < -_PLAINLY_WRITTEN:
        raise ValueError(f"{said} is smaller than a millionth")
    if -int(number.as_tuple().exponent) > MOST_DECIMALS:
        raise ValueError(f"{said} has more than {MOST_DECIMALS} decimals")
    # 1E+3, and a nothing with many decimals, would be printed with an exponent
    if "E" in str(number):
        number = number.quantize(Decimal(1))
    # minus nothing is nothing
    return number or number.copy_abs()


def _number_alone(value: Any) -> str:
    """What to write for a number with a sign or a unit beside it; empty where there is no one number."""
    found = re.fullmatch(_BESIDE, str(value).strip(), re.ASCII | re.IGNORECASE)
    return f"; write the number alone: {found['figures']}" if found else ""


def _as_written(value: str | int | Decimal) -> Decimal:
    # Python would take 1_8.4 for 18.4, and the digits of every script.
    if isinstance(value, str) and ("_" in value or not value.strip().isascii()):
        raise InvalidOperation
    return Decimal(value.strip() if isinstance(value, str) else value)


def _believable(number: Decimal) -> Decimal:
    if number.adjusted() > MOST_DIGITS - 1:
        raise BadInput(
            f"{plain(number)} comes out of the claim, and nobody could owe that",
            "A quantity, a cost or hours must have been written with too many digits.",
            "Look through the parts, labour and extras, and correct it.",
        )
    return number


def plain(number: Decimal) -> str:
    """The number in ordinary digits, without an exponent."""
    return f"{number:f}"


def grouped(number: Decimal, language: str = "en") -> str:
    """The number for people, thousands apart: by commas in English, by blanks that no line ends at in other languages.

    The decimal sign is a point everywhere, as in the maker's own figures and in every sentence.

    Args:
        number: what is said.
        language: a tag of BCP 47, as in `en-US`.

    Source: ISO 80000-1:2022 7.3 (groups of three parted by a small space; point or comma as the decimal sign).
    """
    said = f"{number:,f}"
    return said if language.partition("-")[0] == "en" else said.replace(",", "\N{NO-BREAK SPACE}")


def under_each_other(numbers: Sequence[Decimal | None], language: str = "en") -> list[str]:
    """Numbers of a column set flush right, each with as many decimals as the finest; a dash where one is not known."""
    known = [-int(number.as_tuple().exponent) for number in numbers if number is not None]
    finest = Decimal(1).scaleb(-max(0, *known, 0)) if known else Decimal(1)
    return ["\N{EN DASH}" if number is None else grouped(number.quantize(finest), language) for number in numbers]


def percent(fraction: Decimal) -> str:
    """A fraction of 1 as a person says it, without the sign: 0.15 is 15."""
    return plain((fraction * 100).normalize(_WIDE))


def plain_or_none(number: Decimal | None) -> str | None:
    """The number in ordinary digits; None stays None."""
    return None if number is None else plain(number)


Number = Annotated[Decimal, BeforeValidator(exact)]
"""An exact number, in JSON a text in ordinary digits."""

NotNegative = Annotated[Number, Field(ge=0)]
"""An exact number of zero or more."""

Positive = Annotated[Number, Field(gt=0)]
"""An exact number above zero."""


def part_of_one(number: Decimal) -> Decimal:
    """A fraction of 1.

    Raises:
        ValueError: it is more than the whole; what may be meant is named.
    """
    if number <= 1:
        return number
    meant = (number / 100).normalize(_WIDE)
    hint = f"; did you mean {plain(meant)}?" if meant <= 1 else ""
    raise ValueError(f"{plain(number)} is more than the whole: write a fraction of 1, as 0.15 for 15 %{hint}")


def no_percent(value: Any) -> Any:
    """Anything but a percentage, left as it is.

    Raises:
        ValueError: it is one; the fraction it stands for is named.
    """
    found = re.fullmatch(r"(\d+(?:\.\d+)?)\s*%", value.strip(), re.ASCII) if isinstance(value, str) else None
    if found:
        fraction = plain((exact(found[1]) / 100).normalize(_WIDE))
        raise ValueError(f"{value!r} is a percentage: write a fraction of 1, here {fraction}")
    return value


PartOfOne = Annotated[NotNegative, AfterValidator(part_of_one), BeforeValidator(no_percent)]
"""A rate, share or tax as a fraction of 1, from 0 to 1."""


def minor_unit(currency: str) -> int:
    """How many decimals amounts of a currency carry.

    Raises:
        BadInput: the code is not a currency of ISO 4217.

    Source: ISO 4217 (minor units), through published restatements.
    """
    try:
        return MINOR_UNITS[currency]
    except KeyError:
        raise BadInput(
            f"currency: {currency!r} is not a currency code",
            "Amounts are rounded to the currency's smallest coin, so the currency must be known.",
            "Write three capital letters of ISO 4217, such as USD, EUR or JPY.",
        ) from None


def rounded(amount: Decimal, currency: str) -> Decimal:
    """The amount in whole minor units, half away from zero.

    Raises:
        BadInput: the code is not a currency of ISO 4217, or the amount is beyond belief.

    Source: common practice, no source (half up per line); the minor unit is ISO 4217.
    """
    return _believable(amount.quantize(Decimal(1).scaleb(-minor_unit(currency)), ROUND_HALF_UP, _WIDE))


def fits(amount: Decimal, currency: str) -> bool:
    """Whether an amount has no more decimals than its currency."""
    return amount == rounded(amount, currency)


def coins(amount: Decimal, currency: str) -> Decimal:
    """An amount in whole minor units; as it is where the currency is not known."""
    return rounded(amount, currency) if currency else amount


def in_money(amount: Decimal, currency: str, language: str = "en") -> str:
    """An amount as it is written down, in whole minor units and with its currency; as it is without a currency."""
    return f"{grouped(rounded(amount, currency), language)} {currency}" if currency else grouped(amount, language)


def unit_price(amount: Decimal, currency: str) -> str:
    """What one piece costs as it is written down: in money, or with all its decimals where a coin could not pay it."""
    return in_money(amount, currency) if not currency or fits(amount, currency) else f"{grouped(amount)} {currency}"


def to_step(hours: Decimal, step: Decimal, way: str) -> Decimal:
    """Hours rounded to a whole number of steps.

    Args:
        hours: exact hours, zero or more.
        step: the size of a step in hours, above zero.
        way: "nearest" (half up), "up" or "down".

    Raises:
        BadInput: the hours are beyond belief.

    Source: 29 CFR 785.48(b) accepts rounding to a tenth or a quarter of an hour; the way is the plan's.
    """
    rounding = {"nearest": ROUND_HALF_UP, "up": ROUND_CEILING, "down": ROUND_FLOOR}[way]
    return _believable((hours / step).quantize(Decimal(1), rounding, _WIDE) * step)


def share(total: Decimal, weights: Sequence[Decimal], currency: str) -> list[Decimal]:
    """Split a total by weights so that the parts add up to it exactly.

    Each part is the floor or the ceiling of its exact share; units left over go to the largest remainders, the first
    line first where they tie.

    Raises:
        BadInput: every weight is zero, or one is below it, or the total is no amount of the currency.

    Source: largest-remainder method, general references.
    """
    whole = sum(weights, ZERO)
    if whole <= 0 or min(weights) < 0:
        raise BadInput("a total cannot be shared over weights that are all zero or below it")
    if not fits(total, currency):
        raise BadInput(f"{plain(total)} has more decimals than {currency} has, so its parts cannot add up to it")
    unit = Decimal(1).scaleb(-minor_unit(currency))
    # in whole coins, so that what is left over is a number of coins to hand out
    units = [total / unit * weight / whole for weight in weights]
    floors = [exact_units.to_integral_value(rounding=ROUND_FLOOR) for exact_units in units]
    left = int((total / unit - sum(floors, ZERO)).to_integral_value())
    # by the largest remainder; the place breaks ties, so that one claim is always shared alike
    by_remainder = sorted(range(len(units)), key=lambda line: (floors[line] - units[line], line))
    gets_one = set(by_remainder[:left])
    return [(floor + (line in gets_one)) * unit for line, floor in enumerate(floors)]
