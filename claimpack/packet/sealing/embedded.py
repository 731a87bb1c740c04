"""What a packet is made from and carries: the claim, its plan and assessment, sealed by a manifest of it all."""

from __future__ import annotations

import io
import json
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field

import pikepdf

from claimpack.core.facts.record import Record
from claimpack.core.judging.assessment import Assessment, Circumstances
from claimpack.core.judging.assessment_json import as_json
from claimpack.file_contents import hash_of
from claimpack.packet.sealing.attachments import ASSESSMENT, CLAIM, PLAN, Attachment
from claimpack.packet.sealing.fingerprints import Fingerprints
from claimpack.packet.sealing.manifest import (
    SEAL,
    Manifest,
    Original,
    PageRecord,
    PictureRecord,
    catalog_prints,
    document_facts,
)
from claimpack.version import __version__

TOOL = f"claimpack {__version__}"


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
        is_carried: whether all this goes into the packet; pages for an owner carry none of it, for it tells prices.
    """

    assessment: Assessment
    layout: str
    originals: Sequence[Original] = ()
    pictures: Mapping[str, str] = field(default_factory=dict)
    circumstances: Circumstances = field(default_factory=Circumstances)
    signed_by: str = ""
    attached: Sequence[Attachment] = ()
    is_carried: bool = True


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
    # every key, also those that say nothing: a reader without this program sees what was known
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
        # in one order whichever way the folder listed them
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


def seal(pdf: pikepdf.Pdf, manifest: Attachment) -> None:
    """Write the manifest's SHA-256 into the document's properties, so that the manifest is covered too."""
    # a property and no attachment, since the manifest cannot hold its own hash
    pdf.docinfo[SEAL] = hash_of(manifest.content)


def saved(pdf: pikepdf.Pdf) -> bytes:
    """A packet as the bytes of its file; the same content gives the same bytes."""
    # Without the old identifier the new one depends on the content alone.
    if "/ID" in pdf.trailer:
        del pdf.trailer["/ID"]
    written = io.BytesIO()
    pdf.save(
        written,
        # PDF/A-3 is a profile of 1.7, whatever version a paper was
        force_version="1.7",
        deterministic_id=True,
        # the structure for screen readers is thousands of small objects, which pack well together
        object_stream_mode=pikepdf.ObjectStreamMode.generate,
    )
    return written.getvalue()
