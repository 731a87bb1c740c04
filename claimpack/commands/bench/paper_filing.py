"""`claimpack paper add`: papers put on a claim, each content once, one of them the proof of purchase if so said."""

from __future__ import annotations

import datetime as dt
import shlex
from collections.abc import Sequence
from enum import StrEnum
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Any, NamedTuple

from claimpack.commands.desk.options import BookClaim, Json, Today
from claimpack.commands.line.declared import Argument, Context, Option
from claimpack.core.values.numbers_said import how_many

if TYPE_CHECKING:
    from claimpack.commands.desk.changing import Changing
    from claimpack.commands.desk.desk import Desk
    from claimpack.commands.desk.say import Say
    from claimpack.core.claims.claim import Claim
    from claimpack.core.facts.fields import ProofKind


class IncomingPaper(NamedTuple):
    """A paper about to go on a claim, kept in the vault already: how the user calls it, where it lies, its content."""

    file: str
    path: Path
    sha256: str
    bytes: int


class FiledPapers(NamedTuple):
    """What became of papers: those added and those there already, with their files; the proof of purchase if said."""

    added: tuple[tuple[IncomingPaper, str], ...]
    there: tuple[tuple[IncomingPaper, str], ...]
    proof: str
    changed: bool


class PaperTold(NamedTuple):
    """What is said of papers: what the first proves the purchase as, what kind they all are, the day they are of."""

    proof: ProofKind | None = None
    kind: str = ""
    on: dt.date | None = None


NOTHING_TOLD = PaperTold()
"""Papers brought in without a word."""


class ProofOf(StrEnum):
    """What proves the day of purchase."""

    receipt = "receipt"
    registration = "registration"
    dealer_record = "dealer-record"


def add_papers(
    context: Context,
    claim: BookClaim,
    files: Annotated[
        list[Path], Argument(metavar="FILE…", help="PDFs, or pictures of papers; they stay where they are.")
    ],
    proof: Annotated[
        ProofOf | None,
        Option("--proof", help="The first file is the proof of purchase, and what it is."),
    ] = None,
    kind: Annotated[str, Option(help="What kind of paper they are, as in 'maintenance record'.")] = "",
    on: Annotated[str, Option(metavar="DATE", help="The day the papers are of.")] = "",
    today: Today = "",
    json: Json = False,
) -> int:
    """Add papers to a claim; the vault keeps them."""
    from claimpack.commands.bench.brought import Refusing, all_looked_at
    from claimpack.commands.desk.desk import Desk
    from claimpack.commands.desk.named_files import read_from
    from claimpack.commands.desk.one_claim import number_of
    from claimpack.commands.desk.options import a_date, as_given
    from claimpack.commands.desk.say import Say
    from claimpack.commands.screen.changes import note_verdict
    from claimpack.evidence.papers.papers import read_paper

    desk, say, number = Desk(context.obj, today), Say(context.obj), number_of(claim)
    desk.must_take_changes(number)
    given = [(str(file), read_from(desk.world, file, "paper")) for file in files]
    told = PaperTold(proof.value if proof else None, kind, a_date(on, "--on") if on else None)
    # the command told for going on must mean what this one meant
    option = as_given(proof=told.proof, kind=kind, on=on, today=today)

    def go_on(good: list[str]) -> str:
        return f"To add the others: {shlex.join(['claimpack', 'paper', 'add', number, *good, *option])}"

    with say.progress("Papers", len(given)) as advance:
        read = all_looked_at(given, read_paper, advance, Refusing("papers", go_on))
    kept = desk.keep_all([path for _, path in given])
    incoming = [IncomingPaper(*one, *content) for one, content in zip(given, kept, strict=True)]
    with desk.changing(number) as changing:
        filed = file_papers(changing, incoming, told)
    notes = [f"{paper.file}: {note}." for paper in read for note in paper.notes]
    notes += _on_other_units(desk, changing.claim, incoming)
    if json:
        say.document(_as_json(changing.claim, filed, notes))
        return 0
    _tell(say, changing.claim, filed, notes)
    if filed.changed:
        note_verdict(say, desk, changing)
    return 0


