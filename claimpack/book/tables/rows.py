"""Between records and rows: what a list is drawn from is derived here and nowhere else."""

from __future__ import annotations

import datetime as dt
import json
from collections.abc import Iterable, Mapping, Sequence
from typing import TYPE_CHECKING, Any, NamedTuple

from claimpack.book.tables import schema
from claimpack.book.tables.columns import iso, readers, writers
from claimpack.core.steps.listed import ListedClaim, Stood, listed, stood
from claimpack.core.values.words import folded, folded_often, run_on

if TYPE_CHECKING:
    from claimpack.core.claims.claim import Claim
    from claimpack.core.events.events import Event, Link
    from claimpack.core.events.standing import Standing
    from claimpack.core.judging.claim_summary import ClaimSummary

Row = tuple[Any, ...]
"""A row, in the order of its table's columns."""


class KeptFile(NamedTuple):
    """A file of a claim as the vault keeps it; likeness is a perceptual hash of a picture, empty for other files."""

    path: str
    sha256: str
    bytes: int
    taken: dt.datetime | None = None
    likeness: str = ""


class StandingColumns(NamedTuple):
    """What follows of a row from where its claim stands alone."""

    standing: str
    stood: Stood
    reference: str
    shop: str


def standing_columns(standing: Standing) -> StandingColumns:
    """What follows of a claim's row from where it stands alone."""
    told = standing.model_dump_json(exclude_defaults=True)
    return StandingColumns(told, stood(standing), run_on(standing.reference), standing.shop)


_WRITERS = writers(ListedClaim, schema.NEVER_EMPTY)
_READERS = readers(ListedClaim, schema.NEVER_EMPTY)


def claim_values(claim: Claim, revision: int, summary: ClaimSummary, stands: StandingColumns, told: str = "") -> Row:
    """The row of a claim, derived from its document, its summary (told in JSON, if it is already) and its standing."""
    from claimpack.core.judging.claim_summary import maker_words

    row, makers = listed(claim, revision, summary, stands.stood), maker_words(claim, summary)
    values: list[Any] = list(row)
    for place, write in _WRITERS:
        if values[place] is not None:
            values[place] = write(values[place])
    return (
        *values,
        stands.standing,
        told or summary_told(summary),
        "\n".join(makers),
        search_words(claim, row.component, makers),
        stands.reference or None,
        stands.shop or None,
    )


def summary_told(summary: ClaimSummary) -> str:
    """A summary as the book keeps it."""
    return summary.model_dump_json(exclude_unset=True)


def revision_row(claim: Claim, revision: int, files: Sequence[KeptFile], told: str, salt: str) -> Row:
    """A claim as the book keeps it for ever: its document, its files, a line each, its summary, and chance."""
    # in one order always, or the same files would give another hash
    named = files if len(files) < 2 else sorted(files)
    lines = "\n".join([file_line(file_values(file)) for file in named])
    return claim.number, revision, claim.model_dump_json(exclude_unset=True), lines, told, salt


def proven_text(document: str, files: str, told: str | None, salt: str | None = None) -> str:
    """What the hash that a claim's events carry is taken over: the document, the summary, its files, and chance.

    Revisions of books made by early versions have no summary, or no salt.
    """
    # chance is part of it: without, a guess at an erased name could be checked against the hash that stays
    return "\n".join([part for part in (document, told, files, salt) if part])


def proven_of(row: Any) -> str:
    """The same, of a revision's row."""
    return proven_text(row["document"], row["files"], row["digest"], row["salt"])


def file_line(values: Sequence[Any]) -> str:
    """A file in a revision's lines: content and path, then size, time and likeness.

    Lines written by early versions end with the path.
    """
    path, sha256, size, taken, likeness = values
    return f"{sha256}  {path}\t{size}\t{taken or ''}\t{likeness or ''}"


def files_in(lines: str) -> list[tuple[str, str]]:
    """Path and content of the files in a revision's lines, in their order."""
    # two blanks, as sha256sum writes; a path may have blanks, and its hash has none
    found = (line.partition("\t")[0].partition("  ") for line in lines.split("\n") if line)
    return [(path, sha256) for sha256, _, path in found]


