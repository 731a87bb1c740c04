"""`claimpack paper add`: receipts and other papers put on a claim, each content once."""

from __future__ import annotations

import shlex
from enum import StrEnum
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Any

import typer

from claimpack.commands.options import BookClaim, Json

if TYPE_CHECKING:
    from claimpack.commands.desk import Desk
    from claimpack.commands.paper_filing import FiledPapers, IncomingPaper
    from claimpack.commands.say import Say
    from claimpack.core.claim import Claim


class ProofOf(StrEnum):
    """What proves the day of purchase."""

    receipt = "receipt"
    registration = "registration"
    dealer_record = "dealer-record"


def add_papers(
    context: typer.Context,
    claim: BookClaim,
    files: Annotated[
        list[Path], typer.Argument(metavar="FILE…", help="PDFs, or pictures of papers; they stay where they are.")
    ],
    proof: Annotated[
        ProofOf | None,
        typer.Option("--proof", help="The first file is the proof of purchase, and what it is.", show_default=False),
    ] = None,
    json: Json = False,
) -> int:
    """Add papers to a claim; the vault keeps them."""
    from claimpack.commands.bench import number_of
    from claimpack.commands.brought import Refusing, all_looked_at
    from claimpack.commands.changes import note_verdict
    from claimpack.commands.desk import Desk
    from claimpack.commands.paper_filing import IncomingPaper, file_papers
    from claimpack.commands.say import Say
    from claimpack.evidence.papers import read_paper

    desk, say, number = Desk(context.obj), Say(context.obj), number_of(claim)
    desk.must_take_changes(number)
    given = [(str(file), desk.world.path(file)) for file in files]
    option = ["--proof", proof.value] if proof else []

    def go_on(good: list[str]) -> str:
        return f"To add the others: {shlex.join(['claimpack', 'paper', 'add', number, *good, *option])}"

    with say.progress("Papers", len(given)) as advance:
        read = all_looked_at(given, read_paper, advance, Refusing("papers", go_on))
    incoming = [IncomingPaper(file, path, *desk.vault.keep(path)) for file, path in given]
    with desk.changing(number) as changing:
        filed = file_papers(changing, incoming, proof.value if proof else None)
    notes = [f"{paper.file}: {note}." for paper in read for note in paper.notes]
    notes += _on_other_units(desk, changing.claim, incoming)
    if json:
        say.document(_as_json(changing.claim, filed, notes))
        return 0
    _tell(say, changing.claim, filed, notes)
    if filed.changed:
        note_verdict(say, desk, changing)
    return 0


def _on_other_units(desk: Desk, claim: Claim, incoming: list[IncomingPaper]) -> list[str]:
    """What to say of papers that claims about other units have as well."""
    from claimpack.core.audited import listed
    from claimpack.core.papers import same_unit

    elsewhere = desk.book.with_content({each.sha256 for each in incoming})
    numbers = {number for found in elsewhere.values() for number in found}
    others = {number for number in numbers if not same_unit(claim, desk.book.get(number).claim)}
    found = {each.file: others.intersection(elsewhere.get(each.sha256, ())) for each in incoming}
    return [
        f"{file} is also on claim{'' if len(on) == 1 else 's'} {listed(on)}. Is it the right paper?"
        for file, on in found.items()
        if on
    ]


def _tell(say: Say, claim: Claim, filed: FiledPapers, notes: list[str]) -> None:
    count, proof = len(filed.added), claim.proof.file
    say.answer(f"{claim.number}: {count} paper{'' if count == 1 else 's'} added")
    papers = claim.paper_files()
    said = f"proof of purchase: {claim.proof.kind}"
    say.table(
        [(str(papers.index(file) + 1), file, said if file == proof else "") for _, file in filed.added], right=(0,)
    )
    for each, file in filed.there:
        say.note(f"{each.file} is on the claim already, as {file}; it was not added again.")
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
