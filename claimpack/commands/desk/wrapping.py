"""Text in lines as wide as a terminal: no word is broken, and no command that somebody may copy."""

from __future__ import annotations

import os
import re
from collections.abc import Iterator, Sequence

from claimpack.core.values.wording.lines import in_lines

_COMMAND = re.compile(r"claimpack [a-z][^\n;]*")
# An option and its value stay together.
_WORD = re.compile(r"""(?:--[\w-]+ (?!-))?(?:[^\s"']|"[^"]*"|'[^']*')+""")
# A sign that no message has stands for a blank where no line may be broken.
_GLUE = "\ue000"
_LEAST_CELL = 20


def wrapped(text: str, room: int) -> list[str]:
    """Text in lines, none begun by a "·"; a word longer than a line stays whole, so that a path can be copied."""
    lines = [text.rstrip()]
    if len(text) > room:
        lines = in_lines(text, room) or [""]
    return [line.replace(_GLUE, " ") for line in lines]


def glued(text: str) -> str:
    """Text that is not broken where it is wrapped."""
    return text.replace(" ", _GLUE)


def hanging(lead: str, text: str, room: int) -> str:
    """Text wrapped behind a lead, going on below its own beginning; nothing breaks inside a word."""
    return "\n".join(in_lines(text, room, lead, " " * len(lead))).rstrip()


def continued(command: str, room: int) -> list[str]:
    """A command in lines that a shell takes together, so that it is copied whole; broken between its words alone."""
    sign = "`" if os.name == "nt" else "\\"
    first, *words = _WORD.findall(command)
    lines = [first]
    for word in words:
        if len(lines[-1]) + len(word) + 3 > room:
            lines[-1] += f" {sign}"
            lines.append(f"    {word}")
        else:
            lines[-1] += f" {word}"
    return lines if len(command) > room else [command]


def with_whole_commands(text: str, room: int) -> list[str]:
    """A message in lines, each part of it indented as it was; a command in it stays on one line."""
    lines = []
    for part in _COMMAND.sub(lambda found: glued(found[0]), text).split("\n"):
        lead = " " * (len(part) - len(part.lstrip(" ")))
        lines += [lead + line for line in wrapped(part[len(lead) :], room - len(lead))]
    return lines


def in_columns(rows: Sequence[Sequence[str]], right: Sequence[int], indent: int, room: int | None) -> Iterator[str]:
    """Rows in columns, those named by `right` set to the right; the last cell goes on under itself.

    Args:
        rows: the cells.
        right: columns of numbers, by place from 0.
        indent: blanks before every line.
        room: the width; None where nobody looks at it, and every row is one line.
    """
    widths = [max(len(row[column]) for row in rows) for column in range(len(rows[0]))] if rows else []
    for row in rows:
        said = [
            cell.rjust(width) if column in right else cell.ljust(width)
            for column, (cell, width) in enumerate(zip(row, widths, strict=True))
        ]
        line = (" " * indent + "  ".join(said)).rstrip()
        before = len(line) - len(row[-1])
        # a number is never broken: half of it would be another number
        if room is None or len(row) - 1 in right or len(line) <= room:
            yield line
            continue
        if before > room - _LEAST_CELL:
            # so little is left beside them that all the cells go on below their beginning
            before = indent + 4
            first, *rest = wrapped(line[indent:], room - before)
            yield " " * indent + first
        else:
            first, *rest = wrapped(row[-1], room - before)
            yield line[:before] + first
        yield from (" " * before + more for more in rest)
