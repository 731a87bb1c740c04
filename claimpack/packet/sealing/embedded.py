"""What a packet carries: the claim, the plan, the assessment, and a manifest of every file, picture and page."""

from __future__ import annotations

import datetime as dt
import io
import json
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Annotated, Any, Literal

import pikepdf
from pydantic import Field

from claimpack import __version__
from claimpack.core.claims.claim import Record
from claimpack.core.judging.assessment import Assessment, Circumstances, as_json
from claimpack.files import hash_of
from claimpack.packet.sealing.fingerprints import Fingerprints, PagePrint

CLAIM, PLAN, ASSESSMENT, MANIFEST = "claim.json", "plan.json", "assessment.json", "manifest.json"
Relationship = Literal["Source", "Data", "Alternative", "Supplement"]
SEAL = "/ManifestSHA256"
MIME = "application/json"
DESCRIPTIONS = {
    CLAIM: "The claim, every key",
    PLAN: "The plan, with the windows law adds",
    ASSESSMENT: "Verdict, reasons, amounts and dates of the claim",
    MANIFEST: "Every file, picture and page with its SHA-256",
}
"""What readers show beside the name of each attachment; packets are verified against it, so it stays as it is."""

ORIGINAL: Relationship = "Source"
"""What an original that is attached is to the pages."""

ORIGINAL_NAME = "original-"
"""How the names of attached originals begin."""

RELATIONSHIPS: Mapping[str, Relationship] = {
    CLAIM: "Source",
    PLAN: "Source",
    ASSESSMENT: "Data",
    MANIFEST: "Supplement",
}
"""What each attachment is to the pages, in the words of ISO 32000-2 14.13."""

TOOL = f"claimpack {__version__}"

DOCUMENT_FACTS = {"/Title": "title", "/Author": "author", "/Subject": "subject", "/CreationDate": "date"}
_NOT_COMPARED = {"/Type", "/Pages", "/AF", "/Names"}

Hash = Annotated[str, Field(pattern="^[0-9a-f]{64}$")]
"""SHA-256 as small hexadecimal digits."""


@dataclass(frozen=True)
class Attachment:
    """A file inside the packet."""

    name: str
    content: bytes
    relationship: Relationship
    description: str
    mime: str = MIME

    @classmethod
    def of(cls, name: str, content: bytes) -> Attachment:
        """One of the files every packet carries."""
        return cls(name, content, RELATIONSHIPS[name], DESCRIPTIONS[name])


class Original(Record):
    """A file of the claim folder that the packet shows; its size and hash are of the file as it lies with the shop.

    `attached` names the attachment that holds it, empty where the file stays with the shop; `as_it_is` says that the
    attachment is the file byte for byte, and not a copy without what stands beside the picture.
    """

    file: str
    sha256: Hash
    bytes: int
    role: Literal["photo", "paper"]
    attached: str = ""
    as_it_is: bool = False


class PictureRecord(Record):
    """A JPEG inside the packet: the file it was made from, and the pages it is on, the first being 1."""

    file: str
    sha256: Hash
    pages: tuple[int, ...]


class PageRecord(Record):
    """The fingerprint of a page."""

    sha256: Hash
    drawing: Hash
    pictures: tuple[Hash, ...] = ()
    annotations: Hash
    annotation_count: int = 0

    @classmethod
    def of(cls, page: PagePrint) -> PageRecord:
        """The record of a page as it is now."""
        return cls(
            sha256=page.everything,
            drawing=page.drawing,
            pictures=page.pictures,
            annotations=page.annotations,
            annotation_count=page.annotation_count,
        )


class Manifest(Record):
    """Every file, picture and page of a packet with its hash."""

    format: Literal[1] = 1
    tool: str
    claim: str
    page_count: int
    originals: tuple[Original, ...] = ()
    pictures: tuple[PictureRecord, ...] = ()
    data: dict[str, Hash]
    pages: tuple[PageRecord, ...]
    document: dict[str, str] = {}
    catalog: dict[str, Hash] = {}
    signed_by: Hash | Literal[""] = ""

    def as_bytes(self) -> bytes:
        """The manifest as it is embedded."""
        unsigned = None if self.signed_by else {"signed_by"}
        return self.model_dump_json(indent=1, exclude=unsigned).encode()


@dataclass(frozen=True)
class Enclosed:
    """What a packet is made from, beside its drawn pages.

    Args:
        assessment: the claim as assessed, with its plan.
        layout: the id of the packet layout.
        originals: every photo and paper shown, as it lies in the claim folder.
        pictures: the claim's file for each embedded JPEG, by the SHA-256 of the embedded bytes.
        circumstances: what the assessment was told beside claim, plan and day.
        signed_by: the SHA-256 of the certificate the packet will be signed with; empty where it will not be.
        attached: the files that are attached themselves.
    """

    assessment: Assessment
    layout: str
    originals: Sequence[Original] = ()
    pictures: Mapping[str, str] = field(default_factory=dict)
    circumstances: Circumstances = field(default_factory=Circumstances)
    signed_by: str = ""
    attached: Sequence[Attachment] = ()


def attachment_name(place: int, file: str) -> str:
    """The name an original is attached by: its own, counted, so that no two are the same and none is a folder."""
    return f"{ORIGINAL_NAME}{place:02}-{file.rpartition('/')[2]}"


def data_files(enclosed: Enclosed) -> tuple[Attachment, ...]:
    """The claim, its plan if one was found, the assessment, and the originals that are attached, as files."""
    return (*_records(enclosed), *enclosed.attached)


