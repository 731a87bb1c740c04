"""The text that stands behind a word on a plate: on its line, beside it, or below it."""

from __future__ import annotations

import re
from collections.abc import Sequence

from claimpack.core.reading.look_alikes import tidied
from claimpack.core.reading.read_text import WHOLE, Spot, TextRead

# A plate is seen at an angle: what stands beside a word may lie so much higher or lower, in heights of the word.
_ASLANT = 2.5
# Of two texts as far away the one on the same line is meant.
_OFF_THE_LINE = 4


def behind(label: re.Pattern[str], lines: Sequence[TextRead]) -> list[tuple[str, TextRead]]:
    """The texts behind a word, each with the line it stands on.

    Args:
        label: matches the word, and with its group `value` what follows it on its line.
        lines: what was read, in the order it was read.
    """
    found = []
    for place, line in enumerate(lines):
        told = label.match(tidied(line.text)) if line.by != "code" else None
        if told is None:
            continue
        # on its own line, else beside the word, else below it: in this order plates are laid out
        value = tidied(told["value"])
        other = line if value else _beside(lines, place)
        if other:
            found.append((value or tidied(other.text), other))
    return found


def _beside(lines: Sequence[TextRead], place: int) -> TextRead | None:
    """The nearest text to the right of a line; where it is not told how lines lie, the next one."""
    label = lines[place]
    others = [line for at, line in enumerate(lines) if at != place and line.by == label.by]
    # text without places, as of a PDF, has an order and no sides
    if label.spot == WHOLE:
        follows = lines[place + 1 : place + 2]
        return follows[0] if follows and follows[0].by == label.by else None
    right = [(_away(label.spot, other.spot), other) for other in others]
    near = [(away, other) for away, other in right if away is not None]
    return min(near, key=lambda each: each[0])[1] if near else _below(label.spot, others)


def _away(label: Spot, other: Spot) -> float | None:
    """How far a text lies to the right of a word; None where it does not."""
    across = other.x - (label.x + label.width)
    off = abs(_middle(other) - _middle(label))
    if across < -label.width / 2 or off > _ASLANT * max(label.height, other.height):
        return None
    return max(across, 0.0) + _OFF_THE_LINE * off


def _below(label: Spot, others: Sequence[TextRead]) -> TextRead | None:
    """The nearest text below a word with nothing to its right."""
    under = [
        other
        for other in others
        if 0 < _middle(other.spot) - _middle(label) < _ASLANT * max(label.height, other.spot.height)
    ]
    return min(under, key=lambda other: _middle(other.spot)) if under else None


def _middle(spot: Spot) -> float:
    return spot.y + spot.height / 2
