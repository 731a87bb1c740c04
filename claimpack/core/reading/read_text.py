"""A text as it was read off a picture, and what it is taken to say of the claim."""

from __future__ import annotations

from typing import Literal, NamedTuple

ReadBy = Literal["code", "letters", "text"]
"""From a bar code or QR code, from letters in a picture, or from the text that a file carries."""


class Spot(NamedTuple):
    """Where on the upright picture: fractions of its width and height, from its upper left."""

    x: float
    y: float
    width: float
    height: float


WHOLE = Spot(0, 0, 1, 1)
"""The whole picture."""


class TextRead(NamedTuple):
    """One line, or one code, as it was read; `sure` is how sure the reader is, in thousandths."""

    text: str
    by: ReadBy
    spot: Spot = WHOLE
    sure: int = 1000


class Proposal(NamedTuple):
    """What a picture is taken to say under a key of the claim; `raw` is what was read, where that was settled."""

    key: str
    text: str
    by: ReadBy
    spot: Spot
    raw: str = ""
