"""The contact sheet of a claim: its shots in order, each with its pictures, gaps left empty; as PDF and as PNG."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from io import BytesIO
from math import ceil
from typing import Any, NamedTuple

from claimpack.core.values.words import is_said
from claimpack.printing.lettering import shortened, width_of
from claimpack.printing.palette import INK, QUIET, RULE, WHITE
from claimpack.printing.papers import Page
from claimpack.printing.scripts.lines import in_faces, in_order
from claimpack.printing.typeface import BOLD, REGULAR, register, typeface_file

_MARGIN, _HEAD, _GAP = 40.0, 56.0, 12.0
_COLUMNS, _SHAPE = 3, 0.68
# Fewer columns leave the page half empty where the pictures hardly grow by it.
_WORTH_IT = 1.15
_TITLE, _SMALL, _LINE = 9.0, 7.5, 10.5
# Of the text below a picture: what it shows, which file, when.
_BELOW = 3 * _LINE + 4
_PNG_DPI = 110


class SheetPicture(NamedTuple):
    """A picture of a claim: its number, what it shows, its file, when it was taken, what is doubtful, and a JPEG."""

    number: int
    shot: str
    file: str
    taken: str
    doubt: str
    jpeg: bytes
    width: int
    height: int


class Cell(NamedTuple):
    """A place on the sheet: what it is for, and the picture; None where the plan's shot is missing."""

    title: str
    picture: SheetPicture | None


class SheetTitles(NamedTuple):
    """What stands above the pictures, and at the foot."""

    title: str
    below: str
    foot: str
    author: str


class _Text(NamedTuple):
    text: str
    face: str
    size: float
    ink: str
    x: float
    baseline: float


class _Box(NamedTuple):
    x: float
    top: float
    width: float
    height: float


class _Shown(NamedTuple):
    jpeg: bytes
    box: _Box
    alt: str


_Mark = _Text | _Box | _Shown


def cells(pictures: Sequence[SheetPicture], asked: Sequence[str]) -> list[Cell]:
    """The places of the sheet: the shots asked for in the plan's order, then every other picture in the claim's."""
    placed: list[Cell] = []
    for shot in asked:
        of_shot = [Cell(shot, picture) for picture in pictures if is_said(picture.shot, [shot])]
        # an empty place shows what is still to be taken
        placed += of_shot or [Cell(shot, None)]
    others = [picture for picture in pictures if not is_said(picture.shot, asked)]
    return placed + [Cell(picture.shot or "no shot named", picture) for picture in others]


def contact_sheet_pdf(placed: Sequence[Cell], titles: SheetTitles, page: Page) -> bytes:
    """The sheet as a PDF; the same bytes for the same pictures."""
    from reportlab.lib.utils import ImageReader

    from claimpack.printing.kept.finishing import finished
    from claimpack.printing.kept.reading_order import Element, ReadableCanvas

    stream = BytesIO()
    register()
    canvas = ReadableCanvas(stream, pagesize=page, invariant=1, initialFontName=REGULAR)
    canvas.setTitle(titles.title)
    canvas.setAuthor(titles.author or "claimpack")
    canvas.setCreator("claimpack")
    for marks in _pages(placed, titles, page):
        for mark in marks:
            if isinstance(mark, _Text):
                canvas.setFont(mark.face, mark.size)
                canvas.setFillColor(mark.ink)
                with canvas.ink_of(Element("P")):
                    canvas.drawString(mark.x, page[1] - mark.baseline, mark.text)
            elif isinstance(mark, _Box):
                canvas.setStrokeColor(RULE)
                canvas.setDash(4, 3)
                canvas.rect(mark.x, page[1] - mark.top - mark.height, mark.width, mark.height)
            else:
                x, top, width, height = mark.box
                with canvas.ink_of(Element("Figure", mark.alt)):
                    canvas.drawImage(ImageReader(BytesIO(mark.jpeg)), x, page[1] - top - height, width, height)
        canvas.showPage()
    canvas.save()
    return finished(stream.getvalue(), canvas.document)


def contact_sheet_png(placed: Sequence[Cell], titles: SheetTitles, page: Page) -> bytes:
    """The sheet as one picture, its pages below each other."""
    from PIL import Image, ImageDraw

    scale = _PNG_DPI / 72
    pages = list(_pages(placed, titles, page))
    size = round(page[0] * scale), round(page[1] * scale)
    whole = Image.new("RGB", (size[0], size[1] * len(pages)), WHITE)
    for place, marks in enumerate(pages):
        sheet = Image.new("RGB", size, WHITE)
        pen = ImageDraw.Draw(sheet)
        for mark in marks:
            _on_picture(sheet, pen, mark, scale)
        whole.paste(sheet, (0, place * size[1]))
    stream = BytesIO()
    whole.save(stream, "PNG", dpi=(_PNG_DPI, _PNG_DPI), optimize=True)
    return stream.getvalue()


