"""Lengths on paper as people write them, with their unit."""

from __future__ import annotations

import re
from decimal import Decimal
from typing import Annotated, Any

from claimpack.core.values.marks import BeforeValidator, Field
from claimpack.core.values.written import WrittenAs

_POINTS = {"pt": Decimal(1), "mm": Decimal(72) / Decimal("25.4"), "in": Decimal(72)}


def points(text: Any) -> float:
    """A length such as "62 mm", "4 in" or "171 pt" in points.

    Raises:
        ValueError: it is no length, or longer than three metres.
    """
    found = re.fullmatch(r"(\d{1,5}(?:\.\d{1,4})?)\s*(pt|mm|in)", text, re.ASCII) if isinstance(text, str) else None
    if not found:
        raise ValueError(f'{text!r} is not a length such as "62 mm", "4 in" or "171 pt"')
    length = Decimal(found[1]) * _POINTS[found[2]]
    if length > 9000:
        raise ValueError(f"{text!r} is longer than any tag or sheet")
    return float(length)


_AS_TEXT = WrittenAs(Annotated[str, Field(pattern=r"^[0-9]{1,5}(\.[0-9]{1,4})?\s*(pt|mm|in)$")])

Length = Annotated[float, _AS_TEXT, BeforeValidator(points)]
"""A length in points, written with its unit."""

Size = Annotated[float, _AS_TEXT, BeforeValidator(points), Field(ge=4, le=200)]
"""A size of type in points."""
