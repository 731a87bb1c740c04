"""What a claim is told with: facts behind their label, and tables under their title; nothing where there is nothing."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import TYPE_CHECKING

from claimpack.commands.desk.wrapping import glued, wrapped
from claimpack.core.values.harmless import harmless

if TYPE_CHECKING:
    from claimpack.commands.desk.say import Say

_LABEL = 13
_MOST_CELLS = 34


def fact(say: Say, label: str, parts: Iterable[str], between: str = " · ") -> None:
    """A labelled line, wrapped under itself, its short parts whole; nothing where there is nothing to say."""
    room = say.world.width() - _LABEL
    text = between.join(glued(part) if len(part) <= room // 2 else part for part in parts if part)
    if not text:
        return
    lines = [line for part in harmless(text).split("\n") for line in wrapped(part, room)]
    say.answer(say.styled(f"{label:<{_LABEL}}", "quiet") + lines[0])
    for line in lines[1:]:
        say.answer(" " * _LABEL + line)


def table(say: Say, title: str, rows: Sequence[Sequence[str]], right: Sequence[int] = ()) -> None:
    """Rows under a title, each cell shortened so that a row stays on its line."""
    from claimpack.commands.screen.listing import shortened

    if rows:
        say.heading(title)
        say.table([[shortened(cell, _MOST_CELLS) for cell in row] for row in rows], right=right)


def counted(rows: Sequence[tuple[str, ...]]) -> list[tuple[str, ...]]:
    """Rows with the number that `set` names them by."""
    return [(str(number), *row) for number, row in enumerate(rows, start=1)]
