"""How a value is written in a file where that is not how the record holds it."""

from __future__ import annotations

from typing import Any, NamedTuple


class WrittenAs(NamedTuple):
    """A mark in the type of a field: in a file it is written as a value of another type, or of one of several."""

    type_: Any
