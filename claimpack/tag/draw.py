"""Tags as a PDF and as pictures for thermal printers, both from the same drawing."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from io import BytesIO
from typing import TYPE_CHECKING, Any

from claimpack.core.holding.tags import TagFacts
from claimpack.errors import BadInput
from claimpack.printing.typeface import REGULAR, register, typeface_file
from claimpack.tag.drawing import Area, Drawing, Modules, Polygon, letters
from claimpack.tag.layout import laid_out
from claimpack.tag.stock import LabelSheet, Stock

if TYPE_CHECKING:
    from PIL.Image import Image
    from PIL.ImageDraw import ImageDraw

_Placed = tuple[Drawing, float, float]

# Points of each arm of a cutting mark.
_ARM = 5.0
_HAIRLINE = 0.5


def tag_pdf(tags: Sequence[TagFacts], stock: Stock, author: str = "claimpack", start: int = 1) -> bytes:
    """The tags as a PDF, a page each, or as many on a page as the stock's sheet holds.

    Args:
        tags: what each tag says, in the order they are printed.
        stock: the paper.
        author: who made it, for the document's properties.
        start: the first free place of a sheet that was partly used, from 1.

    Returns:
        The same bytes for the same tags, stock and author.

    Raises:
        BadInput: a barcode does not fit on the stock, or its sheet has no such place.
    """
    from claimpack.printing.kept.finishing import finished
    from claimpack.printing.kept.reading_order import ReadableCanvas

    register()
    drawings = [laid_out(tag, stock, printer_dots(stock)) for tag in tags]
    stream = BytesIO()
    canvas = ReadableCanvas(stream, pagesize=stock.page, invariant=1, pageCompression=1, initialFontName=REGULAR)
    # a claim with several held parts is named once
    claims = ", ".join(dict.fromkeys(tag.claim for tag in tags))
    canvas.setTitle(f"Hold for warranty: {claims}")
    canvas.setAuthor(author)
    canvas.setSubject(", ".join(tag.code for tag in tags))
    canvas.setCreator("claimpack")
    for page in _pages(drawings, stock, start):
        _page_on_canvas(canvas, stock, page)
        canvas.showPage()
    canvas.save()
    upright = stock.turned and stock.sheet is not None
    # actual size: a bar scaled by the print dialogue is no longer of whole dots
    return finished(stream.getvalue(), canvas.document, actual_size=True, turned=270 if upright else 0)


def tag_png(tag: TagFacts, stock: Stock, dpi: int) -> bytes:
    """One tag as a black and white PNG, as `tag_picture` has it."""
    stream = BytesIO()
    tag_picture(tag, stock, dpi).save(stream, "PNG", dpi=(dpi, dpi), optimize=True)
    return stream.getvalue()


def tag_picture(tag: TagFacts, stock: Stock, dpi: int) -> Image:
    """One tag in black and white, of whole printer dots, as a label or roll leaves the printer.

    Args:
        tag: what it says.
        stock: the paper; of a sheet, one of its tags.
        dpi: dots per inch of the printer.

    Raises:
        BadInput: a barcode does not fit on the stock in dots of that size.
    """
    from PIL import Image, ImageDraw

    drawing = laid_out(tag, stock, dpi)
    size = (round(drawing.width / drawing.dot), round(drawing.height / drawing.dot))
    # black or white alone: a thermal head has no grey, and would guess
    picture = Image.new("1", size, 1)
    pen = ImageDraw.Draw(picture)
    # letters without soft edges, for the same reason
    pen.fontmode = "1"
    for mark in drawing.marks:
        _in_picture(pen, mark, drawing.dot)
    _texts_in_picture(pen, drawing)
    if stock.turned and not stock.sheet:
        picture = picture.transpose(Image.Transpose.ROTATE_270)
    return picture


def tag_notes(tags: Iterable[TagFacts], stock: Stock, dpi: int | None = None) -> list[str]:
    """What the reader should know before printing: text cut or without a typeface, bars finer than is safe.

    Args:
        tags: the tags.
        stock: the paper.
        dpi: dots per inch of the printer; None for the stock's own.
    """
    dots = dpi or printer_dots(stock)
    return list(dict.fromkeys(note for tag in tags for note in laid_out(tag, stock, dots).notes))


def printer_dots(stock: Stock) -> float:
    """The true dots per inch that a stock is printed with: a thermal printer sold as 203 has 8 dots a millimetre.

    Source: thermal printers' manuals give a dot of 0.125 mm for 203 dpi.
    """
    return 203.2 if stock.thermal and stock.dpi == 203 else float(stock.dpi)


def _pages(drawings: list[Drawing], stock: Stock, start: int) -> Iterator[list[_Placed]]:
    most = stock.sheet.rows * stock.sheet.columns if stock.sheet else 1
    if start > most:
        held = f"a sheet of {stock.name} has {most}" if stock.sheet else f"{stock.name} is no sheet"
        raise BadInput(f"--start {start}: there is no such place", f"Tags are counted from 1, and {held}.")
    if not stock.sheet:
        yield from ([(drawing, 0.0, 0.0)] for drawing in drawings)
        return
    places = list(_places(stock, stock.sheet))
    waiting, free = list(drawings), places[start - 1 :]
    while waiting:
        yield [(drawing, left, top) for drawing, (left, top) in zip(waiting, free, strict=False)]
        # only the first sheet was partly used
        waiting, free = waiting[len(free) :], places


def _places(stock: Stock, sheet: LabelSheet) -> Iterator[tuple[float, float]]:
    for row in range(sheet.rows):
        for column in range(sheet.columns):
            yield (
                sheet.left + column * (stock.width + sheet.gap_across),
                sheet.top + row * (stock.height + sheet.gap_down),
            )


def _page_on_canvas(canvas: Any, stock: Stock, page: list[_Placed]) -> None:
    """Draw a page in points from its upper left corner as it is read, downwards negative."""
    from claimpack.printing.kept.reading_order import Element

    canvas.translate(stock.page[0] if stock.turned else 0, stock.page[1])
    if stock.turned:
        canvas.rotate(-90)
    for drawing, left, top in page:
        canvas.saveState()
        canvas.translate(left, -top)
        with canvas.part(Element("Sect")):
            _on_canvas(canvas, drawing)
        canvas.restoreState()
    if stock.sheet and stock.sheet.cut_marks:
        _cut_marks(canvas, stock, [(left, top) for _, left, top in page])


def _on_canvas(canvas: Any, drawing: Drawing) -> None:
    """Draw from the upper left corner, where the canvas already stands; the codes are read after the words."""
    from claimpack.printing.kept.reading_order import Element

    for mark in drawing.marks:
        if not isinstance(mark, Modules):
            _fill(canvas, mark)
    for text in drawing.texts:
        canvas.setFillGray(1 if text.white else 0)
        canvas.setFont(text.face, text.size)
        with canvas.ink_of(Element("P")):
            canvas.drawString(text.x, -text.baseline, text.text)
    for mark in drawing.marks:
        if isinstance(mark, Modules):
            with canvas.ink_of(Element("Figure", mark.alt)):
                _fill(canvas, mark)


def _fill(canvas: Any, mark: Area | Polygon | Modules) -> None:
    canvas.setFillGray(1 if isinstance(mark, Polygon) and mark.white else 0)
    path = canvas.beginPath()
    if isinstance(mark, Area):
        path.rect(mark.x, -mark.bottom, mark.width, mark.height)
    elif isinstance(mark, Polygon):
        path.moveTo(mark.corners[0][0], -mark.corners[0][1])
        for x, y in mark.corners[1:]:
            path.lineTo(x, -y)
        path.close()
    else:
        for x, y, wide, high in mark.cells:
            dot = mark.dot
            path.rect(mark.x + x * dot, -(mark.y + (y + high) * dot), wide * dot, high * dot)
    canvas.drawPath(path, stroke=0, fill=1)


def _cut_marks(canvas: Any, stock: Stock, corners: list[tuple[float, float]]) -> None:
    """A small cross at each corner of each tag, on the lines to cut along."""
    crosses = {
        (round(left + across, 3), round(top + down, 3))
        for left, top in corners
        for across in (0.0, stock.width)
        for down in (0.0, stock.height)
    }
    canvas.setLineWidth(_HAIRLINE)
    canvas.setStrokeGray(0)
    for x, y in sorted(crosses):
        canvas.line(x - _ARM, -y, x + _ARM, -y)
        canvas.line(x, -y - _ARM, x, -y + _ARM)


def _in_picture(pen: ImageDraw, mark: Area | Polygon | Modules, dot: float) -> None:
    if isinstance(mark, Polygon):
        pen.polygon([(x / dot, y / dot) for x, y in mark.corners], fill=int(mark.white))
    elif isinstance(mark, Area):
        left, top = round(mark.x / dot), round(mark.y / dot)
        right, bottom = round(mark.right / dot), round(mark.bottom / dot)
        # the last pixel belongs to it, and a line keeps at least one
        pen.rectangle((left, top, max(left, right - 1), max(top, bottom - 1)), fill=0)
    else:
        left, top = round(mark.x / dot), round(mark.y / dot)
        for x, y, wide, high in mark.cells:
            pen.rectangle((left + x, top + y, left + x + wide - 1, top + y + high - 1), fill=0)


def _texts_in_picture(pen: ImageDraw, drawing: Drawing) -> None:
    """Each character stands where the PDF has it, so that a line cannot come out longer than in the PDF."""
    from PIL import ImageFont

    for text in drawing.texts:
        fonts: dict[str, Any] = {}
        for letter in letters(text):
            if letter.face not in fonts:
                fonts[letter.face] = ImageFont.truetype(
                    typeface_file(letter.face), text.size / drawing.dot, layout_engine=ImageFont.Layout.BASIC
                )
            place = letter.x / drawing.dot, letter.y / drawing.dot
            # letter by letter, since the library would space a line by whole pixels
            pen.text(place, letter.mark, font=fonts[letter.face], fill=int(text.white), anchor="ls")
