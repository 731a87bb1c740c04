"""A tag stock: its size, its hole, its sheet, and what goes where in which words, as they stand in a stock file."""

from __future__ import annotations

from typing import Annotated, Any, Literal, Self

from claimpack.core.facts.keys import record_from, refused
from claimpack.core.facts.record import Record
from claimpack.core.values.marks import Field, model_validator
from claimpack.core.values.words import Line, Named
from claimpack.printing.lengths import Length, Size
from claimpack.tag.drawing import Area

Fact = Literal["maker", "model", "serial", "part", "part_number", "part_serial", "failed_on", "held_since"]
Hazard = Literal["fuel", "lithium battery", "wet battery", "none"]


class Hole(Record):
    """The hole and its reinforcing patch: the centre from the upper left corner, and how wide to keep free.

    Args:
        x: its centre, from the left edge, as in `"0.5 in"`.
        y: its centre, from the upper edge, as in `"0.5 in"`.
        across: how wide to keep free around it, as in `"20 mm"`.
    """

    x: Length
    y: Length
    across: Length


class LabelSheet(Record):
    """A page of several tags: where the first begins, and how they repeat.

    Args:
        width: how wide the sheet is, as in `"210 mm"`.
        height: how high the sheet is, as in `"297 mm"`.
        left: where the first tag begins, from the left edge, as in `"10 mm"`.
        top: where the first tag begins, from the upper edge, as in `"10 mm"`.
        rows: how many tags below each other, as in `4`.
        columns: how many tags beside each other, as in `2`.
        gap_across: how much is free between tags beside each other, as in `"3 mm"`.
        gap_down: how much is free between tags below each other, as in `"3 mm"`.
        cut_marks: whether the corners of tags are marked for cutting.
    """

    width: Length
    height: Length
    left: Length
    top: Length
    rows: Annotated[int, Field(ge=1, le=50)]
    columns: Annotated[int, Field(ge=1, le=50)]
    gap_across: Length = 0.0
    gap_down: Length = 0.0
    cut_marks: bool = True


class Panel(Record):
    """One of the framed boxes that stand side by side; one with nothing to say leaves its room to the others.

    Args:
        what: the day until which the part is held, the shelf, or whether it was drained.
        share: how much of the width it takes, beside the shares of the other panels, as in `6`.
        size: the largest type, as in `"30 pt"`.
        least: the smallest type, as in `"6 pt"`.
        terms: whether the maker's words for the hold are printed below.
    """

    what: Literal["hold", "shelf", "drained"]
    share: Annotated[int, Field(ge=1, le=100)] = 1
    size: Size
    least: Size = 6.0
    terms: bool = False


class Block(Record):
    """One thing on the tag, in its rectangle from the upper left; text is as large as fits, between two sizes.

    Args:
        what: what it shows.
        x: its left edge, from the left edge of the tag, as in `"12 pt"`.
        y: its upper edge, from the upper edge of the tag, as in `"12 pt"`.
        width: how wide it is, as in `"264 pt"`.
        height: how high it is, as in `"30 pt"`.
        size: the largest type, as in `"26 pt"`.
        least: the smallest type, as in `"6 pt"`.
        across: where the claim number and codes stand in it.
        rows: the facts of a `facts` block, line by line, as in `[["maker", "model"], ["part"]]`.
        write_in: facts that get a line to write on while they are not known, as in `["serial"]`.
        ruled: whether lines are drawn between the facts.
        panels: the boxes of a `panels` block, as in `[{what = "shelf", size = "26 pt"}]`.
        gap: how much is free between panels, as in `"5 pt"`.
        count: whether a `band` or `claim` block says which part of how many it is.
        pictogram: how high the pictograms of a `cautions` block are, as in `"28 pt"`.
        module: the widest a narrow bar of a barcode is drawn, as in `"0.63 mm"`.
    """

    what: Literal["band", "claim", "facts", "panels", "cautions", "barcode", "qr"]
    x: Length
    y: Length
    width: Length
    height: Length
    size: Size = 12.0
    least: Size = 6.0
    across: Literal["left", "middle", "right"] = "left"
    rows: tuple[tuple[Fact, ...], ...] = ()
    write_in: tuple[Fact, ...] = ()
    ruled: bool = False
    panels: tuple[Panel, ...] = ()
    gap: Length = 4.0
    count: bool = False
    pictogram: Length = 0.0
    module: Length = 2.0

    @property
    def area(self) -> Area:
        """Where it stands."""
        return Area(self.x, self.y, self.width, self.height)

    @model_validator(mode="after")
    def _has_what_it_shows(self) -> Self:
        if self.least > self.size:
            raise ValueError(f"least ({self.least:g} pt) is larger than size ({self.size:g} pt)")
        if self.what == "facts" and not any(self.rows):
            raise ValueError('a facts block needs rows, such as rows = [["maker", "model"], ["part"]]')
        if self.what == "panels" and not self.panels:
            raise ValueError("a panels block needs panels")
        return self


