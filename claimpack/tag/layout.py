"""Where everything on one tag stands, for a stock and a printer's dots."""

from __future__ import annotations

import re
from dataclasses import replace

from claimpack.core.holding.tags import TagFacts
from claimpack.printing.typeface import BOLD, MONO, REGULAR
from claimpack.tag.barcodes import (
    FINEST_DOTS,
    QUIET_128,
    QUIET_QR,
    SURE_MODULE_MM,
    code128,
    dots_per_module,
    module_mm,
    qr_modules,
)
from claimpack.tag.drawing import Area, Drawing, width_of
from claimpack.tag.facts import draw_facts
from claimpack.tag.fitting import Style, fitted, write
from claimpack.tag.panels import draw_panels
from claimpack.tag.pictograms import sign
from claimpack.tag.stock import Block, Stock, TagWords

# A band this low has no room for a line above the code.
_LOW = 32.0
_SIDES = {"left": 0.0, "middle": 0.5, "right": 1.0}


def laid_out(tag: TagFacts, stock: Stock, dpi: float) -> Drawing:
    """One tag, drawn for a printer of so many dots per inch.

    Raises:
        BadInput: a barcode does not fit on the stock.
    """
    drawing = Drawing(stock.width, stock.height, 72 / dpi)
    for block in stock.block:
        match block.what:
            case "band":
                _band(drawing, tag, stock.words, block)
            case "claim":
                _claim(drawing, tag, stock.words, block)
            case "facts":
                draw_facts(drawing, tag, stock.words, block)
            case "panels":
                draw_panels(drawing, tag, stock.words, block)
            case "cautions":
                _cautions(drawing, tag, stock, block)
            case "barcode":
                _barcode(drawing, tag, stock, block)
            case "qr":
                _qr(drawing, tag, stock, block)
    return drawing


def _band(drawing: Drawing, tag: TagFacts, words: TagWords, block: Block) -> None:
    drawing.fill(block.area)
    room = block.area.inset(max(6.0, block.height * 0.2), 1.5)
    banner = Style(BOLD, block.size, block.least, down="middle", white=True)
    if block.count:
        share = Area(room.x + room.width * 0.66, room.y, room.width * 0.34, room.height)
        smaller = replace(banner, largest=max(block.least, block.size * 0.6), across="right")
        found = write(drawing, _count(tag, words), share, smaller)
        taken = max(width_of(line, BOLD, found.size) for line in found.lines)
        room = Area(room.x, room.y, room.width - taken - 8, room.height)
    write(drawing, words.banner, room, banner)


def _count(tag: TagFacts, words: TagWords) -> str:
    return words.count.replace("{index}", str(tag.place)).replace("{of}", str(tag.of))


def _claim(drawing: Drawing, tag: TagFacts, words: TagWords, block: Block) -> None:
    """The number as large as it goes, its label above it, or beside it where the block is low."""
    area = block.area
    label = min(9.0, max(6.5, area.height * 0.16))
    style = Style(REGULAR, label, 4)
    if area.height < _LOW and not block.count:
        beside = width_of(drawing.printable(words.claim), REGULAR, label) + 1
        write(drawing, words.claim, Area(area.x, area.y, beside, area.height), replace(style, down="middle"))
        number = area.after(beside + 5)
    else:
        strip = Area(area.x, area.y, area.width, label * (1.6 if block.count else 1.1))
        write(drawing, words.claim, strip, replace(style, down="bottom"))
        if block.count:
            share = strip.after(strip.width * 0.4)
            write(drawing, _count(tag, words), share, Style(BOLD, 1.6 * label, 6, across="right", down="bottom"))
        number = area.below(strip.height + label * (0.5 if block.count else 0.15))
    large = Style(BOLD, block.size, block.least, across=block.across, down="middle", one_line=0.6)
    write(drawing, tag.claim, number, large)


