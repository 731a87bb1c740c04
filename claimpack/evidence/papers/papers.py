"""Papers: receipts and letters, brought in page by page with nothing in them but what is printed."""

from __future__ import annotations

import io
import re
from dataclasses import dataclass
from pathlib import Path

import pikepdf

from claimpack.confined import confined
from claimpack.errors import BadInput
from claimpack.evidence.papers.printed import Printed
from claimpack.evidence.pictures.photos import PreparedPhoto, PrintSize, prepare
from claimpack.evidence.pictures.picture_files import opened
from claimpack.evidence.pictures.picture_kinds import ACCEPTED, kind_of
from claimpack.file_contents import hash_of
from claimpack.pdf_limits import open_within_limits

MOST_PAGES = 200
LARGEST_PAPER = 100_000_000
REPAIRED = "the PDF is damaged; it is shown as far as it could be repaired"
LEFT_OUT = "what stands on a layer of the PDF that is switched off was left out"
UNLOCKED = "the PDF asks readers not to change it; its pages are shown unchanged"

# More pixels than a photo gets: a receipt's small print must stay legible.
_PAPER_SIZE = PrintSize(long_edge=2200, quality=80)
# The largest page that PDF readers agree to show: 200 inches.
_LONGEST_EDGE = 14_400
# The library names its stream in front of every message, which tells a user nothing.
_SOURCE = re.compile(r"stream <[^>]*>:? ?")
# Every error the PDF library was seen to raise for a damaged file.
_DAMAGES = (pikepdf.PdfError, ValueError, TypeError, LookupError, AttributeError, RuntimeError, RecursionError)


@dataclass(frozen=True, slots=True)
class PageSize:
    """A page as it is read, turned upright: width and height in points."""

    width: float
    height: float


@dataclass(frozen=True, slots=True)
class PreparedPaper:
    """A paper of the claim: either a PDF of printed content alone, or a photo of the paper."""

    file: str
    sha256: str
    """Of the original file."""
    original_bytes: int
    pages: tuple[PageSize, ...]
    pdf: bytes = b""
    """Empty when the paper is a photo. Pages may be turned (/Rotate) or cropped (/CropBox)."""
    photo: PreparedPhoto | None = None
    notes: tuple[str, ...] = ()

    def as_pdf(self) -> bytes:
        """The paper as a PDF; a photo becomes one page, its JPEG as it is."""
        return _one_page(self.photo) if self.photo else self.pdf


def read_paper(path: Path, file: str) -> PreparedPaper:
    """A paper of the claim, its pages as they print; forms are filled in, scripts and attachments left behind.

    Raises:
        NotFound: there is no such file.
        NotInstalled: it is a HEIC picture and this machine lacks the reader.
        BadInput: it needs a password, is damaged, empty, too long, or neither a PDF nor a picture.
    """
    with opened(path, file) as stream:
        head = stream.read(1024)
        if kind_of(head):
            return _photographed(path, file)
        if b"%PDF-" not in head:
            raise BadInput(
                f"{file} is neither a PDF nor a picture",
                f"Papers are PDF, {ACCEPTED}.",
                "Print it to a PDF, or take a photo of it.",
            )
        content = head + stream.read(LARGEST_PAPER)
    if len(content) > LARGEST_PAPER:
        raise BadInput(
            f"{file} is larger than {LARGEST_PAPER // 1_000_000} MB",
            "A packet with it could not be sent to anybody.",
            "Scan it with fewer dots an inch, or keep the pages that matter.",
        )
    return printed_paper(content, file)


def printed_paper(content: bytes, file: str) -> PreparedPaper:
    """A PDF as a paper, its pages as they print; forms are filled in, scripts and attachments left behind.

    Raises:
        BadInput: it needs a password, is damaged, empty or too long.
    """
    return confined(printed_here, content, file, file=file)


def _photographed(path: Path, file: str) -> PreparedPaper:
    photo = prepare(path, file, _PAPER_SIZE)
    size = PageSize(float(photo.width), float(photo.height))
    return PreparedPaper(
        file=file,
        sha256=photo.sha256,
        original_bytes=photo.original_bytes,
        pages=(size,),
        photo=photo,
        notes=photo.notes,
    )


def _one_page(photo: PreparedPhoto) -> bytes:
    from reportlab.lib.utils import ImageReader
    from reportlab.pdfgen.canvas import Canvas

    buffer = io.BytesIO()
    canvas = Canvas(buffer, pagesize=(photo.width, photo.height), invariant=1)
    canvas.drawImage(ImageReader(io.BytesIO(photo.jpeg)), 0, 0, photo.width, photo.height)
    canvas.save()
    return buffer.getvalue()


