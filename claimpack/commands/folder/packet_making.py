"""The packet of a claim made in memory, with the maker's form in front where one goes; the caller writes it."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING, NamedTuple, cast

from claimpack.commands.folder.making import Made, the_layout

if TYPE_CHECKING:
    from claimpack.commands.desk.gather import Case
    from claimpack.commands.desk.say import Say
    from claimpack.commands.folder.form_filling import FormMade, Front
    from claimpack.evidence.papers.papers import PreparedPaper
    from claimpack.evidence.pictures.photos import PreparedPhoto
    from claimpack.packet.drawing.evidence import PageEvidence
    from claimpack.packet.drawing.layout import Layout, Reader, Section
    from claimpack.packet.fit import PrintStep
    from claimpack.packet.sealing.embedded import Enclosed
    from claimpack.packet.sealing.manifest import Original
    from claimpack.packet.sealing.signing import ShopKey


def make_packet_and_form(
    case: Case,
    say: Say,
    form: str,
    layout: str,
    limit: str,
    key: ShopKey | None,
    originals: bool | None,
    reader: str | None = None,
) -> tuple[Made, FormMade | None]:
    """The packet of a claim with the maker's form in front, and that form, where one goes in front.

    Args:
        case: the claim, assessed.
        say: for progress.
        form: the form's id or file, or that none is wanted; empty for the shop's way.
        layout: the layout's id or file; empty for the shop's.
        limit: the size it must fit, as in 5MB; empty for none.
        key: what it is signed with, if it is.
        originals: whether the files themselves are attached; None for the shop's way.
        reader: whom it is for; None for whom the layout says.
    """
    from claimpack.commands.folder.form_filling import NO_FORM, form_in_front, front_of

    # the maker's form asks the maker for money
    filled, left_out = form_in_front(case, NO_FORM if reader == "owner" else form)
    front = front_of(filled) if filled else None
    made = make_packet(case, say, layout, limit, key, originals=originals, front=front, reader=reader)
    return made._replace(notes=(*left_out, *made.notes)), filled


def make_packet(
    case: Case,
    say: Say,
    layout: str,
    limit: str,
    key: ShopKey | None = None,
    *,
    originals: bool | None = None,
    front: Front | None = None,
    reader: str | None = None,
) -> Made:
    """The packet of a claim, its photos made ready, its papers taken in page by page.

    Args:
        case: the claim, assessed.
        say: for progress.
        layout: the layout's id or file; empty for the shop's.
        limit: the size it must fit, as in 5MB; empty for none.
        key: what it is signed with, if it is.
        originals: whether the files themselves are attached where the limit allows; None for the shop's way.
        front: the maker's own form that stands before the packet's pages, if one does.
        reader: whom it is for; None for whom the layout says.

    Raises:
        ClaimpackError: a picture or paper cannot be used, or the packet cannot be made to fit.
    """
    from claimpack.packet.fit import PhotoNeed, fit, size_limit, too_large_with_originals

    most = size_limit(limit) if limit else None
    chosen = the_layout(case, layout)
    work = _PacketInMaking(case, say, chosen.written_for(cast("Reader", reader or chosen.reader)), key)
    work.front = front
    work.told += front.notes if front else ()
    is_for_owner = work.layout.reader == "owner"
    # an owner's pages carry nothing, and originals neither
    work.attach = not is_for_owner and (case.shop.settings.originals if originals is None else originals)
    if is_for_owner:
        work.told.append("the owner's pages carry no data, so they cannot be verified")
    if most is None:
        return Made(work.draw({}), tuple(work.notes))
    # originals are the first to go: the packet without them is complete
    if work.attach:
        whole = work.draw({})
        if len(whole) <= most:
            return Made(whole, tuple(work.notes))
        work.attach = False
        work.told.append(too_large_with_originals(len(whole), most))
    needs = [PhotoNeed(photo.file, photo.shot) for photo in case.claim.photos]
    fitted = fit(most, needs, work.draw)
    return Made(fitted.pdf, (*work.notes, *fitted.notes))


EVIDENCE: tuple[Section, ...] = ("story", "findings", "photos", "papers")
"""The sections of a packet that show what was found."""


def evidence_pages(case: Case, say: Say) -> bytes:
    """The pages of a claim's packet that show what was found, to go along with a letter; empty where none would."""
    claim = case.claim
    if not (claim.findings or claim.photos or claim.paper_files()):
        return b""
    layout = the_layout(case, "")
    # in the order of the shop's own layout
    shown = tuple(section for section in layout.sections if section in EVIDENCE) or EVIDENCE
    return _PacketInMaking(case, say, layout.model_copy(update={"sections": shown}), None).draw({})


class Attached(NamedTuple):
    """An original as it is attached: its name in the packet, its content and kind, whether nothing was taken out."""

    name: str
    content: bytes
    mime: str
    as_it_is: bool


