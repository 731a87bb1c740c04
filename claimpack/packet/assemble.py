"""The packet put together: drawn pages, paper pages in their slots, metadata and attachments, always the same bytes."""

from __future__ import annotations

import contextlib
import datetime as dt
import io
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any, Protocol

import pikepdf
from pikepdf import Name

from claimpack.errors import BadInput
from claimpack.packet.lasting import passing
from claimpack.packet.sealing.attachments import MANIFEST, Attachment, attach, stamp_of
from claimpack.packet.sealing.embedded import TOOL, Enclosed, data_files, manifest_of, saved, seal
from claimpack.packet.sealing.fingerprints import Fingerprints
from claimpack.printing.kept.finishing import finish
from claimpack.printing.kept.reading_order import Element

PAPER = "/Paper"

# an adjuster opens packets of many shops: nothing may run because one was opened
_ACTS_ALONE = ("/OpenAction", "/AA", "/AcroForm", "/JavaScript")
_BESIDE_DRAWING = ("/AF", "/Metadata", "/OPI", "/PieceInfo", "/Ref", "/StructParent", "/StructParents")
_OTHER_BOXES = ("/TrimBox", "/ArtBox", "/BleedBox")


class FreeSlot(Protocol):
    """A place left free for one page of a paper; points from the page's lower left, both pages counted from 0."""

    @property
    def page_index(self) -> int:
        """The packet page, the first being 0."""

    @property
    def x(self) -> float:
        """The slot's left edge."""

    @property
    def y(self) -> float:
        """The slot's lower edge."""

    @property
    def width(self) -> float:
        """How wide the slot is."""

    @property
    def height(self) -> float:
        """How high the slot is."""

    @property
    def paper_file(self) -> str:
        """The paper, as the claim names it."""

    @property
    def paper_page(self) -> int:
        """The paper's page, the first being 0."""

    @property
    def number(self) -> int:
        """The number kept for it in the order in which the page is read."""


class DrawnPacket(Protocol):
    """The packet's own pages, with slots left free for papers."""

    @property
    def pdf(self) -> bytes:
        """The drawn pages."""

    @property
    def slots(self) -> Sequence[FreeSlot]:
        """The places for paper pages."""

    @property
    def document(self) -> Element:
        """What the pages say and in which order."""


@dataclass(frozen=True)
class PacketTitles:
    """What the document says of itself; the day is the one it is dated, the language a tag such as `en`."""

    title: str
    author: str
    subject: str
    language: str
    day: dt.date


def assemble(drawn: DrawnPacket, papers: Mapping[str, bytes], titles: PacketTitles, enclosed: Enclosed) -> bytes:
    """The whole packet as bytes; the same input gives the same bytes.

    It says of itself that it follows PDF/A-3 where no paper in it was found to hinder that.

    Args:
        drawn: the drawn pages and the slots in them.
        papers: the content of each paper that is a PDF, by file.
        titles: the document's title, author, subject, language and day.
        enclosed: the claim and what it was judged by, to be carried inside.

    Raises:
        BadInput: a page of a paper cannot be copied; names the paper.
    """
    with contextlib.ExitStack() as opened:
        pages = opened.enter_context(pikepdf.open(io.BytesIO(drawn.pdf)))
        needed = dict.fromkeys(slot.paper_file for slot in drawn.slots)
        sources = {file: opened.enter_context(_opened_paper(file, papers)) for file in needed}
        placed = list(_place_papers(pages, drawn.slots, sources))
        pictures = {**_papers_by_picture(pages, placed), **enclosed.pictures}
        # one page that may change makes the promise false for the whole file
        lasts = not any(passing(form) for _, form in placed)
        _quieten(pages)
        _entitle(pages, titles)
        finish(pages, drawn.document, titles.language, for_ever=lasts)
        final_pages = saved(pages)
    # an owner's pages carry nothing, so there is nothing to seal either
    if not enclosed.is_carried:
        return final_pages
    # Digests are taken from the saved file: saving may still change how a stream is stored.
    with pikepdf.open(io.BytesIO(final_pages)) as packet:
        data = data_files(enclosed)
        listed = manifest_of(packet, enclosed, data, pictures).as_bytes()
        manifest = Attachment.of(MANIFEST, listed)
        attach(packet, (*data, manifest), titles.day)
        seal(packet, manifest)
        return saved(packet)


_Placed = tuple[str, pikepdf.Object]
"""A page of a paper where it was put, and the paper's file."""


def _place_papers(pdf: pikepdf.Pdf, slots: Sequence[FreeSlot], sources: Mapping[str, pikepdf.Pdf]) -> Iterator[_Placed]:
    for number, slot in enumerate(slots, 1):
        form = _copied(pdf, sources[slot.paper_file], slot)
        _put(pdf.pages[slot.page_index], form, f"{PAPER}{number}", slot)
        yield slot.paper_file, form