def printed_here(content: bytes, file: str) -> PreparedPaper:
    """As `printed_paper`, in this process: for what made the paper itself."""
    try:
        with open_within_limits(content) as original:
            _check_length(len(original.pages), file)
            printed = _looked_through(original, file)
            notes = _notes(original)
            pdf, pages = _printed_alone(original, printed, file)
    except pikepdf.PasswordError as error:
        raise BadInput(
            f"{file} is locked: its pages need a password to be read",
            "The maker's adjuster could not open it either.",
            "Open it, print it to a new PDF without a password, and name that one.",
        ) from error
    except _DAMAGES as error:
        raise BadInput(
            f"{file} is a damaged PDF: its pages cannot be read",
            f"The reader says: {_SOURCE.sub('', str(error))[:160]}.",
            "Ask for it again, or take a photo of the paper.",
        ) from error
    return PreparedPaper(
        file=file,
        sha256=hash_of(content),
        original_bytes=len(content),
        pages=pages,
        pdf=pdf,
        notes=notes + (LEFT_OUT,) * printed.layers.left_out,
    )


def _check_length(pages: int, file: str) -> None:
    if not pages:
        raise BadInput(f"{file} is a PDF without any page", "There is nothing in it to show.", "Ask for it again.")
    if pages > MOST_PAGES:
        raise BadInput(
            f"{file} has {pages} pages",
            f"A paper of more than {MOST_PAGES} pages is a manual rather than a proof.",
            "Print the pages that matter to a new PDF.",
        )


def _notes(original: pikepdf.Pdf) -> tuple[str, ...]:
    damaged = original.check_pdf_syntax() or original.get_warnings()
    return tuple(note for note, applies in ((REPAIRED, damaged), (UNLOCKED, original.is_encrypted)) if applies)


def _printed_alone(original: pikepdf.Pdf, printed: Printed, file: str) -> tuple[bytes, tuple[PageSize, ...]]:
    for page in original.pages:
        printed.without_hidden_notes(page)
    original.generate_appearance_streams()
    original.flatten_annotations("all")
    alone = pikepdf.new()
    for page in original.pages:
        _cut_down(printed, page, file)
        alone.pages.append(page)
    pages = tuple(_upright(page, number, file) for number, page in enumerate(alone.pages, 1))
    buffer = io.BytesIO()
    alone.save(buffer, deterministic_id=True)
    return buffer.getvalue(), pages


def _looked_through(original: pikepdf.Pdf, file: str) -> Printed:
    try:
        return Printed(original)
    except BadInput as error:
        raise _not_shown(file, error) from error


def _cut_down(printed: Printed, page: pikepdf.Page, file: str) -> None:
    try:
        printed.cut_down(page)
    except BadInput as error:
        raise _not_shown(file, error) from error


def _not_shown(file: str, error: BadInput) -> BadInput:
    return BadInput(
        f"{file} cannot be shown as it is: {error.what}",
        "What cannot be proved to be print alone may tell where it was taken, or more.",
        "Print it to a new PDF and name that one, or take a photo of the paper.",
    )


def _upright(page: pikepdf.Page, number: int, file: str) -> PageSize:
    left, bottom, right, top = _seen(page)
    unit = float(page.get("/UserUnit", 1))
    width, height = (right - left) * unit, (top - bottom) * unit
    if not (0 < width <= _LONGEST_EDGE and 0 < height <= _LONGEST_EDGE):
        raise BadInput(
            f"{file}, page {number}: the page measures {width:.0f} x {height:.0f} points",
            "A page without width and height, or of over 200 inches, cannot be shown.",
            "Print the paper to a new PDF.",
        )
    return PageSize(height, width) if int(page.get("/Rotate", 0)) % 180 else PageSize(width, height)


def _seen(page: pikepdf.Page) -> tuple[float, float, float, float]:
    media, crop = _edges(page.mediabox), _edges(page.cropbox)
    left, bottom = max(media[0], crop[0]), max(media[1], crop[1])
    return left, bottom, min(media[2], crop[2]), min(media[3], crop[3])


def _edges(box: pikepdf.Object) -> tuple[float, float, float, float]:
    x1, y1, x2, y2 = (float(value) for value in box)
    return min(x1, x2), min(y1, y2), max(x1, x2), max(y1, y2)
