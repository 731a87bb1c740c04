"""The facts of a held part as a small table: label and value, as large as all of them fit together."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from claimpack.core.holding import TagFacts
from claimpack.tag.drawing import Area, Drawing, Text, width_of
from claimpack.tag.fitting import PITCH, shortened, wrapped
from claimpack.tag.stock import Block, Words
from claimpack.typeface import BOLD, REGULAR

_LABEL = 0.74
_LEAST_LABEL = 6.0
_ONE_LINE_WORTH = 0.8
_STEP = 0.25
_HAIRLINE = 0.6
_MOST_SPREAD = 0.9


@dataclass(frozen=True, slots=True)
class _Cell:
    label: str
    value: str


@dataclass(frozen=True, slots=True)
class _Set:
    """A cell set at a size: where its label begins, where its value does, and the value's lines."""

    cell: _Cell
    x: float
    value_x: float
    right: float
    lines: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class _Table:
    size: float
    rows: tuple[tuple[_Set, ...], ...]

    @property
    def height(self) -> float:
        return sum(_lines(row) for row in self.rows) * self.size * PITCH


def draw_facts(drawing: Drawing, tag: TagFacts, words: Words, block: Block) -> None:
    """Lay down the facts that are known, and a line to write on for those the stock asks for."""
    rows = _known(drawing, tag, words, block)
    if not rows:
        return
    table = _largest(rows, block) or _cut(drawing, rows, block)
    spare = max(0.0, block.height - table.height) / len(rows)
    spread = min(spare, table.size * _MOST_SPREAD)
    top = block.y
    for number, row in enumerate(table.rows):
        height = _lines(row) * table.size * PITCH + spread
        if number and block.ruled:
            drawing.fill(Area(block.x, top - _HAIRLINE / 2, block.width, _HAIRLINE))
        for one in row:
            _lay(drawing, one, top + spread / 2 + 0.95 * table.size, table.size)
        top += height


def value_of(tag: TagFacts, fact: str) -> str:
    """A fact as it is printed; empty where the claim does not know it."""
    value = getattr(tag, fact)
    return "" if value is None else str(value)


def _known(drawing: Drawing, tag: TagFacts, words: Words, block: Block) -> list[list[_Cell]]:
    rows = [
        [
            _Cell(drawing.printable(getattr(words, fact)), drawing.printable(value_of(tag, fact)))
            for fact in row
            if value_of(tag, fact) or fact in block.write_in
        ]
        for row in block.rows
    ]
    return [row for row in rows if row]


def _lines(row: tuple[_Set, ...]) -> int:
    return max(len(one.lines) for one in row)


def _largest(rows: list[list[_Cell]], block: Block) -> _Table | None:
    """The table at its largest: each value on one line if that costs little size, else wrapped, else broken."""
    sizes = [block.size - _STEP * step for step in range(int((block.size - block.least) / _STEP) + 1)]
    one = _first(rows, block, sizes, lambda text, fits: [text] if fits(text) else None)
    many = _first(rows, block, sizes, wrapped)
    if one and (not many or one.size >= _ONE_LINE_WORTH * many.size):
        return one
    return many or _first(rows, block, sizes, lambda text, fits: wrapped(text, fits, anywhere=True))


_Break = Callable[[str, Callable[[str], bool]], list[str] | None]


def _first(rows: list[list[_Cell]], block: Block, sizes: list[float], broken: _Break) -> _Table | None:
    tables = (_at(rows, block, size, broken) for size in sizes)
    return next((table for table in tables if table and table.height <= block.height + 0.01), None)


def _at(rows: list[list[_Cell]], block: Block, size: float, broken: _Break) -> _Table | None:
    columns = max(len(row) for row in rows)
    gap = size * 0.9
    labels = [
        max(width_of(row[column].label, REGULAR, _label(size)) for row in rows if column < len(row))
        for column in range(columns)
    ]
    made = []
    for row in rows:
        step = (block.width + gap) / len(row)
        cells = []
        for column, cell in enumerate(row):
            x = block.x + column * step
            value_x = x + labels[column] + 0.45 * size
            right = x + step - gap
            lines = _broken(cell.value, size, right - value_x, broken)
            if lines is None:
                return None
            cells.append(_Set(cell, x, value_x, right, tuple(lines)))
        made.append(tuple(cells))
    return _Table(size, tuple(made))


def _broken(value: str, size: float, width: float, broken: _Break) -> list[str] | None:
    if width < 2 * size:
        return None
    return broken(value, _fits(size, width)) if value else [""]


def _fits(size: float, width: float) -> Callable[[str], bool]:
    return lambda text: width_of(text, BOLD, size) <= width + 0.01


def _label(size: float) -> float:
    return min(size, max(_LEAST_LABEL, _LABEL * size))


def _cut(drawing: Drawing, rows: list[list[_Cell]], block: Block) -> _Table:
    """The table at its smallest, its longest values ending in a mark that something is left out."""
    room = max(1, int(block.height / (block.least * PITCH)) - len(rows) + 1)

    def some(text: str, fits: Callable[[str], bool]) -> list[str]:
        lines = wrapped(text, fits, anywhere=True) or [text]
        if len(lines) <= room:
            return lines
        drawing.note(f"there is no room for all of {text[:60]!r}; it ends in …")
        return shortened(lines, room, fits)

    table = _at(rows, block, block.least, some)
    while room > 1 and table and table.height > block.height + 0.01:
        room -= 1
        table = _at(rows, block, block.least, some)
    return table or _Table(block.least, ())


def _lay(drawing: Drawing, one: _Set, baseline: float, size: float) -> None:
    drawing.text(Text(one.x, baseline, one.cell.label, REGULAR, _label(size), white=False))
    if not one.cell.value:
        drawing.fill(Area(one.value_x, baseline + 0.1 * size, one.right - one.value_x, _HAIRLINE))
    for line in one.lines:
        drawing.text(Text(one.value_x, baseline, line, BOLD, size, white=False))
        baseline += PITCH * size
