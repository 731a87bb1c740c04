"""`claimpack paper`: receipts and other papers put on a claim, listed, taken off."""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated, Any

from claimpack.commands.bench.paper_filing import add_papers
from claimpack.commands.bench.paper_read import read_papers
from claimpack.commands.desk.options import BookClaim, Json
from claimpack.commands.line.declared import Argument, Context, Family

if TYPE_CHECKING:
    from claimpack.book.tables.entries import Entry

paper_app = Family(help="Add receipts and other papers, as PDF or picture.")
"""The commands about papers."""


paper_app.command("add")(add_papers)
paper_app.command("read")(read_papers)


@paper_app.command("list")
def list_papers(context: Context, claim: BookClaim, json: Json = False) -> int:
    """List the papers of a claim, the proof of purchase first."""
    from claimpack.commands.desk.desk import Desk
    from claimpack.commands.desk.one_claim import number_of
    from claimpack.commands.desk.say import Say

    entry, say = Desk(context.obj).book.get(number_of(claim)), Say(context.obj)
    papers = [_as_json(entry, place) for place in range(1, len(entry.claim.paper_files()) + 1)]
    if json:
        say.document({"claim": claim, "papers": papers})
        return 0
    say.table([_row(each) for each in papers], right=(0,), indent=0)
    if not papers:
        say.note(f"No paper yet: claimpack paper add {claim} FILE…, with --proof receipt where it proves the purchase")
    return 0


def _as_json(entry: Entry, place: int) -> dict[str, Any]:
    file, proof = entry.claim.paper_files()[place - 1], entry.claim.proof
    kept = next((each for each in entry.files if each.path == file), None)
    paper = next((each for each in entry.claim.papers if each.file == file), None)
    return {
        "n": place,
        "file": file,
        "is_proof": file == proof.file,
        "proof": proof.kind if file == proof.file else None,
        "sha256": kept.sha256 if kept else None,
        "bytes": kept.bytes if kept else None,
        "kind": paper.kind if paper else "",
        "on": str(paper.on) if paper and paper.on else None,
    }


def _row(told: dict[str, Any]) -> tuple[str, ...]:
    proof = f"proof of purchase: {told['proof'] or 'kind not said'}" if told["is_proof"] else ""
    said = ", ".join(word for word in (proof, told["kind"], told["on"] or "") if word)
    return str(told["n"]), told["file"], said, "" if told["sha256"] else "the book keeps no such file"


@paper_app.command("remove")
def remove_paper(
    context: Context,
    claim: BookClaim,
    place: Annotated[str, Argument(metavar="N|FILE", help="Which paper, as listed.")],
    json: Json = False,
) -> int:
    """Take a paper off a claim; the vault keeps it."""
    from claimpack.commands.bench.paper_filing import named_paper
    from claimpack.commands.desk.desk import Desk
    from claimpack.commands.desk.one_claim import number_of
    from claimpack.commands.desk.say import Say
    from claimpack.core.claims.papers import without_paper

    with Desk(context.obj).changing(number_of(claim)) as changing:
        before = changing.claim
        file = named_paper(before, place)
        after = without_paper(before, file)
        photos = {photo.file for photo in after.photos}
        # a receipt that was photographed may be a picture of the claim as well
        files = [kept for kept in changing.entry.files if kept.path != file or file in photos]
        changing.keep(after, files=files, why=f"{file} taken off")
    was_proof, say = file == before.proof.file, Say(context.obj)
    if json:
        say.document({"claim": before.number, "removed": file, "was_proof": was_proof})
        return 0
    say.answer(f"{before.number}: {file} taken off")
    if was_proof:
        say.note(f"It was the proof of purchase. For another: claimpack paper add {before.number} FILE --proof receipt")
    return 0
