"""Counts and hours as people read them, on a screen, in a packet, on a tag and in a letter alike."""

from __future__ import annotations

from decimal import Decimal


def how_many(count: int, what: str, plural: str = "") -> str:
    """So many of something, as in `1 claim` and `1,204 claims`; the plural where an s alone does not make it."""
    return f"{count:,} {what if count == 1 else plural or what + 's'}"


def hours_said(hours: Decimal) -> str:
    """Hours worked or run, with as many decimals as were written down."""
    return f"{hours:f} h"