class _PacketInMaking:
    """One packet being made; photos are made ready again only where their size changes."""

    def __init__(self, case: Case, say: Say, layout: Layout, key: ShopKey | None) -> None:
        from claimpack.evidence.papers.papers import read_paper

        self.case, self.say, self.layout, self.key = case, say, layout, key
        self.papers: list[PreparedPaper] = [read_paper(case.file(name), name) for name in case.claim.paper_files()]
        self.photos: dict[tuple[str, PrintStep | None], PreparedPhoto] = {}
        self.notes: list[str] = []
        self.told: list[str] = []
        self.attach = False
        self.front: Front | None = None
        self._attached: dict[str, Attached] | None = None

    def draw(self, steps: Mapping[str, PrintStep]) -> bytes:
        """The whole packet with every photo at its step; at what print needs where it has none."""
        from claimpack.packet.assemble import PacketTitles, assemble
        from claimpack.packet.drawing.draft import subject
        from claimpack.packet.drawn_pages import draw_pages

        photos = self._ready(steps)
        evidence = self._evidence(photos)
        drawn = draw_pages(self.case.assessment, self.layout, evidence)
        told = [f"{photo.file}: {note}" for photo in photos for note in photo.notes]
        told += [f"{paper.file}: {note}" for paper in self.papers for note in paper.notes]
        self.notes = [*self.told, *drawn.notes, *told]
        papers = {paper.file: paper.as_pdf() for paper in self.papers}
        if self.front:
            from claimpack.packet.front import with_front

            drawn = with_front(drawn, self.front.paper, self.front.title)
            papers[self.front.paper.file] = self.front.paper.as_pdf()
        claim = self.case.claim
        title = self.layout.words.document_title.format(claim=claim.number)
        titles = PacketTitles(
            title=f"{title}, {claim.maker} {claim.unit.model}",
            author=self.case.shop.settings.name or "claimpack",
            subject=subject(self.case.assessment, self.layout),
            language=self.layout.language,
            day=self.case.assessment.today,
        )
        return self._signed(assemble(drawn, papers, titles, self._enclosed(photos)))

    def _signed(self, packet: bytes) -> bytes:
        if self.key is None:
            return packet
        from claimpack.packet.sealing.signing import signed

        return signed(packet, self.key, self.say.world.now())

    def _ready(self, steps: Mapping[str, PrintStep]) -> list[PreparedPhoto]:
        from claimpack.evidence.pictures.photos import PrintSize, prepare_all

        # the packet is drawn several times to fit a size, and most photos keep theirs
        wanted = {photo.file: steps.get(photo.file) for photo in self.case.claim.photos}
        new = {file: step for file, step in wanted.items() if (file, step) not in self.photos}
        for step in dict.fromkeys(new.values()):
            size = PrintSize(step.long_edge, step.quality) if step else PrintSize()
            files = [(file, self.case.file(file)) for file in new if new[file] == step]
            with self.say.progress("Photos", len(files)) as advance:
                ready = prepare_all(files, size, advance)
            self.photos.update({(photo.file, step): photo for photo in ready})
        return [self.photos[file, step] for file, step in wanted.items()]

    def _evidence(self, photos: list[PreparedPhoto]) -> PageEvidence:
        from claimpack.commands.desk.gather import spellings_in
        from claimpack.packet.drawing.evidence import PacketFile, PageEvidence, ShopFacts

        settings = self.case.shop.settings
        shop = ShopFacts(
            name=settings.name,
            address=settings.address,
            phone=settings.phone,
            email=settings.email,
            dealer_number=settings.dealer_number(*spellings_in(self.case)),
        )
        files = [
            PacketFile(one.file, one.sha256, one.bytes, bool(one.attached), one.as_it_is)
            for one in self._originals(photos)
        ]
        before = len(self.front.paper.pages) if self.front else 0
        return PageEvidence(photos=photos, papers=self.papers, shop=shop, files=files, before=before)

    def _originals(self, photos: list[PreparedPhoto]) -> list[Original]:
        from claimpack.packet.sealing.manifest import Original

        shown = [
            Original(file=photo.file, sha256=photo.sha256, bytes=photo.original_bytes, role="photo") for photo in photos
        ]
        shown += [
            Original(file=paper.file, sha256=paper.sha256, bytes=paper.original_bytes, role="paper")
            for paper in self.papers
        ]
        kept = self._attachable() if self.attach else {}
        return [
            one.model_copy(update={"attached": kept[one.file].name, "as_it_is": kept[one.file].as_it_is})
            if one.file in kept
            else one
            for one in shown
        ]

    def _attachable(self) -> dict[str, Attached]:
        """The originals that may leave the shop, by file, each under the name it is attached by."""
        if self._attached is None:
            from claimpack.evidence.attachable import attachable
            from claimpack.packet.sealing.attachments import attachment_name

            printed = {paper.file: paper.pdf for paper in self.papers}
            files = dict.fromkeys((*(photo.file for photo in self.case.claim.photos), *printed))
            found = {name: attachable(self.case.file(name).read_bytes(), printed.get(name, b"")) for name in files}
            self._attached = {
                file: Attached(attachment_name(place, file), *ready)
                for place, (file, ready) in enumerate(found.items(), 1)
                if ready
            }
        return self._attached

    def _enclosed(self, photos: list[PreparedPhoto]) -> Enclosed:
        from claimpack.file_contents import hash_of
        from claimpack.packet.sealing.attachments import ORIGINAL, Attachment
        from claimpack.packet.sealing.embedded import Enclosed

        pictures = [*photos, *(paper.photo for paper in self.papers if paper.photo)]
        return Enclosed(
            assessment=self.case.assessment,
            layout=self.layout.id,
            originals=self._originals(photos),
            pictures={hash_of(picture.jpeg): picture.file for picture in pictures},
            circumstances=self.case.circumstances,
            signed_by=self.key.certificate if self.key else "",
            attached=[
                Attachment(one.name, one.content, ORIGINAL, file, one.mime) for file, one in self._attachable().items()
            ]
            if self.attach
            else (),
            is_carried=self.layout.reader != "owner",
        )
