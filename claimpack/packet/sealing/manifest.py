"""The manifest of a packet: every file, picture and page with its hash, and what is compared with it."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Annotated, Any, Literal

import pikepdf

from claimpack.core.facts.record import Record
from claimpack.core.values.marks import Field
from claimpack.packet.sealing.fingerprints import Fingerprints, PagePrint

SEAL = "/ManifestSHA256"

DOCUMENT_FACTS = {"/Title": "title", "/Author": "author", "/Subject": "subject", "/CreationDate": "date"}

# pages and attachments have proofs of their own; names are taken apart below
_NOT_COMPARED = {"/Type", "/Pages", "/AF", "/Names"}

Hash = Annotated[str, Field(pattern="^[0-9a-f]{64}$")]
"""SHA-256 as small hexadecimal digits."""


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
        # a packet that is not signed says nothing of signing
        unsigned = None if self.signed_by else {"signed_by"}
        return self.model_dump_json(indent=1, exclude=unsigned).encode()


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
