"""Findings as numbers: what was measured beside its limits."""

from __future__ import annotations

import re
from decimal import Decimal
from typing import Literal, NamedTuple

from claimpack.core.claim import Finding

Standing = Literal["within", "below", "above"]
"""Where a measured value stands to its limits."""

_NUMBER = re.compile(r"[-+]?\d{1,12}(\.\d{1,6})?", re.ASCII)


class Reading(NamedTuple):
    """A finding in numbers; None where a text is no number, or absent."""

    value: Decimal | None
    low: Decimal | None
    high: Decimal | None


def reading(finding: Finding) -> Reading:
    """The numbers of a finding."""
    return Reading(*(number_in(said) for said in (finding.value, finding.low, finding.high)))


def standing(finding: Finding) -> Standing | None:
    """Where a finding stands to its limits, a limit itself inside; None where that cannot be said.

    It cannot be said without limits, where the value is no number, or where a limit that is none could decide.

    Source: common practice, no source; limits come from the maker's manual.
    """
    found = reading(finding)
    if found.value is None or (found.low is None and found.high is None):
        return None
    if found.low is not None and found.value < found.low:
        return "below"
    if found.high is not None and found.value > found.high:
        return "above"
    unread = (finding.low and found.low is None) or (finding.high and found.high is None)
    return None if unread else "within"


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
