"""Counts and hours as people read them, on a screen, in a packet, on a tag and in a letter alike."""

from __future__ import annotations

import re
from decimal import Decimal

from claimpack.core.values.money import grouped

# A figure of its own, thousands in it apart or not: no day, no serial number, no part of a word.
_FIGURE = re.compile(
    r"(?<![\w.,/])(?<!\w-)(?:[1-9]\d{0,2}(?:,\d{3})+|[1-9]\d{3,})(?:\.\d+)?(?![\w/-]|[.,]\d)", re.ASCII
)


def how_many(count: int, what: str, plural: str = "") -> str:
    """So many of something, as in `1 claim` and `1,204 claims`; the plural where an s alone does not make it."""
    return f"{count:,} {what if count == 1 else plural or what + 's'}"


def hours_said(hours: Decimal) -> str:
    """Hours worked or run, with as many decimals as were written down."""
    return f"{grouped(hours)} h"


def figures_said(said: str, language: str = "en") -> str:
    """Amounts, hours or readings as they were written down, their thousands apart as the language has them.

    Args:
        said: what stands for numbers alone, as in `1908.82 USD` or `1240 h`; a year in it would be taken for one.
        language: a tag of BCP 47, as in `en-US`.
    """
    return _FIGURE.sub(lambda found: grouped(Decimal(found[0].replace(",", "")), language), said)