def _papers_by_picture(pdf: pikepdf.Pdf, placed: Sequence[_Placed]) -> dict[str, str]:
    # by what their bytes hash to: numbers of objects change when the packet is saved
    prints = Fingerprints(pdf)
    return {picture: file for file, form in placed for picture in prints.jpegs_of(form)}


def _opened_paper(file: str, papers: Mapping[str, bytes]) -> pikepdf.Pdf:
    if file not in papers:
        raise BadInput(f"{file}: the packet has a place for it, but its content was not given")
    try:
        paper = pikepdf.open(io.BytesIO(papers[file]))
        _flatten(paper)
    except pikepdf.PasswordError:
        raise BadInput(
            f"{file} is locked with a password",
            "Its pages cannot be copied into the packet.",
            "Print it to a new PDF without a password, or photograph it.",
        ) from None
    except pikepdf.PdfError as error:
        raise _not_copied(file, "it is damaged or no PDF") from error
    return paper


def _flatten(paper: pikepdf.Pdf) -> None:
    """Draw what stamps and filled-in fields show into the page, since they themselves are left behind."""
    if "/AcroForm" in paper.Root:
        # a field may be filled in and have nothing drawn for it: flattening alone would lose the words
        paper.generate_appearance_streams()
    paper.flatten_annotations("print")


def _copied(pdf: pikepdf.Pdf, paper: pikepdf.Pdf, slot: FreeSlot) -> pikepdf.Object:
    which = f"{slot.paper_file}, page {slot.paper_page + 1}"
    if not 0 <= slot.paper_page < len(paper.pages):
        raise _not_copied(which, f"the paper has {len(paper.pages)}")
    page = paper.pages[slot.paper_page]
    # A page taken over is cut to its trim box where it has one; readers show what lies in its crop box.
    for box in _OTHER_BOXES:
        if box in page.obj:
            del page.obj[box]
    try:
        form = page.as_form_xobject()
        # Read now, so that damage is told of this paper and not of the finished packet.
        form.read_bytes()
        _keep_drawing_alone(form, set())
        return pdf.copy_foreign(form)
    except (pikepdf.PdfError, ValueError, RuntimeError) as error:
        raise _not_copied(which, "it is damaged") from error


def _not_copied(which: str, because: str) -> BadInput:
    return BadInput(
        f"{which} cannot be copied into the packet: {because}",
        "A packet without it would lack a paper that the claim names.",
        "Open the paper, print it to a new PDF, and put that in its place.",
    )


def _keep_drawing_alone(form: Any, done: set[tuple[int, int]]) -> None:
    # forms may refer to each other in a circle
    if form.objgen in done:
        return
    done.add(form.objgen)
    # what no reader draws could carry a place, a name or another document out of the shop
    for key in _BESIDE_DRAWING:
        if key in form:
            del form[key]
    resources = form.get("/Resources", {})
    for kind in ("/XObject", "/Pattern"):
        for inner in dict(resources.get(kind, {})).values():
            if isinstance(inner, pikepdf.Stream):
                _keep_drawing_alone(inner, done)


def _put(page: pikepdf.Page, form: pikepdf.Object, name: str, slot: FreeSlot) -> None:
    page.add_resource(form, Name.XObject, Name(name))
    frame = pikepdf.Rectangle(slot.x, slot.y, slot.x + slot.width, slot.y + slot.height)
    # expanded too: a till receipt of eight centimetres must be read on a whole page
    placed = page.calc_form_xobject_placement(form, Name(name), frame, allow_shrink=True, allow_expand=True)
    # Whatever the page left set (a turned or scaled pen) must not move the paper.
    page.contents_add(b"q\n", prepend=True)
    page.contents_add(b"\nQ\n/Figure <</MCID %d>> BDC\n" % slot.number + placed + b"\nEMC")
    page.contents_coalesce()


def _quieten(pdf: pikepdf.Pdf) -> None:
    """Take out whatever acts by itself when the packet is opened."""
    holders: list[Any] = [pdf.Root, pdf.Root.get("/Names", {}), *(page.obj for page in pdf.pages)]
    for holder in holders:
        for key in _ACTS_ALONE:
            if key in holder:
                del holder[key]


def _entitle(pdf: pikepdf.Pdf, titles: PacketTitles) -> None:
    """Say in the document's properties what it is."""
    # the drawing library writes properties of its own, with the time
    for key in list(pdf.docinfo.keys()):
        del pdf.docinfo[key]
    told = {"Title": titles.title, "Author": titles.author, "Subject": titles.subject}
    for name, value in {**told, "Creator": TOOL, "Producer": TOOL, "CreationDate": stamp_of(titles.day)}.items():
        if value:
            pdf.docinfo[f"/{name}"] = value