def search_words(claim: Claim, failed: str, makers: Sequence[str]) -> str:
    """Everything a person might look a claim up by, folded: what failed, and the words of its maker, with the rest."""
    owner, unit = claim.owner, claim.unit
    said = [claim.number, claim.maker, unit.model, unit.kind, owner.name, owner.phone, owner.email, failed]
    said += [serial.value for serial in unit.serials]
    for used in claim.parts:
        said += (used.number, used.name)
    said += [kept.shelf for kept in claim.held]
    said += [failure.complaint for failure in claim.failures]
    # the first is the claim's own word, which already exists
    said += makers[1:]
    return folded(" ".join(said))


def serial_rows(claim: Claim) -> list[Row]:
    """A row a serial number."""
    number, component = claim.number, folded_often(claim.component())
    rows = [(number, folded_often(serial.role), run_on(serial.value), component) for serial in claim.unit.serials]
    # a number written twice on a claim is one row of the key
    return rows if len(rows) < 2 else list(dict.fromkeys(rows))


def held_rows(claim: Claim, standing: Standing, summary: ClaimSummary) -> list[Row]:
    """A row a held part, with where it stands and until when the plan has it kept."""
    from claimpack.core.holding.hold import Starts

    if not claim.held:
        return []
    until = iso(summary.hold.until(Starts(standing.filed, standing.paid_on, claim.dates.repaired)))
    moved = {part.index: part for part in standing.parts}
    found, repaired = [], iso(claim.dates.repaired)
    for index, part in enumerate(claim.held, start=1):
        # a part nothing has happened to has no entry in the standing, and is held
        now = moved.get(index)
        state, send_by, missing = (now.state, iso(now.send_by), iso(now.missing)) if now else ("held", None, None)
        row = claim.number, index, part.part, part.number, part.shelf, folded_often(part.shelf), state
        found.append((*row, iso(part.since), send_by, until, missing, repaired))
    return found


def file_rows(number: str, files: Iterable[KeptFile]) -> list[Row]:
    """A row a kept file."""
    return [(number, *file_values(file)) for file in files]


def file_values(file: KeptFile) -> Row:
    """What the book writes down of a kept file: path, content, size, time and likeness."""
    return file.path, file.sha256, file.bytes, file.taken.isoformat() if file.taken else None, file.likeness or None


def kept_file(row: Any) -> KeptFile:
    """A kept file from its row."""
    taken = dt.datetime.fromisoformat(row["taken"]) if row["taken"] else None
    return KeptFile(row["path"], row["sha256"], row["bytes"], taken, row["likeness"] or "")


def facts_text(facts: Mapping[str, str]) -> str:
    """The facts of an event as a row keeps them."""
    # sorted, since the same facts must be looked up and hashed as the same text
    return json.dumps(facts, sort_keys=True, ensure_ascii=False)


def event_row(position: int, told: Mapping[str, Any], facts: str, link: Link, seal: str) -> Row:
    """The row of an event, from its fields as they were sealed; position counts from 1 through the whole book."""
    return (
        position,
        link.claim,
        link.revision,
        told["at"],
        told["on"],
        told["who"],
        told["what"],
        told["why"],
        facts,
        link.document,
        link.previous,
        seal,
        link.salt or None,
    )


def event_of(row: Any) -> Event:
    """An event from its row, as recorded: not cleaned, so that a change to it shows.

    Raises:
        ValueError: a date or the facts were overwritten by something that is none.
    """
    from claimpack.core.events.events import Event

    facts = json.loads(row["facts"])
    # checked by hand, for the model is built unchecked below
    if not isinstance(facts, dict) or not all(isinstance(fact, str) for fact in facts.values()):
        raise ValueError("the facts of an event are texts by name")
    return Event.model_construct(
        claim=row["claim"],
        revision=row["revision"],
        at=dt.datetime.fromisoformat(row["at"]),
        on=dt.date.fromisoformat(row["on_day"]),
        who=row["who"],
        what=row["what"],
        why=row["why"],
        facts=facts,
        document=row["document"],
        previous=row["previous"],
        salt=row["salt"] or "",
        hash=row["hash"],
    )


def claim_row(row: Any) -> ListedClaim:
    """A claim as lists know it, from the columns of a list."""
    values = list(row)
    for place, read in _READERS:
        values[place] = read(values[place])
    return ListedClaim(*values)
