"""The facts of a held part as a small table: label and value, as large as all of them fit together."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from claimpack.core.holding.tags import TagFacts
from claimpack.printing.fitting import wrapped
from claimpack.printing.typeface import BOLD, REGULAR
from claimpack.tag.drawing import Area, Drawing, Text, width_of
from claimpack.tag.fitting import shortened
from claimpack.tag.stock import Block, TagWords

# A label is set smaller than its fact, but never so small that it cannot be read at arm's length.
_LABEL = 0.74
_LEAST_LABEL = 6.0
# A fact on one line is found faster: that is worth some of the type's size, and so are values that align.
_ONE_LINE_WORTH = 0.8
_ALIGNED_WORTH = 0.88
# A value may be set so much smaller than the others before it is broken into lines.
_SMALLEST_OWN = 0.6
_STEP = 0.25
_AFTER_LABEL = 0.5
# What is not known yet is filled in by hand, and a pen needs this many times the type's size.
_LEAST_TO_WRITE_ON = 3.4
_CAPITAL = 0.714
_PITCH = 1.14
_RULED_PITCH = 1.32
_HAIRLINE = 0.6
_MOST_SPREAD = 0.9


@dataclass(frozen=True, slots=True)
class _Cell:
    label: str
    value: str


@dataclass(frozen=True, slots=True)
class _Set:
    """A cell set at a size: where its label begins, where its value does, and the value's lines.

    A value too long for its row has a size of its own.
    """

    cell: _Cell
    x: float
    value_x: float
    right: float
    lines: tuple[str, ...]
    own_size: float = 0.0


@dataclass(frozen=True, slots=True)
class _FactTable:
    size: float
    rows: tuple[tuple[_Set, ...], ...]

    def height(self, ruled: bool) -> float:
        lines = sum(_lines(row) for row in self.rows) * _PITCH
        return self.size * (lines + len(self.rows) * (_RULED_PITCH - _PITCH) * ruled)


def draw_facts(drawing: Drawing, tag: TagFacts, words: TagWords, block: Block) -> None:
    """Lay down the facts that are known, and a line to write on for those the stock asks for."""
    rows = _known(drawing, tag, words, block)
    if not rows:
        return
    table = _largest(rows, block) or _cut(drawing, rows, block)
    if table is None:
        labels = ", ".join(cell.label for row in rows for cell in row)
        drawing.note(f"a block is too narrow for its facts beside their labels, and none of them is printed: {labels}")
        return
    spare = max(0.0, block.height - table.height(ruled=False)) / len(table.rows)
    spread = min(spare, table.size * _MOST_SPREAD)
    top = block.y
    for number, row in enumerate(table.rows):
        height = _lines(row) * table.size * _PITCH + spread
        if number and block.ruled:
            drawing.fill(Area(block.x, top - _HAIRLINE / 2, block.width, _HAIRLINE))
        for one in row:
            _lay(drawing, one, top + (height + (_CAPITAL - (_lines(row) - 1) * _PITCH) * table.size) / 2, table.size)
        top += height


def value_of(tag: TagFacts, fact: str) -> str:
    """A fact as it is printed; empty where the claim does not know it."""
    value = getattr(tag, fact)
    return "" if value is None else str(value)


def _known(drawing: Drawing, tag: TagFacts, words: TagWords, block: Block) -> list[list[_Cell]]:
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


def _largest(rows: list[list[_Cell]], block: Block) -> _FactTable | None:
    """The table at its largest: each value on one line if that costs little size, else wrapped, else broken."""
    sizes = [block.size - _STEP * step for step in range(int((block.size - block.least) / _STEP) + 1)]
    one = _first(rows, block, sizes, _one_line)
    own = _first(rows, block, sizes, _shrunk)
    aligned = _first(rows, block, sizes, _one_line, aligned=True)
    if one and aligned and aligned.size >= _ALIGNED_WORTH * one.size:
        one = aligned
    if own and (not one or own.size > one.size):
        one = own
    many = _first(rows, block, sizes, wrapped)
    if one and (not many or one.size >= _ONE_LINE_WORTH * many.size):
        return one
    return many or _first(rows, block, sizes, lambda text, fits: wrapped(text, fits, anywhere=True))


_Break = Callable[[str, Callable[[str], bool]], list[str] | None]


def _one_line(text: str, fits: Callable[[str], bool]) -> list[str] | None:
    return [text] if fits(text) else None


def _shrunk(text: str, _fits: Callable[[str], bool]) -> list[str] | None:
    """One line whatever its length: it is set smaller, in its own row alone."""
    return [text]


def _first(
    rows: list[list[_Cell]], block: Block, sizes: list[float], broken: _Break, aligned: bool = False
) -> _FactTable | None:
    tables = (_at(rows, block, size, broken, aligned) for size in sizes)
    return next((table for table in tables if table and table.height(block.ruled) <= block.height + 0.01), None)


def _at(rows: list[list[_Cell]], block: Block, size: float, broken: _Break, aligned: bool = False) -> _FactTable | None:
    shared = _shared(rows, block, size) if aligned else None
    if aligned and shared is None:
        return None
    made: list[tuple[_Set, ...]] = []
    for row in rows:
        whole = _placed(row, shared) if shared and len(row) > 1 else _side_by_side(row, rows, block, size)
        if whole:
            made.append(whole)
            continue
        for cell in row:
            one = _alone(cell, rows, block, size, broken)
            if one is None:
                return None
            made.append((one,))
    return _FactTable(size, tuple(made))


# A column: where it begins, how far in its values stand, how wide it is.
_Place = tuple[float, float, float]


def _shared(rows: list[list[_Cell]], block: Block, size: float) -> list[_Place] | None:
    """The columns that every row of several facts stands in; None where not all of them can."""
    several = [row for row in rows if len(row) > 1]
    counts = {len(row) for row in several}
    if len(counts) != 1:
        return None
    columns = [[row[column] for row in several] for column in range(counts.pop())]
    labels = [_labels(rows, column, size) for column in range(len(columns))]
    least = _LEAST_TO_WRITE_ON * size
    wide = [
        label + max(width_of(cell.value, BOLD, size) or least for cell in column)
        for label, column in zip(labels, columns, strict=True)
    ]
    gap = size * 0.9
    spare = block.width - sum(wide) - gap * (len(wide) - 1)
    if spare < 0:
        return None
    wide[0] += min(spare, max(0.0, (block.width + gap) / len(wide) - gap - wide[0]))
    starts = [block.x + sum(wide[:column]) + gap * column for column in range(len(wide))]
    return list(zip(starts, labels, wide, strict=True))


def _placed(row: list[_Cell], places: list[_Place]) -> tuple[_Set, ...]:
    return tuple(
        _Set(cell, x, x + label, x + wide, (cell.value,)) for cell, (x, label, wide) in zip(row, places, strict=True)
    )


def _side_by_side(row: list[_Cell], rows: list[list[_Cell]], block: Block, size: float) -> tuple[_Set, ...] | None:
    """A row with each value on one line: in even columns, else in columns as wide as their content, else not at all."""
    gap = size * 0.9
    step = (block.width + gap) / len(row)
    even = [_labels(rows, column, size) for column in range(len(row))]
    if all(_fits(size, step - gap - label)(cell.value) for cell, label in zip(row, even, strict=True)):
        places = [(block.x + column * step, label, step - gap) for column, label in enumerate(even)]
    else:
        places, x = [], block.x
        for column, cell in enumerate(row):
            label = even[0] if column == 0 else width_of(cell.label, REGULAR, _label(size)) + _AFTER_LABEL * size
            wide = label + (width_of(cell.value, BOLD, size) or _LEAST_TO_WRITE_ON * size)
            places.append((x, label, wide))
            x += wide + gap
        if x - gap > block.x + block.width:
            return None
    return _placed(row, places)


def _alone(cell: _Cell, rows: list[list[_Cell]], block: Block, size: float, broken: _Break) -> _Set | None:
    label = _labels(rows, 0, size)
    lines = _broken(cell.value, size, block.width - label, broken)
    if lines is None:
        return None
    width, wide = block.width - label, width_of(cell.value, BOLD, size)
    own = size * width / wide if broken is _shrunk and wide > width else 0.0
    if own and own < max(block.least, _SMALLEST_OWN * size):
        return None
    return _Set(cell, block.x, block.x + label, block.x + block.width, tuple(lines), own)


def _labels(rows: list[list[_Cell]], column: int, size: float) -> float:
    """How far the values of a column stand from its left edge."""
    labels = [row[column].label for row in rows if column < len(row)]
    if column == 0:
        # the first column holds also the facts of a row that had to be taken apart
        labels = [cell.label for row in rows for cell in row]
    return max(width_of(label, REGULAR, _label(size)) for label in labels) + _AFTER_LABEL * size


def _broken(value: str, size: float, width: float, broken: _Break) -> list[str] | None:
    # narrower than two letters nothing can be read
    if width < 2 * size:
        return None
    return broken(value, _fits(size, width)) if value else [""]


def _fits(size: float, width: float) -> Callable[[str], bool]:
    return lambda text: width_of(text, BOLD, size) <= width + 0.01


def _label(size: float) -> float:
    return min(size, max(_LEAST_LABEL, _LABEL * size))


def _cut(drawing: Drawing, rows: list[list[_Cell]], block: Block) -> _FactTable | None:
    """The table at its smallest, its longest values ending in a mark; None where labels leave no room for values."""
    room = max(1, int(block.height / (block.least * _PITCH)))

    def some(text: str, fits: Callable[[str], bool]) -> list[str]:
        lines = wrapped(text, fits, anywhere=True) or [text]
        if len(lines) <= room:
            return lines
        drawing.note(f"there is no room for all of {text[:60]!r}; it ends in …")
        return shortened(lines, room, fits)

    table = _at(rows, block, block.least, some)
    while room > 1 and table and table.height(block.ruled) > block.height + 0.01:
        room -= 1
        table = _at(rows, block, block.least, some)
    return table


def _lay(drawing: Drawing, one: _Set, baseline: float, size: float) -> None:
    drawing.text(Text(one.x, baseline, one.cell.label, REGULAR, _label(size), white=False))
    if not one.cell.value:
        drawing.fill(Area(one.value_x, baseline + 0.1 * size, one.right - one.value_x, _HAIRLINE))
        return
    for line in one.lines:
        drawing.text(Text(one.value_x, baseline, line, BOLD, one.own_size or size, white=False))
        baseline += _PITCH * size