def _records(enclosed: Enclosed) -> tuple[Attachment, ...]:
    assessment = enclosed.assessment
    claim = Attachment.of(CLAIM, _json_of(assessment.claim))
    judged = Attachment.of(ASSESSMENT, _assessment(enclosed))
    if assessment.plan is None:
        return claim, judged
    return claim, Attachment.of(PLAN, _json_of(assessment.plan)), judged


def _json_of(record: Record) -> bytes:
    return record.model_dump_json(by_alias=True, indent=1).encode()


def _assessment(enclosed: Enclosed) -> bytes:
    told = {
        "tool": TOOL,
        "layout": enclosed.layout,
        "today": enclosed.assessment.today.isoformat(),
        "circumstances": enclosed.circumstances.model_dump(mode="json"),
    }
    return json.dumps({**as_json(enclosed.assessment), **told}, ensure_ascii=False, indent=1).encode()


def manifest_of(
    pdf: pikepdf.Pdf, enclosed: Enclosed, data: Iterable[Attachment], pictures: Mapping[str, str]
) -> Manifest:
    """The manifest of a packet whose pages are final.

    Args:
        pdf: the packet, everything in place but its attachments.
        enclosed: what it is made from.
        data: the files that will be attached beside the manifest.
        pictures: the file of each embedded JPEG, by the SHA-256 of the embedded bytes.
    """
    prints = Fingerprints(pdf)
    pages = tuple(PageRecord.of(prints.page(page)) for page in pdf.pages)
    return Manifest(
        tool=TOOL,
        claim=enclosed.assessment.claim.number,
        page_count=len(pages),
        originals=tuple(sorted(enclosed.originals, key=lambda original: original.file)),
        pictures=_pictures(pages, pictures),
        data={attachment.name: hash_of(attachment.content) for attachment in data},
        pages=pages,
        document=document_facts(pdf),
        catalog=catalog_prints(pdf, prints),
        signed_by=enclosed.signed_by,
    )


def _pictures(pages: Sequence[PageRecord], files: Mapping[str, str]) -> tuple[PictureRecord, ...]:
    shown: dict[str, list[int]] = {}
    for number, page in enumerate(pages, 1):
        for picture in dict.fromkeys(page.pictures):
            shown.setdefault(picture, []).append(number)
    return tuple(
        PictureRecord(file=files.get(picture, ""), sha256=picture, pages=tuple(numbers))
        for picture, numbers in shown.items()
    )


def original_changes(manifest: Manifest, described: Mapping[str, str]) -> Iterable[str]:
    """Originals that are not attached as the manifest says: under another hash or description.

    Args:
        manifest: the packet's manifest.
        described: what readers show beside each attachment, by its name.
    """
    for original in manifest.originals:
        if original.attached in described and described[original.attached] != original.file:
            yield f"the description of {original.attached} was changed"
        carried = manifest.data.get(original.attached)
        if original.attached and carried is None:
            yield f"{original.attached} was taken off the list of what the packet carries"
        elif original.as_it_is and carried != original.sha256:
            yield f"{original.attached} is not the file {original.file}"


def document_facts(pdf: pikepdf.Pdf) -> dict[str, str]:
    """Title, author, subject and day as the document's properties tell them."""
    return {what: str(pdf.docinfo[key]) for key, what in DOCUMENT_FACTS.items() if key in pdf.docinfo}


def catalog_prints(pdf: pikepdf.Pdf, prints: Fingerprints) -> dict[str, str]:
    """The fingerprint of bookmarks, named places and the other entries of the document, by their key."""
    entries: dict[str, Any] = {key: value for key, value in pdf.Root.items() if key not in _NOT_COMPARED}
    for key, value in dict(pdf.Root.get("/Names", {})).items():
        if key != "/EmbeddedFiles":
            entries[f"/Names{key}"] = value
    return {key: prints.of(entry) for key, entry in sorted(entries.items())}


def stamp_of(day: dt.date) -> str:
    """A day as PDF writes it."""
    return f"D:{day:%Y%m%d}"


def attach(pdf: pikepdf.Pdf, attachments: Iterable[Attachment], day: dt.date) -> None:
    """Put files into the packet, each named in the document's list of associated files.

    Args:
        pdf: the packet.
        attachments: the files, in the order readers list them.
        day: the day each of them is dated.

    Source: ISO 19005-3:2012 6.8 (MIME type, AFRelationship, AF), ISO 32000-2 7.11.4 (size and checksum).
    """
    stamp = stamp_of(day)
    for attachment in attachments:
        pdf.attachments[attachment.name] = pikepdf.AttachedFileSpec(
            pdf,
            attachment.content,
            description=attachment.description,
            filename=attachment.name,
            mime_type=attachment.mime,
            creation_date=stamp,
            mod_date=stamp,
            relationship=pikepdf.Name(f"/{attachment.relationship}"),
        )


def seal(pdf: pikepdf.Pdf, manifest: Attachment) -> None:
    """Write the manifest's SHA-256 into the document's properties, so that the manifest is covered too."""
    pdf.docinfo[SEAL] = hash_of(manifest.content)


def saved(pdf: pikepdf.Pdf) -> bytes:
    """A packet as the bytes of its file; the same content gives the same bytes."""
    # Without the old identifier the new one depends on the content alone.
    if "/ID" in pdf.trailer:
        del pdf.trailer["/ID"]
    written = io.BytesIO()
    pdf.save(
        written,
        force_version="1.7",
        deterministic_id=True,
        object_stream_mode=pikepdf.ObjectStreamMode.generate,
        fix_metadata_version=False,
    )
    return written.getvalue()
