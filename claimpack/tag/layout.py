"""Where everything on one tag stands, for a stock and a printer's dots."""

from __future__ import annotations

from claimpack.core.holding import TagFacts
from claimpack.tag.barcodes import (
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
from claimpack.tag.fitting import Style, write
from claimpack.tag.panels import draw_panels
from claimpack.tag.pictograms import sign
from claimpack.tag.stock import Block, Stock, Words
from claimpack.typeface import BOLD, MONO, REGULAR


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
                _barcode(drawing, tag, block, dpi)
            case "qr":
                _qr(drawing, tag, block, dpi)
    return drawing


def _band(drawing: Drawing, tag: TagFacts, words: Words, block: Block) -> None:
    drawing.fill(block.area)
    room = block.area.inset(max(6.0, block.height * 0.2), 1.5)
    count = words.count.replace("{index}", str(tag.index)).replace("{of}", str(tag.of))
    style = Style(BOLD, block.size * 0.72, block.least, across="right", down="middle", white=True)
    share = Area(room.x + room.width * 0.66, room.y, room.width * 0.34, room.height)
    found = write(drawing, count, share, style)
    taken = max(width_of(line, BOLD, found.size) for line in found.lines)
    banner = Area(room.x, room.y, room.width - taken - 8, room.height)
    write(drawing, words.banner, banner, Style(BOLD, block.size, block.least, down="middle", white=True))


def _claim(drawing: Drawing, tag: TagFacts, words: Words, block: Block) -> None:
    label = min(9.0, max(6.5, block.height * 0.16))
    write(drawing, words.claim, Area(block.x, block.y, block.width, label * 1.1), Style(REGULAR, label, 4))
    number = block.area.below(label * 1.25)
    write(drawing, tag.claim, number, Style(BOLD, block.size, block.least, across=block.across, down="middle"))


def _cautions(drawing: Drawing, tag: TagFacts, stock: Stock, block: Block) -> None:
    area = block.area
    if block.pictogram:
        side = min(block.pictogram, area.height)
        sign(drawing, tag.hazard, Area(area.x, area.y, side, side))
        area = area.after(side + 5)
    own = {str(hazard): text for hazard, text in stock.cautions.items()}.get(tag.hazard, "")
    text = own or "\n".join(tag.cautions)
    heading = min(10.0, block.size * 1.1)
    if own:
        text = f"{stock.words.caution}: {own}"
    else:
        write(drawing, stock.words.caution, Area(area.x, area.y, area.width, heading), Style(BOLD, heading, 6))
        area = area.below(heading * 1.15)
    write(drawing, text, area, Style(BOLD if own else REGULAR, block.size, block.least))


def _barcode(drawing: Drawing, tag: TagFacts, block: Block, dpi: float) -> None:
    code = code128(tag.code)
    modules = code.modules + 2 * QUIET_128
    dots = dots_per_module(dpi, block.width, modules)
    while dots > 2 and dots * drawing.dot > block.module and module_mm(dpi, dots - 1) >= SURE_MODULE_MM:
        dots -= 1
    if module_mm(dpi, dots) < SURE_MODULE_MM - 0.001:
        drawing.note(f"the bars of {tag.code} are {module_mm(dpi, dots):.2f} mm fine; try one with your scanner first")
    spare = block.width - modules * dots * drawing.dot
    x = block.x + spare * {"left": 0.0, "middle": 0.5, "right": 1.0}[block.across] + QUIET_128 * dots * drawing.dot
    width = code.modules * dots * drawing.dot
    tall = int((block.height - block.size * 1.15) / drawing.dot)
    bars, at = [], 0
    for number, run in enumerate(code.runs):
        if number % 2 == 0:
            bars.append((at * dots, 0, run * dots, tall))
        at += run
    drawing.cells(x, block.y, tuple(bars))
    under = Area(x, block.bottom - block.size, width, block.size)
    write(drawing, tag.code, under, Style(MONO, block.size, block.least, across="middle", down="bottom"))


def _qr(drawing: Drawing, tag: TagFacts, block: Block, dpi: float) -> None:
    rows = qr_modules(tag.code)
    modules = len(rows) + 2 * QUIET_QR
    dots = dots_per_module(dpi, min(block.width, block.height), modules)
    side = modules * dots * drawing.dot
    x = block.x + (block.width - side) * {"left": 0.0, "middle": 0.5, "right": 1.0}[block.across]
    y = block.y + (block.height - side) / 2
    quiet = QUIET_QR * dots * drawing.dot
    cells = [
        (column * dots, row * dots, dots, dots)
        for row, line in enumerate(rows)
        for column, dark in enumerate(line)
        if dark
    ]
    drawing.cells(x + quiet, y + quiet, tuple(cells))
