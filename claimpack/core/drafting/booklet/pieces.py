"""An answer about a warranty booklet taken to pieces: what stands between commas, each in the form asked for."""

from __future__ import annotations

import re
from collections.abc import Callable
from decimal import Decimal

Amount = Callable[[str], Decimal]
"""Reads an amount in the plan's currency, or a number of hours."""


def pieces(typed: str, between: str = r"[;\n]|,(?=\s)") -> list[str]:
    """The pieces of an answer in their order, without the and or then that joins them."""
    # a comma without a blank behind it stands in a number, as in 1,200
    found = (
        re.sub(r"^(?:and|then)\s+", "", " ".join(piece.split()), flags=re.IGNORECASE)
        for piece in re.split(between, typed)
    )
    return [piece for piece in found if piece]


def matched(pattern: str, piece: str, example: str) -> re.Match[str]:
    """A piece in the form asked for.

    Raises:
        ValueError: it has another form; the message shows an example.
    """
    found = re.fullmatch(pattern, piece, re.IGNORECASE)
    if not found:
        raise ValueError(f"{piece!r} cannot be read. Write as in: {example}")
    return found
