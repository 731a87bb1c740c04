"""What stands on a picture or a paper, read in a process with limits: codes, letters, and the text of a PDF."""

from __future__ import annotations

from pathlib import Path

from PIL import Image

from claimpack.confined import confined
from claimpack.core.reading.read_text import TextRead
from claimpack.errors import BadInput
from claimpack.evidence.pictures.colour import eight_bit, plain
from claimpack.evidence.pictures.exif import camera_facts
from claimpack.evidence.pictures.photos import TURNS
from claimpack.evidence.pictures.picture_files import UNREADABLE, open_picture
from claimpack.evidence.reading.codes import codes_in
from claimpack.evidence.reading.letters import letters_in, must_read_letters, must_read_papers
from claimpack.evidence.reading.segments import display_in

# A plate that fills a third of a 12-megapixel picture has letters 20 pixels high in one of this edge.
_EDGE = 2000
# Of a receipt of several pages the first ones tell the sale.
_MOST_PAGES = 3
_LEAST_TEXT = 20


def read_picture(path: Path, file: str, *, letters: bool, meter: bool = False) -> tuple[TextRead, ...]:
    """The codes of a picture, then its lines from the top, then the number on its display.

    Args:
        path: where it lies.
        file: how the user calls it, for messages.
        letters: whether letters are read too.
        meter: whether, where letters are, it shows a meter, whose display has seven-segment digits.

    Raises:
        NotInstalled: letters are wanted, or it is HEIC, and this machine cannot read them.
        ClaimpackError: as for every picture that cannot be read.
    """
    if letters:
        must_read_letters()
    return confined(_read_picture, path.absolute(), file, letters, meter, file=file)


def _read_picture(path: Path, file: str, letters: bool, meter: bool) -> tuple[TextRead, ...]:
    with open_picture(path, file) as source:
        picture, facts = source.picture, camera_facts(source.picture)
        try:
            across, down = picture.size
            wanted = _EDGE / max(across, down, _EDGE)
            picture.draft("RGB", (round(across * wanted), round(down * wanted)))
            upright = plain(eight_bit(picture)).convert("RGB")
        except UNREADABLE as error:
            raise source.damaged(error) from error
    if facts.orientation in TURNS:
        upright = upright.transpose(TURNS[facts.orientation])
    lines = _lines(upright, letters=letters)
    # after the letters, whose reader keeps the libraries to one thread
    return (*lines, *(display_in(upright) if letters and meter else ()))


def _lines(upright: Image.Image, *, letters: bool) -> list[TextRead]:
    codes = codes_in(upright.convert("L"))
    if not letters:
        return codes
    upright.thumbnail((_EDGE, _EDGE), Image.Resampling.BILINEAR, reducing_gap=2)
    return [*codes, *letters_in(upright)]


def read_pdf(path: Path, file: str) -> tuple[TextRead, ...]:
    """The lines of the first pages of a PDF, from the top: its own text, else what its pages show.

    Raises:
        NotInstalled: this copy cannot read it, or not the letters of a paper that was scanned.
        BadInput: it is damaged or locked.
    """
    must_read_papers()
    return confined(_read_pdf, path.absolute(), file, file=file)


def _read_pdf(path: Path, file: str) -> tuple[TextRead, ...]:
    import pypdfium2

    try:
        with pypdfium2.PdfDocument(path) as paper:
            pages = [paper[place] for place in range(min(len(paper), _MOST_PAGES))]
            text = "\n".join(page.get_textpage().get_text_bounded() for page in pages)
            # a scanner may write its own name as text under a picture of the page
            if len(text.strip()) >= _LEAST_TEXT:
                return tuple(TextRead(line.strip(), "text") for line in text.splitlines() if line.strip())
            must_read_letters()
            drawn = [page.render(scale=_EDGE / max(page.get_size())).to_pil() for page in pages]
    except pypdfium2.PdfiumError as error:
        raise BadInput(f"{file} cannot be read: {error}", do="Open it, and print it to a new PDF.") from error
    return tuple(line for page in drawn for line in _lines(page.convert("RGB"), letters=True))