def _on_picture(sheet: Any, pen: Any, mark: _Mark, scale: float) -> None:
    from PIL import Image, ImageFont

    if isinstance(mark, _Text):
        x = mark.x
        for face, run in in_faces(in_order(mark.text), mark.face):
            font = ImageFont.truetype(typeface_file(face), round(mark.size * scale))
            pen.text((x * scale, mark.baseline * scale), run, mark.ink, font, anchor="ls")
            x += width_of(run, face, mark.size)
        return
    box = mark if isinstance(mark, _Box) else mark.box
    left, top, width, height = (round(side * scale) for side in box)
    if isinstance(mark, _Box):
        pen.rectangle((left, top, left + width, top + height), outline=RULE, width=2)
    else:
        sheet.paste(Image.open(BytesIO(mark.jpeg)).convert("RGB").resize((width, height)), (left, top))


def _pages(placed: Sequence[Cell], titles: SheetTitles, page: Page) -> Iterator[list[_Mark]]:
    """What is drawn on each page, in points from its upper left corner."""
    columns, width, high = grid_for(len(placed), page)
    row = high + _BELOW + _GAP
    rows = max(1, int((page[1] - 2 * _MARGIN - _HEAD) // row))
    most = rows * columns
    starts = range(0, max(1, len(placed)), most)
    for number, start in enumerate(starts, start=1):
        marks = list(_head(titles, page, f"page {number} of {len(starts)}"))
        for place, cell in enumerate(placed[start : start + most]):
            x = _MARGIN + place % columns * (width + _GAP)
            marks += _cell(cell, _Box(x, _MARGIN + _HEAD + place // columns * row, width, high))
        yield marks


def grid_for(count: int, page: Page) -> tuple[int, float, float]:
    """The columns, and a picture's width and height in points: as large as all of them on one page leave it."""

    def sized(columns: int) -> tuple[float, float]:
        width = (page[0] - 2 * _MARGIN - (columns - 1) * _GAP) / columns
        most = (page[1] - 2 * _MARGIN - _HEAD) / max(1, ceil(count / columns)) - _BELOW - _GAP
        return width, min(width * _SHAPE, most)

    fewer = max(range(1, _COLUMNS), key=lambda columns: sized(columns)[1])
    width, high = sized(fewer)
    widest = (page[0] - 2 * _MARGIN - (_COLUMNS - 1) * _GAP) / _COLUMNS
    return (fewer, width, high - 0.01) if high > widest * _SHAPE * _WORTH_IT else (_COLUMNS, widest, widest * _SHAPE)


def _head(titles: SheetTitles, page: Page, folio: str) -> Iterator[_Mark]:
    room = page[0] - 2 * _MARGIN
    yield _line(titles.title, BOLD, 17, INK, _MARGIN, _MARGIN + 16, room)
    yield _line(titles.below, REGULAR, 9.5, QUIET, _MARGIN, _MARGIN + 34, room)
    yield _line(f"{titles.foot} · {folio}", REGULAR, 8, QUIET, _MARGIN, page[1] - _MARGIN / 2, room)


def _cell(cell: Cell, box: _Box) -> Iterable[_Mark]:
    picture, below = cell.picture, box.top + box.height
    if picture is None:
        yield box
        yield _line(cell.title, BOLD, _TITLE, INK, box.x, below + _LINE, box.width)
        yield _line("missing", REGULAR, _SMALL, QUIET, box.x, below + 2 * _LINE, box.width)
        return
    share = min(box.width / picture.width, box.height / picture.height)
    width, height = picture.width * share, picture.height * share
    yield _Shown(picture.jpeg, _Box(box.x, below - height, width, height), cell.title)
    yield _line(f"{picture.number}  {cell.title}", BOLD, _TITLE, INK, box.x, below + _LINE, box.width)
    yield _line(picture.file, REGULAR, _SMALL, QUIET, box.x, below + 2 * _LINE, box.width)
    last = " · ".join(part for part in (picture.taken, picture.doubt) if part)
    yield _line(last, REGULAR, _SMALL, QUIET, box.x, below + 3 * _LINE, box.width)


def _line(text: str, face: str, size: float, ink: str, *place: float) -> _Text:
    x, baseline, room = place
    return _Text(shortened(text, face, size, room), face, size, ink, x, baseline)