class TagWords(Record):
    """Every word printed on the tag, so that a shop may have it in its own language.

    Args:
        banner: what the tag says at its head, as in `HOLD FOR WARRANTY`.
        count: which part of how many it is, as in `part {index} of {of}`.
        claim: before the number of the claim.
        maker: before the maker.
        model: before the model.
        serial: before the serial number of the unit.
        part: before the name of the part.
        part_number: before the number of the part.
        part_serial: before the serial number of the part.
        failed_on: before the day it failed.
        held_since: before the day it was put on the shelf.
        hold_until: before the last day it is held.
        hold: where no last day is known.
        shelf: before the shelf.
        boxed: where the part is in its box.
        drained: where fuel and oil were drained.
        not_drained: where they were not.
        drained_question: before the room to write whether they were.
        by: before the room to write who did it.
        caution: before the cautions.
        dealer: before the number that the maker knows the shop by.
    """

    banner: Named
    count: Named
    claim: Named
    maker: Named
    model: Named
    serial: Named
    part: Named
    part_number: Named
    part_serial: Named
    failed_on: Named
    held_since: Named
    hold_until: Named
    hold: Named
    shelf: Named
    boxed: Named
    drained: Named
    not_drained: Named
    drained_question: Named
    by: Named
    caution: Named
    dealer: Named = "dealer"


class Stock(Record):
    """One tag stock. Lengths are in points; tag and sheet are described as they are read.

    Turned paper leaves the printer a quarter turn from that, its narrow side first.

    Args:
        format: the form of the file, always 1.
        id: what the stock is told by, as in `label-4x6`.
        name: what people call it, as in `Label 4 x 6 in`.
        width: how wide a tag is, as it is read, as in `"4 in"`.
        height: how high a tag is, as it is read, as in `"6 in"`.
        margin: how near the edge anything but codes may stand, as in `"12 pt"`.
        turned: whether it leaves the printer turned a quarter, its narrow side first.
        thermal: whether it is printed on a thermal printer, in black alone.
        dpi: dots to an inch of the printer, as in `203`.
        hole: the hole and its patch, kept free.
        sheet: the sheet, where several tags come on one.
        words: the words printed on it.
        cautions: what is printed to warn, by hazard, as in `{fuel = "Drain fuel and oil."}`.
        block: what stands where, one `[[block]]` each.
    """

    format: Literal[1]
    id: Annotated[Named, Field(pattern=r"^[a-z0-9][a-z0-9-]{0,59}$")]
    name: Named
    width: Length
    height: Length
    margin: Length
    turned: bool = False
    thermal: bool = False
    dpi: Annotated[int, Field(ge=100, le=2400)]
    hole: Hole | None = None
    sheet: LabelSheet | None = None
    words: TagWords
    cautions: dict[Hazard, Line] = {}
    block: tuple[Block, ...]

    @property
    def page(self) -> tuple[float, float]:
        """Width and height of the paper as it leaves the printer, in points."""
        width, height = self.read
        return (height, width) if self.turned else (width, height)

    @property
    def read(self) -> tuple[float, float]:
        """Width and height of the paper as it is read, in points."""
        return (self.sheet.width, self.sheet.height) if self.sheet else (self.width, self.height)


def stock_from(data: dict[str, Any], source: str) -> Stock:
    """The stock that a parsed stock file describes.

    Args:
        data: the file's content, decimal numbers read exactly.
        source: the file's name, for messages.

    Raises:
        BadInput: a key is unknown or missing, a value has no meaning, or something lies outside the tag or over its
            hole; every problem is listed.
    """
    stock = record_from(Stock, data, source)
    problems = _misplaced(stock)
    if problems:
        raise refused(source, problems)
    return stock


def _misplaced(stock: Stock) -> list[str]:
    found = []
    if not stock.block:
        found.append("the tag has no block, so nothing would be printed on it")
    for number, block in enumerate(stock.block, start=1):
        where = f"block {number} ({block.what})"
        if block.area.right > stock.width + 0.01 or block.area.bottom > stock.height + 0.01:
            found.append(f"{where} reaches beyond the tag, which is {stock.width:g} x {stock.height:g} pt")
        if stock.hole and _distance(block.area, stock.hole.x, stock.hole.y) < stock.hole.across / 2:
            found.append(f"{where} lies over the hole")
        if block.what not in ("barcode", "qr") and _nearest_edge(stock, block.area) < stock.margin - 0.01:
            found.append(f"{where} is nearer the edge than the margin of {stock.margin:g} pt")
    return found + _off_the_sheet(stock)


def _off_the_sheet(stock: Stock) -> list[str]:
    sheet = stock.sheet
    if not sheet:
        return []
    right = sheet.left + sheet.columns * stock.width + (sheet.columns - 1) * sheet.gap_across
    bottom = sheet.top + sheet.rows * stock.height + (sheet.rows - 1) * sheet.gap_down
    if right > sheet.width + 0.01 or bottom > sheet.height + 0.01:
        return [f"{sheet.rows} rows of {sheet.columns} tags do not fit on the sheet"]
    return []


def _nearest_edge(stock: Stock, area: Area) -> float:
    return min(area.x, area.y, stock.width - area.right, stock.height - area.bottom)


def _distance(area: Area, x: float, y: float) -> float:
    across = max(area.x - x, 0.0, x - area.right)
    down = max(area.y - y, 0.0, y - area.bottom)
    return float((across**2 + down**2) ** 0.5)