def _cautions(drawing: Drawing, tag: TagFacts, stock: Stock, block: Block) -> None:
    area = block.area
    if block.pictogram:
        side = min(block.pictogram, area.height)
        sign(drawing, tag.hazard, Area(area.x, area.y, side, side))
        area = area.after(side + 5)
    own = {str(hazard): text for hazard, text in stock.cautions.items()}.get(tag.hazard, "")
    text = own or "\n".join(tag.cautions)
    heading = min(10.0, block.size * 1.1)
    style = Style(BOLD if own else REGULAR, block.size, block.least)
    if own:
        text = f"{stock.words.caution}: {own}"
    else:
        write(drawing, stock.words.caution, Area(area.x, area.y, area.width, heading), Style(BOLD, heading, 6))
        area = area.below(heading * 1.15)
    run_on = text.replace("\n", " ")
    if fitted(text, area, style).cut or fitted(run_on, area, style).size > fitted(text, area, style).size + 0.3:
        text = run_on
    write(drawing, text, area, style)


def _barcode(drawing: Drawing, tag: TagFacts, stock: Stock, block: Block) -> None:
    code = code128(tag.code)
    dots = _dots(drawing, block, block.width, code.modules + 2 * QUIET_128)
    module = module_mm(72 / drawing.dot, dots)
    if module < SURE_MODULE_MM - 0.001:
        drawing.note(f"the bars of {tag.code} are only {module:.2f} mm wide; try one with your scanner first")
    width = code.modules * dots * drawing.dot
    x = _begin(stock, block, width, QUIET_128 * dots * drawing.dot)
    tall = int((block.height - block.size * 1.15) / drawing.dot)
    bars, at = [], 0
    for number, run in enumerate(code.runs):
        if number % 2 == 0:
            bars.append((at * dots, 0, run * dots, tall))
        at += run
    drawing.cells(x, block.y, tuple(bars), f"Code 128: {tag.code}")
    under = Area(x, block.area.bottom - block.size, width, block.size)
    shop = _comes_from(tag, stock.words)
    across = "left" if shop else "middle"
    written = write(drawing, tag.code, under, Style(MONO, block.size, 4, across=across, down="bottom"))
    if shop:
        rest = under.after(width_of(written.lines[0], MONO, written.size) + block.size)
        write(drawing, shop, rest, Style(REGULAR, block.size * 0.9, 4, across="right", down="bottom"))


def _comes_from(tag: TagFacts, words: TagWords) -> str:
    """Where a part that was sent away belongs: the shop, and the number the maker knows it by."""
    dealer = f"{words.dealer} {tag.dealer_number}" if tag.dealer_number else ""
    return ", ".join(part for part in (tag.shop, dealer) if part)


def _qr(drawing: Drawing, tag: TagFacts, stock: Stock, block: Block) -> None:
    rows = qr_modules(tag.code)
    modules = len(rows) + 2 * QUIET_QR
    dots = _dots(drawing, block, min(block.width, block.height), modules)
    quiet = QUIET_QR * dots * drawing.dot
    side = modules * dots * drawing.dot
    x = _begin(stock, block, side - 2 * quiet, quiet)
    y = block.y + (block.height - side) / 2 + quiet
    cells = [
        (run.start() * dots, row * dots, len(run[0]) * dots, dots)
        for row, line in enumerate(rows)
        for run in re.finditer(b"\x01+", bytes(line))
    ]
    drawing.cells(x, y, tuple(cells), f"QR: {tag.code}")


def _dots(drawing: Drawing, block: Block, room: float, modules: int) -> int:
    """Whole dots for a module: as many as fit, up to the module the stock asks for."""
    dpi = 72 / drawing.dot
    # a tenth of a dot over, or 0.5 mm would lose a dot at 203 dpi, where a dot is a trifle more than 0.125 mm
    wanted = int(block.module / drawing.dot + 0.1)
    return min(dots_per_module(dpi, room, modules), max(FINEST_DOTS, wanted))


def _begin(stock: Stock, block: Block, width: float, quiet: float) -> float:
    """Where a code's first bar stands; at a side of the tag it lines up with the margin if its quiet zone allows."""
    first = max(block.x + quiet, min(stock.margin, block.x + block.width))
    last = min(block.area.right - quiet, stock.width - stock.margin) - width
    if last < first:
        first, last = block.x + quiet, block.area.right - quiet - width
    return first + (last - first) * _SIDES[block.across]
