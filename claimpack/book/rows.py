"""Between records and rows: what a list is drawn from is derived here and nowhere else."""

from __future__ import annotations

import datetime as dt
import json
from collections.abc import Iterable
from decimal import Decimal
from typing import Any, NamedTuple

from claimpack.core.claim import Claim
from claimpack.core.digest import Digest
from claimpack.core.events import Event
from claimpack.core.money import plain
from claimpack.core.states import Standing
from claimpack.core.words import folded


class KeptFile(NamedTuple):
    """A file of a claim as the vault keeps it; likeness is a perceptual hash of a picture, empty for other files."""

    path: str
    sha256: str
    bytes: int
    taken: dt.datetime | None = None
    likeness: str = ""


class ClaimRow(NamedTuple):
    """A claim as lists show it."""

    number: str
    revision: int
    state: str
    maker: str
    model: str
    component: str
    owner: str
    serial: str
    presented: dt.date
    filed: dt.date | None
    received: dt.date | None
    accepted_on: dt.date | None
    paid_on: dt.date | None
    currency: str
    claimed: Decimal
    paid: Decimal
    outstanding: Decimal
    plan: str
    terms: str
    verdict: str
    file_by: dt.date | None


LIST_COLUMNS: tuple[str, ...] = ClaimRow._fields
"""The columns a list reads, in the order of a `ClaimRow`."""


def claim_columns(claim: Claim, revision: int, standing: Standing, digest: Digest) -> dict[str, Any]:
    """The row of a claim: the document and everything derived from it."""
    claimed = standing.claimed if standing.filed else digest.claimed
    return {
        "number": claim.number,
        "revision": revision,
        "document": document_of(claim),
        "standing": standing.model_dump_json(),
        "digest": digest.model_dump_json(),
        "state": standing.state,
        "maker": claim.maker,
        "model": claim.unit.model,
        "component": claim.component(),
        "owner": claim.owner.name,
        "serial": claim.unit.serials[0].value if claim.unit.serials else "",
        "presented": claim.dates.presented.isoformat(),
        "filed": _iso(standing.filed),
        "received": _iso(standing.received),
        "accepted_on": _iso(standing.accepted_on),
        "paid_on": _iso(standing.paid_on),
        "currency": standing.currency or digest.currency,
        "claimed": plain(claimed),
        "paid": plain(standing.paid),
        "outstanding": plain(standing.outstanding),
        "plan": digest.plan,
        "terms": claim.terms,
        "verdict": digest.verdict,
        "file_by": _iso(digest.file_by) if standing.state == "draft" else None,
        "words": search_words(claim),
    }


def document_of(claim: Claim) -> str:
    """The claim as the book keeps it."""
    return claim.model_dump_json(exclude_defaults=True)


def search_words(claim: Claim) -> str:
    """Everything a person might look a claim up by, folded for comparing."""
    said = [
        claim.number,
        claim.maker,
        claim.unit.model,
        claim.unit.kind,
        *(serial.value for serial in claim.unit.serials),
        claim.owner.name,
        claim.owner.phone,
        claim.owner.email,
        claim.component(),
        claim.failure.complaint,
        *(part.number for part in claim.parts),
        *(part.name for part in claim.parts),
        *(part.shelf for part in claim.held),
    ]
    return "\n".join(folded(text) for text in said if text)


def serial_rows(claim: Claim) -> list[dict[str, Any]]:
    """A row a serial number; where a role is given twice the first counts."""
    first: dict[str, str] = {}
    for serial in claim.unit.serials:
        first.setdefault(folded(serial.role), folded(serial.value))
    component = folded(claim.component())
    return [
        {"claim": claim.number, "role": role, "serial": serial, "component": component}
        for role, serial in first.items()
    ]


def held_rows(claim: Claim, standing: Standing) -> list[dict[str, Any]]:
    """A row a held part, with where it stands."""
    return [
        {
            "claim": claim.number,
            "part_index": index,
            "part": part.part,
            "number": part.number,
            "shelf": part.shelf,
            "state": standing.part(index).state,
            "since": _iso(part.since),
            "send_by": _iso(standing.part(index).send_by),
        }
        for index, part in enumerate(claim.held, start=1)
    ]


def file_rows(number: str, files: Iterable[KeptFile]) -> list[dict[str, Any]]:
    """A row a kept file."""
    return [
        {
            "claim": number,
            "path": file.path,
            "sha256": file.sha256,
            "bytes": file.bytes,
            "taken": file.taken.isoformat() if file.taken else None,
            "likeness": file.likeness or None,
        }
        for file in files
    ]


def kept_file(row: Any) -> KeptFile:
    """A kept file from its row."""
    taken = dt.datetime.fromisoformat(row["taken"]) if row["taken"] else None
    return KeptFile(row["path"], row["sha256"], row["bytes"], taken, row["likeness"] or "")


def event_columns(event: Event, position: int) -> dict[str, Any]:
    """The row of an event; position counts from 1 through the whole book."""
    return {
        "position": position,
        "claim": event.claim,
        "revision": event.revision,
        "at": event.at.isoformat(),
        "on_day": event.on.isoformat(),
        "who": event.who,
        "what": event.what,
        "why": event.why,
        "facts": json.dumps(event.facts, sort_keys=True, ensure_ascii=False),
        "document": event.document,
        "previous": event.previous,
        "hash": event.hash,
    }


def event_of(row: Any) -> Event:
    """An event from its row, as recorded."""
    return Event(
        claim=row["claim"],
        revision=row["revision"],
        at=dt.datetime.fromisoformat(row["at"]),
        on=dt.date.fromisoformat(row["on_day"]),
        who=row["who"],
        what=row["what"],
        why=row["why"],
        facts=json.loads(row["facts"]),
        document=row["document"],
        previous=row["previous"],
        hash=row["hash"],
    )


def claim_row(row: Any) -> ClaimRow:
    """A claim as lists show it, from its row."""
    return ClaimRow(
        number=row["number"],
        revision=row["revision"],
        state=row["state"],
        maker=row["maker"],
        model=row["model"],
        component=row["component"],
        owner=row["owner"],
        serial=row["serial"],
        presented=dt.date.fromisoformat(row["presented"]),
        filed=_day(row["filed"]),
        received=_day(row["received"]),
        accepted_on=_day(row["accepted_on"]),
        paid_on=_day(row["paid_on"]),
        currency=row["currency"],
        claimed=Decimal(row["claimed"]),
        paid=Decimal(row["paid"]),
        outstanding=Decimal(row["outstanding"]),
        plan=row["plan"],
        terms=row["terms"],
        verdict=row["verdict"],
        file_by=_day(row["file_by"]),
    )


def _iso(day: dt.date | None) -> str | None:
    return day.isoformat() if day else None


def _day(text: str | None) -> dt.date | None:
    return dt.date.fromisoformat(text) if text else None
