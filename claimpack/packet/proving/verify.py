"""A packet held against its own data: what was altered since it was made, named one by one."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import pikepdf
from pydantic import ValidationError

from claimpack.confined import confined
from claimpack.errors import BadInput
from claimpack.file_contents import hash_of, read_bytes
from claimpack.packet.proving.attachment_changes import attachment_changes, stored_content
from claimpack.packet.proving.changes import (
    added_later,
    changed_originals,
    data_changes,
    document_changes,
    signature_changes,
)
from claimpack.packet.proving.recomputed import recomputed
from claimpack.packet.proving.structure import structure_changes
from claimpack.packet.sealing.attachments import ASSESSMENT, CLAIM, MANIFEST
from claimpack.packet.sealing.fingerprints import Fingerprints
from claimpack.packet.sealing.manifest import (
    SEAL,
    Manifest,
)
from claimpack.packet.sealing.signature import Signature, checked, take_off
from claimpack.pdf_limits import open_within_limits

LIMITS = (
    "This proves that the packet agrees with itself, not who made it: somebody who builds a whole new packet can make "
    "that agree with itself too. Compare the packet's SHA-256 with the shop's record."
)

_END = b"%%EOF"
# Every error the PDF library was seen to raise for a damaged file.
_DAMAGES = (pikepdf.PdfError, ValueError, TypeError, LookupError, AttributeError, RuntimeError)


@dataclass(frozen=True)
class Verification:
    """Whether a packet is as it was made, and if not, everything that was altered.

    Args:
        claim: the number of the claim.
        problems: what was altered, one sentence part each; empty when nothing was.
        notes: what could not be checked, and what the check cannot prove.
        sha256: the hash of the whole file, for comparing with the shop's record.
        pages: pages compared.
        pictures: embedded pictures compared.
        attachments: attached files compared.
        originals: files on disk compared.
        signature: the packet's signature, if it has one.
    """

    claim: str
    problems: tuple[str, ...]
    notes: tuple[str, ...]
    sha256: str
    pages: int
    pictures: int
    attachments: int = 0
    originals: int = 0
    signature: Signature | None = None

    @property
    def genuine(self) -> bool | None:
        """Whether nothing was altered since the packet was made; None where only its signature could tell."""
        if self.problems:
            return False
        return None if self.signature and self.signature.state == "unchecked" else True

    @property
    def not_checked(self) -> tuple[str, ...]:
        """What could not be checked, each in a sentence."""
        return tuple(note for note in self.notes if note != LIMITS)

    @property
    def files(self) -> int:
        """How many files were compared: attached, embedded as pictures, and on disk."""
        return self.attachments + self.pictures + self.originals

    def as_json(self) -> dict[str, Any]:
        """The answer as scripts read it."""
        return {
            "genuine": self.genuine,
            "claim": self.claim,
            "sha256": self.sha256,
            "problems": list(self.problems),
            "notes": list(self.notes),
            "pages": self.pages,
            "pictures": self.pictures,
            "attachments": self.attachments,
            "originals": self.originals,
            "signature": self.signature.as_json() if self.signature else None,
        }


def verify(packet: bytes | Path, originals: Path | None = None) -> Verification:
    """Hold a packet against the data and hashes it carries.

    Checked are the claim, plan and assessment inside, every page and picture, what the document does by itself, bytes
    added later, and whether the assessment follows from claim and plan. Hashes inside a file prove that it agrees
    with itself, not who made it: a forger who builds a whole new packet can make that agree too. Compare the sha256
    of the answer with the one the shop noted when the packet was made.

    Args:
        packet: the file, or its content.
        originals: the claim folder, when its photos and papers should be held against the manifest too.

    Raises:
        NotFound: there is no such file.
        BadInput: it is no PDF, is cut short or locked, or was not made by this program.
    """
    content = packet if isinstance(packet, bytes) else read_bytes(packet)
    name = "the file" if isinstance(packet, bytes) else str(packet)
    return confined(_verified, content, name, originals.absolute() if originals else None, file=name)


def _verified(content: bytes, name: str, originals: Path | None) -> Verification:
    whole, appended = _parted(content, name)
    try:
        with _opened(whole, name) as pdf:
            taken = take_off(pdf)
            signature = checked(taken, content) if taken else None
            arranged = [*structure_changes(pdf), *attachment_changes(pdf)]
            carried = _carried(pdf, name)
            again = recomputed(carried)
            manifest = _manifest(carried)
            problems = [*added_later(whole, appended), *data_changes(pdf, carried, manifest), *arranged]
            problems += again.problems
            prints = Fingerprints(pdf)
            prints.met |= taken.objects if taken else set()
            problems += document_changes(pdf, manifest, whole, prints) if manifest else ()
            problems += signature_changes(signature, manifest)
            pages = len(pdf.pages)
    except _DAMAGES as error:
        raise _damaged(name) from error
    problems += changed_originals(manifest, originals) if manifest and originals else ()
    return Verification(
        claim=again.claim or (manifest.claim if manifest else ""),
        problems=tuple(dict.fromkeys(problems)),
        notes=(*again.notes, LIMITS),
        sha256=hash_of(content),
        pages=pages,
        pictures=len(manifest.pictures) if manifest else 0,
        attachments=len(manifest.data) + 1 if manifest else 0,
        originals=len(manifest.originals) if manifest and originals else 0,
        signature=signature,
    )


def _parted(content: bytes, name: str) -> tuple[bytes, int]:
    if b"%PDF-" not in content[:1024]:
        raise BadInput(f"{name} is not a PDF", "Only a packet in PDF carries the data to check.", "Choose the packet.")
    # What stands behind the end is no part of the PDF, and readers do not show it: it is counted apart.
    before, end, behind = content.rpartition(_END)
    return before + end + b"\n", len(behind.lstrip(b"\r\n"))


def _damaged(name: str) -> BadInput:
    return BadInput(
        f"{name} is cut short or damaged",
        "A PDF that is not whole cannot be held against its data.",
        "Get the file again from where it came from.",
    )


def _opened(content: bytes, name: str) -> pikepdf.Pdf:
    try:
        return open_within_limits(content, attempt_recovery=False, inherit_page_attributes=False)
    except pikepdf.PasswordError:
        raise BadInput(
            f"{name} is locked with a password",
            "No packet is; it was locked after it was made.",
            "Ask for the packet as the shop made it.",
        ) from None
    except pikepdf.PdfError as error:
        raise _damaged(name) from error


def _carried(pdf: pikepdf.Pdf, name: str) -> dict[str, bytes]:
    """The attached files by name, where the file is a packet at all."""
    carried = {}
    for attached, spec in pdf.attachments.items():
        carried[attached] = stored_content(spec.obj.get("/EF", pikepdf.Dictionary()).get("/F"))
    if SEAL not in pdf.docinfo and not {MANIFEST, CLAIM, ASSESSMENT} <= carried.keys():
        raise BadInput(
            f"{name} cannot be verified",
            "It carries no claim and no list of hashes: it is no packet, or one made for the owner.",
            "Choose a packet made for the maker or the shop, or ask the shop for the file as it was made.",
        )
    return carried


def _manifest(carried: Mapping[str, bytes]) -> Manifest | None:
    try:
        return Manifest.model_validate_json(carried.get(MANIFEST, b""))
    except ValidationError:
        return None
