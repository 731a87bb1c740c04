"""A table noted while it is drawn: its rows, and which of its cells are titles of others."""

from __future__ import annotations

from contextlib import AbstractContextManager, ExitStack
from typing import Any, Literal

from claimpack.printing.kept.reading_order import Element, furniture, part


class TableParts:
    """Told by the PDF engine what it draws of one table, on every page that the table goes on to.

    Titles said again overleaf are furniture of that page.

    Args:
        titled: how many of the first rows are titles of their columns.
        labels: the columns whose cells are titles of their rows, counted from 0.
    """

    def __init__(self, titled: int, labels: tuple[int, ...] = ()) -> None:
        self._titled, self._labels = titled, labels
        self._whole = Element("Table")
        self._begun_on: Any = None
        self._entered: list[ExitStack] = []

    def __call__(self, table: Any, what: str, row: int = 0, column: int = 0, *_more: Any) -> None:
        """What the engine does next."""
        canvas = table.canv
        if what == "startTable":
            self._enter(part(canvas, self._whole))
        elif what == "startRow":
            said_again = self._begun_on is canvas and row < self._titled
            self._enter(furniture(canvas) if said_again else part(canvas, Element("TR")))
        elif what == "startCell":
            self._enter(part(canvas, self._cell(table, row, column)))
        elif what in ("endCell", "endRow", "endTable"):
            self._entered.pop().close()
            self._begun_on = canvas if what == "endTable" else self._begun_on

    def _cell(self, table: Any, row: int, column: int) -> Element:
        spans = table._spanRanges.get((column, row)) if table._spanCmds else None  # noqa: SLF001 - nothing public tells it
        across = spans[2] - spans[0] + 1 if spans else 1
        heads: Literal["", "Row", "Column"] = (
            "Column" if row < self._titled else "Row" if column in self._labels else ""
        )
        return Element("TH" if heads else "TD", heads=heads, across=across)

    def _enter(self, context: AbstractContextManager[None]) -> None:
        stack = ExitStack()
        stack.enter_context(context)
        self._entered.append(stack)
