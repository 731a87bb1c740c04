"""What was altered in a packet since it was made, each in a sentence part."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from pathlib import Path

import pikepdf

from claimpack.errors import NotFound
from claimpack.file_contents import content_hash, hash_of
from claimpack.packet.proving.page_changes import entry_changes, page_changes
from claimpack.packet.proving.unaccounted import unaccounted
from claimpack.packet.sealing.attachments import MANIFEST
from claimpack.packet.sealing.fingerprints import Fingerprints
from claimpack.packet.sealing.manifest import (
    DOCUMENT_FACTS,
    SEAL,
    Manifest,
    PageRecord,
    catalog_prints,
    document_facts,
    original_changes,
)
from claimpack.packet.sealing.signature import Signature

_MADE_WITH = {"/Creator": "Creator", "/Producer": "Producer"}

_OWN_PROPERTIES = {SEAL, *DOCUMENT_FACTS, *_MADE_WITH}

# Every change saved without rewriting the file leaves one more of these; a linearized file begins with a zero one.
_UPDATE = re.compile(rb"startxref\s+[1-9]\d*\s+%%EOF")


def _in_bytes(count: int) -> str:
    return "1 byte was" if count == 1 else f"{count} bytes were"


def added_later(content: bytes, appended: int) -> Iterator[str]:
    """Bytes put before, behind or into the file; `appended` counts those behind its end."""
    # one end belongs to the file as it was made
    updates = len(_UPDATE.findall(content)) - 1
    if updates > 0:
        times = "once" if updates == 1 else f"{updates} times"
        yield f"the file was added to {times} after it was made"
    before = content.index(b"%PDF-")
    if before:
        yield f"{_in_bytes(before)} put before the start of the PDF"
    if appended:
        yield f"{_in_bytes(appended)} appended after the end of the PDF"


def data_changes(pdf: pikepdf.Pdf, carried: Mapping[str, bytes], manifest: Manifest | None) -> Iterator[str]:
    """Attached files that are not as the manifest has them, and the manifest itself against its seal."""
    if MANIFEST not in carried:
        yield f"{MANIFEST} was removed, so pages and pictures cannot be checked"
    elif str(pdf.docinfo.get(SEAL, "")) != hash_of(carried[MANIFEST]):
        yield f"{MANIFEST} was changed"
    if manifest is None:
        if MANIFEST in carried:
            yield f"{MANIFEST} cannot be read, so pages and pictures cannot be checked"
        return
    described = {name: str(spec.obj.get("/Desc", "")) for name, spec in pdf.attachments.items()}
    # described by readers under a name and a text, neither of which is part of a file's hash
    yield from original_changes(manifest, described)
    for name, sha256 in manifest.data.items():
        if name not in carried:
            yield f"{name} was removed"
        elif hash_of(carried[name]) != sha256:
            yield f"{name} was changed"
    for name in sorted(carried.keys() - manifest.data.keys() - {MANIFEST}):
        yield f"the attachment {name} was added"


def document_changes(pdf: pikepdf.Pdf, manifest: Manifest, content: bytes, prints: Fingerprints) -> Iterator[str]:
    """Pages, properties and whatever else stands in the file that the manifest does not account for."""
    yield from _drawing_changes(pdf, manifest, prints)
    yield from _property_changes(pdf, manifest)
    if pdf.is_encrypted:
        # Its strings and streams cannot be told apart from the bytes around them, and no packet is encrypted.
        yield "the file was encrypted after it was made"
    else:
        # Places in a PDF are counted from its first line, whatever was put before it.
        yield from unaccounted(content[content.index(b"%PDF-") :], pdf, prints)
    if pdf.get_warnings():
        yield "the file breaks the rules of PDF, so that readers may differ in what they show"


def _drawing_changes(pdf: pikepdf.Pdf, manifest: Manifest, prints: Fingerprints) -> Iterator[str]:
    # fingerprints first: what they cover is what `unaccounted` takes for accounted for
    now = [PageRecord.of(prints.page(page)) for page in pdf.pages]
    if len(now) != manifest.page_count:
        yield f"the packet has {len(now)} pages and was made with {manifest.page_count}"
    changes = list(page_changes(manifest, now))
    moved = len(now) != manifest.page_count or any("out of place" in change for change in changes)
    yield from changes
    yield from entry_changes(manifest.catalog, catalog_prints(pdf, prints), pages_moved=moved)


def _property_changes(pdf: pikepdf.Pdf, manifest: Manifest) -> Iterator[str]:
    facts = document_facts(pdf)
    for what in sorted(manifest.document.keys() | facts.keys()):
        if manifest.document.get(what) != facts.get(what):
            yield f"the document's {what} was changed"
    for key, what in _MADE_WITH.items():
        if str(pdf.docinfo.get(key, "")) != manifest.tool:
            yield f"the program named in the document's properties ({what}) was changed"
    for key in sorted(set(pdf.docinfo.keys()) - _OWN_PROPERTIES):
        yield f"the property {key[1:]} of the document was added"


def signature_changes(signature: Signature | None, manifest: Manifest | None) -> Iterator[str]:
    """A signature that was taken off, does not fit, or is another than the packet was made to bear."""
    made_for = manifest.signed_by if manifest else ""
    if signature is None:
        if made_for:
            yield "the signature was removed"
    elif signature.state == "altered":
        yield "the signature does not fit the file: the packet, or the signature, was altered after signing"
    # anybody can sign anew; the manifest says by which key it was to be
    elif signature.state == "valid" and signature.certificate != made_for:
        yield "it is signed with another key than the one it was made to be signed with"


def changed_originals(manifest: Manifest, folder: Path) -> Iterator[str]:
    """Files of the claim folder that are not those the packet was made from.

    Raises:
        NotFound: there is no such folder.
    """
    if not folder.is_dir():
        raise NotFound(f"{folder}: there is no such folder", do="Give the claim folder that holds photos and papers.")
    for original in manifest.originals:
        try:
            same = content_hash(folder / original.file) == original.sha256
        except NotFound:
            yield f"{original.file} is missing from {folder}"
            continue
        if not same:
            yield f"{original.file} in {folder} is not the file the packet was made from"
