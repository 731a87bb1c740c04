"""What reaches a terminal at once with the line that was read, as the rest of a pasted text does."""

from __future__ import annotations

import re
import sys
from typing import NamedTuple, TextIO

# Seconds: a paste arrives faster than this, a person types slower.
_WAIT = 0.05
_END = re.compile("[\0\4]")
# Where termios keeps a terminal's local flags and its control characters.
_FLAGS_AT, _CHARACTERS_AT = 3, 6


class CameAlong(NamedTuple):
    """The text that came with a line, and whether the input was ended after it."""

    text: str = ""
    is_end: bool = False


def came_along(stream: TextIO, seconds: float = _WAIT) -> CameAlong:
    """What came with the line just read, also where its last line is not ended; nothing off a terminal.

    A terminal hands its text out line by line, and a last line without an end not at all; so it is asked for
    single characters as long as more arrive at once, within so many seconds.
    """
    if sys.platform == "win32" or not stream.isatty():
        return CameAlong()
    import os
    import select
    import termios

    try:
        terminal = stream.fileno()
        before = termios.tcgetattr(terminal)
    except (OSError, ValueError, termios.error):
        return CameAlong()
    pieces: list[bytes] = []
    termios.tcsetattr(terminal, termios.TCSANOW, by_characters(before, termios.ICANON))
    try:
        while select.select([terminal], [], [], seconds)[0]:
            piece = os.read(terminal, 4096)
            if not piece:
                break
            pieces.append(piece)
    finally:
        termios.tcsetattr(terminal, termios.TCSANOW, before)
    return _until_end(b"".join(pieces).decode(stream.encoding or "utf-8", "replace"))


def _until_end(text: str) -> CameAlong:
    """Text up to where Ctrl-D ends the input: on a line that is still empty; on any other it only hands that line out.

    A terminal that is asked for single characters hands out a Ctrl-D typed before that as NUL, a later one as itself.
    """
    before = ""
    for piece in _END.split(text)[:-1]:
        before += piece
        if not piece or piece.endswith("\n"):
            return CameAlong(before, is_end=True)
    return CameAlong(_END.sub("", text))


def by_characters(before: list[int | list[bytes | int]], without: int) -> list[int | list[bytes | int]]:
    """A terminal's settings, changed so that every character can be read as soon as it comes.

    Args:
        before: the settings as they are.
        without: the local flags that it goes without, ICANON among them.
    """
    import termios

    flags, characters = before[_FLAGS_AT], before[_CHARACTERS_AT]
    after = list(before)
    if isinstance(flags, int) and isinstance(characters, list):
        single = list(characters)
        single[termios.VMIN], single[termios.VTIME] = 1, 0
        after[_FLAGS_AT], after[_CHARACTERS_AT] = flags & ~without, single
    return after