def file_papers(changing: Changing, incoming: Sequence[IncomingPaper], said: PaperTold = NOTHING_TOLD) -> FiledPapers:
    """Put papers on the claim being changed; one whose content already exists is not added twice.

    Args:
        changing: the claim being changed.
        incoming: the papers.
        said: what is said of them.
    """
    from claimpack.book.tables.rows import KeptFile
    from claimpack.core.claims.papers import paper_place, with_paper, with_paper_told, with_proof

    claim, files = changing.claim, {file.path: file for file in changing.entry.files}
    known = {file.sha256: file.path for file in changing.entry.files}
    added: list[tuple[IncomingPaper, str]] = []
    there: list[tuple[IncomingPaper, str]] = []
    for each in incoming:
        # the same content brought in twice is one file, whatever it is called
        file = known.get(each.sha256) or paper_place(claim, files, each.path.name)
        named = (*(photo.file for photo in claim.photos), *claim.paper_files())
        (there if file in files and file in named else added).append((each, file))
        files.setdefault(file, KeptFile(file, each.sha256, each.bytes))
        # of two files alike brought in at once the second already exists
        known[each.sha256] = file
        if file not in named:
            claim = with_paper(claim, file)
    first = known[incoming[0].sha256] if said.proof else ""
    if said.proof:
        claim = with_proof(claim, first, said.proof, files)
    for each in incoming:
        claim = with_paper_told(claim, known[each.sha256], said.kind, said.on)
    changed = claim != changing.claim or len(files) > len(changing.entry.files)
    if changed:
        told = ", ".join(each.path.name for each in incoming)
        changing.keep(claim, files=list(files.values()), why=f"papers: {told}"[:200])
    return FiledPapers(tuple(added), tuple(there), first, changed)


def _on_other_units(desk: Desk, claim: Claim, incoming: list[IncomingPaper]) -> list[str]:
    """What to say of papers that claims about other units have as well."""
    from claimpack.core.auditing.audited import listed
    from claimpack.core.claims.papers import same_unit

    elsewhere = desk.book.with_content({each.sha256 for each in incoming})
    numbers = {number for found in elsewhere.values() for number in found}
    # one receipt serves every claim about its unit
    others = {number for number in numbers if not same_unit(claim, desk.book.get(number).claim)}
    found = {each.file: others.intersection(elsewhere.get(each.sha256, ())) for each in incoming}
    return [
        f"{file} is also on claim{'' if len(on) == 1 else 's'} {listed(on)}. Is it the right paper?"
        for file, on in found.items()
        if on
    ]


def _tell(say: Say, claim: Claim, filed: FiledPapers, notes: list[str]) -> None:
    count, proof = len(filed.added), claim.proof.file
    say.answer(f"{claim.number}: {how_many(count, 'paper')} added")
    papers = claim.paper_files()
    said = f"proof of purchase: {claim.proof.kind}"
    say.table(
        [(str(papers.index(file) + 1), file, said if file == proof else "") for _, file in filed.added], right=(0,)
    )
    for each, file in filed.there:
        say.note(f"{each.file} is already on the claim, as {file}; it was not added again.")
    # it lay there before, and only now is said to be the proof
    if filed.proof and filed.proof not in [file for _, file in filed.added]:
        say.answer(f"  {filed.proof} is the {said}")
    for note in notes:
        say.note(note)


def _as_json(claim: Claim, filed: FiledPapers, notes: list[str]) -> dict[str, Any]:
    papers = claim.paper_files()
    return {
        "claim": claim.number,
        "added": [
            {"n": papers.index(file) + 1, "file": file, "sha256": each.sha256, "bytes": each.bytes, "from": each.file}
            for each, file in filed.added
        ],
        "there": [{"file": file, "from": each.file} for each, file in filed.there],
        "proof": claim.proof.model_dump(mode="json"),
        "notes": notes,
    }


def named_paper(claim: Claim, place: str) -> str:
    """A paper of the claim by its number, from 1, or by its file.

    Raises:
        NotFound: there is none of that number or name.
    """
    from claimpack.commands.desk.one_claim import at_place
    from claimpack.core.values.words import did_you_mean
    from claimpack.errors import NotFound

    papers = claim.paper_files()
    if place.isdecimal():
        return at_place(papers, int(place), "paper", claim)
    for file in papers:
        if place.casefold() in (file.casefold(), file.casefold().removeprefix("papers/")):
            return file
    raise NotFound(
        f"claim {claim.number} has no paper {place!r}",
        did_you_mean(place, papers),
        f"See them: claimpack paper list {claim.number}",
    )
