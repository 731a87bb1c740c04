"""Findings as numbers: what was measured beside its limits."""

from __future__ import annotations

import re
from collections.abc import Iterable
from decimal import Decimal
from typing import Literal, NamedTuple

from claimpack.core.facts.failure import Finding
from claimpack.core.values.numbers_said import figures_said
from claimpack.errors import BadInput

AgainstLimits = Literal["within", "below", "above"]
"""Where a measured value stands to its limits."""

_NUMBER = re.compile(r"[-+]?\d{1,12}(\.\d{1,6})?", re.ASCII)


_COMMA = re.compile(r"(?<=\d),(?=\d)", re.ASCII)
_THOUSANDS = re.compile(r"(?<!\d)[1-9]\d{0,2}(,\d{3})+(?!\d)", re.ASCII)


class Measurement(NamedTuple):
    """A finding in numbers; None where a text is no number, or absent."""

    value: Decimal | None
    low: Decimal | None
    high: Decimal | None


def measurement(finding: Finding) -> Measurement:
    """The numbers of a finding."""
    return Measurement(*(number_in(said) for said in (finding.value, finding.low, finding.high)))


def against_limits(finding: Finding) -> AgainstLimits | None:
    """Where a finding stands to its limits, a limit itself inside; None where that cannot be said.

    It cannot be said without limits, where the value is no number, or where a limit that is none could decide.

    Source: common practice, no source; limits come from the maker's manual.
    """
    found = measurement(finding)
    if found.value is None or (found.low is None and found.high is None):
        return None
    if found.low is not None and found.value < found.low:
        return "below"
    if found.high is not None and found.value > found.high:
        return "above"
    unread = (finding.low and found.low is None) or (finding.high and found.high is None)
    return None if unread else "within"


def value_said(finding: Finding, language: str = "en") -> str:
    """What was found, its thousands apart; as written where it is no number, or stands alone: it may be a code."""
    counted = number_in(finding.value) is not None and (finding.unit or finding.low or finding.high)
    return figures_said(finding.value, language) if counted else finding.value


def limits_in_words(finding: Finding) -> str:
    """The limits of a finding as a person says them; empty where none is given."""
    unit = f" {finding.unit}" if finding.unit else ""
    if finding.low and finding.high:
        return f"{finding.low} to {finding.high}{unit}"
    if finding.low:
        return f"at least {finding.low}{unit}"
    return f"at most {finding.high}{unit}" if finding.high else ""


def number_in(said: str) -> Decimal | None:
    """A reading or a limit as a number; None where it is none."""
    return Decimal(said) if _NUMBER.fullmatch(said) else None


def refuse_commas(written: Iterable[tuple[str, str]]) -> None:
    """Refuse a comma between digits in a reading or a limit: 1,200 is above a thousand, or above one.

    Args:
        written: what each is called where it was written, and what it says.

    Raises:
        BadInput: one has such a comma.
    """
    for name, said in written:
        if _COMMA.search(said):
            whole = f" or {_COMMA.sub('', said)}" if _THOUSANDS.search(said) else ""
            raise BadInput(
                f"{name}: {said!r} has a comma between digits",
                "A comma parts thousands in some places and tenths in others, so limits could not be compared with it.",
                f"Write {_COMMA.sub('.', said)}{whole}.",
            )
