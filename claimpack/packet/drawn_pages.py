"""The packet's pages, drawn section by section in the layout's order."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from io import BytesIO
from typing import Any, NamedTuple

from reportlab.platypus import Frame, NextPageTemplate, PageBreak, PageTemplate

from claimpack.core.judging.assessment import Assessment
from claimpack.packet.drawing.contents import contents
from claimpack.packet.drawing.draft import Draft, subject
from claimpack.packet.drawing.evidence import DrawnPages, PageEvidence
from claimpack.packet.drawing.layout import Layout, Room, Section
from claimpack.packet.drawing.running_lines import footers, running_lines
from claimpack.packet.pages.cover import cover_section
from claimpack.packet.pages.cover_facts import further_serials, shown_on_cover
from claimpack.packet.pages.dates_to_keep import dates_section, missing_section, tells_something_missing
from claimpack.packet.pages.declaration import declaration_section
from claimpack.packet.pages.file_list import files_section
from claimpack.packet.pages.findings import findings_section, story_section
from claimpack.packet.pages.held_parts import held_section
from claimpack.packet.pages.money import money_section
from claimpack.packet.pages.papers import ACROSS, UPRIGHT, papers_section
from claimpack.packet.pages.photos import photos_section
from claimpack.packet.pages.reasons import reasons_section
from claimpack.printing.kept.reading_order import ReadableCanvas
from claimpack.printing.page_saving import MeasuredPages, pages_saved, set_closer
from claimpack.printing.typeface import REGULAR, binary_streams, not_printed, register, unprintable

SECTIONS: Mapping[Section, Callable[[Draft], list[Any]]] = {
    "cover": cover_section,
    "reasons": reasons_section,
    "story": story_section,
    "findings": findings_section,
    "money": money_section,
    "photos": photos_section,
    "papers": papers_section,
    "held": held_section,
    "dates": dates_section,
    "missing": missing_section,
    "declaration": declaration_section,
    "files": files_section,
}
"""What draws each section; one that has nothing to show gives nothing."""


def draw_pages(assessment: Assessment, layout: Layout, evidence: PageEvidence) -> DrawnPages:
    """Draw every page of a packet.

    Args:
        assessment: the claim, assessed.
        layout: which sections, in which order, in which words, on which paper.
        evidence: pictures, papers, the shop, and the files to list.

    Returns:
        The same bytes for the same input, and where the pages of papers go.
    """
    return pages_saved(lambda share: _drawn(Draft(assessment, layout, evidence), share)).pages


class _Drawn(NamedTuple):
    """The pages, and how far each is filled."""

    pages: DrawnPages
    filled: list[float]


def _drawn(draft: Draft, share: float) -> _Drawn:
    """The pages with so much of the usual room between pieces."""
    stream = BytesIO()
    shown, pieces = _pieces(draft)
    set_closer(pieces, share)
    document = _document(draft, stream, shown)
    with binary_streams():
        document.build([*pieces, footers(draft, shown)], canvasmaker=ReadableCanvas)
    told = document.canv.document
    pages = DrawnPages(stream.getvalue(), tuple(draft.slots), tuple(_notes(draft)), document.page, told)
    return _Drawn(pages, document.filled)


def _document(draft: Draft, stream: BytesIO, shown: Sequence[Section]) -> Any:
    register()
    words = draft.words
    document = MeasuredPages(
        stream,
        pagesize=draft.layout.page,
        title=f"{words.document_title.format(claim=draft.claim.number)}, {draft.maker} {draft.claim.unit.model}",
        author=draft.evidence.shop.name or "claimpack",
        subject=subject(draft.assessment, draft.layout),
        creator="claimpack",
        lang=draft.layout.language,
        # without it the library writes the time and a chance identifier into the file
        invariant=1,
        pageCompression=1,
        displayDocTitle=1,
        initialFontName=REGULAR,
    )

    def at_end(canvas: Any, _document: Any) -> None:
        if canvas.getPageNumber() == 1:
            contents(canvas, draft, shown)

    def upright(canvas: Any, _document: Any) -> None:
        running_lines(canvas, draft)

    def across(canvas: Any, _document: Any) -> None:
        draft.turned.add(canvas.getPageNumber())
        running_lines(canvas, draft)

    width, height = draft.layout.page
    document.addPageTemplates(
        [
            PageTemplate(UPRIGHT, [_frame(draft.layout.body)], upright, at_end, pagesize=(width, height)),
            PageTemplate(ACROSS, [_frame(draft.layout.body_across)], across, at_end, pagesize=(height, width)),
        ]
    )
    return document


def _frame(room: Room) -> Frame:
    return Frame(*room, leftPadding=0, rightPadding=0, topPadding=0, bottomPadding=0)


def _pieces(draft: Draft) -> tuple[list[Section], list[Any]]:
    """Every section's pieces, and the sections that a cover in front lists; the cover has its pages to itself."""
    drawn: dict[Section, list[Any]] = {name: SECTIONS[name](draft) for name in draft.layout.sections}
    found: list[Any] = []
    before: Section | None = None
    for name, pieces in drawn.items():
        # a page that is turned is a new one by itself
        if pieces and before and "cover" in (before, name) and not isinstance(pieces[0], NextPageTemplate):
            found.append(PageBreak())
        found += pieces
        before = name if pieces else before
    first, *others = draft.layout.sections
    # a section that only says that nothing is missing need not be looked for
    listed = [name for name in others if drawn[name] and (name != "missing" or tells_something_missing(draft))]
    return listed if first == "cover" else [], found


def _notes(draft: Draft) -> Iterator[str]:
    """What the reader should know: characters without a typeface, pictures and claim entries without each other."""
    yield from map(not_printed, unprintable(_texts(draft)))
    listed = {photo.file for photo in draft.claim.photos}
    # both ways: a photo forgotten in the packet is as bad as one nobody asked for
    given = {picture.file for picture in draft.evidence.photos}
    yield from (f"{file} has no entry in the claim and is not drawn" for file in sorted(given - listed))
    yield from (f"{file} is listed in the claim, but there is no picture of it" for file in sorted(listed - given))
    for what, told in (("owner's address", draft.claim.owner.address), ("list of serials", further_serials(draft))):
        if shown_on_cover(told) != told:
            yield f"the {what} is longer than the cover has room for; it ends in …"


def _texts(draft: Draft) -> Iterator[str]:
    yield from _strings(draft.claim.model_dump())
    yield from _strings(draft.layout.words.model_dump())
    yield from (window.title for window in draft.assessment.windows)
    shop = draft.evidence.shop
    yield from (shop.name, shop.address, shop.phone, shop.email, shop.dealer_number, draft.maker)
    yield from (row.file for row in draft.evidence.files)
    yield from (paper.file for paper in draft.evidence.papers)


def _strings(value: Any) -> Iterator[str]:
    if isinstance(value, str):
        yield value
    elif isinstance(value, dict):
        for item in value.values():
            yield from _strings(item)
    elif isinstance(value, (list, tuple)):
        for item in value:
            yield from _strings(item)
