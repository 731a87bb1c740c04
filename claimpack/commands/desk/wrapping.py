"""Text in lines as wide as a terminal: no word is broken, and no command that somebody may copy."""

from __future__ import annotations

import re
import textwrap

_COMMAND = re.compile(r"claimpack [a-z][^\n;]*")
# A sign that no message has stands for the blanks of a command while its line is broken.
_GLUE = "\ue000"


def wrapped(text: str, room: int) -> list[str]:
    """Text in lines; a word longer than a line stays whole, so that a path can be copied."""
    if len(text) <= room:
        return [text.rstrip()]
    return textwrap.wrap(text, room, break_on_hyphens=False, break_long_words=False) or [""]


def hanging(lead: str, text: str, room: int) -> str:
    """Text wrapped behind a lead, going on below its own beginning; nothing breaks inside a word."""
    return textwrap.fill(
        text,
        room,
        initial_indent=lead,
        subsequent_indent=" " * len(lead),
        break_long_words=False,
        break_on_hyphens=False,
    ).rstrip()


def with_whole_commands(text: str, room: int) -> list[str]:
    """A message in lines, each part of it indented as it was; a command in it stays on one line."""
    glued = _COMMAND.sub(lambda found: found[0].replace(" ", _GLUE), text)
    lines = []
    for part in glued.split("\n"):
        lead = " " * (len(part) - len(part.lstrip(" ")))
        first, *rest = wrapped(part, room)
        lines += [first, *(lead + line for line in rest)]
    return [line.replace(_GLUE, " ") for line in lines]
