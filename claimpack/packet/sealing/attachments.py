"""Files inside a packet: their names, what each is to the pages, and how they are attached."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Literal

import pikepdf

CLAIM, PLAN, ASSESSMENT, MANIFEST = "claim.json", "plan.json", "assessment.json", "manifest.json"

Relationship = Literal["Source", "Data", "Alternative", "Supplement"]

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


def attachment_name(place: int, file: str) -> str:
    """The name an original is attached by: its own, counted, so that no two are the same and none is a folder."""
    return f"{ORIGINAL_NAME}{place:02}-{file.rpartition('/')[2]}"


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
        # all dated the packet's day: the real time would make the same packet another file
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
