"""Papers put on a claim of the book: named, each content once, one of them the proof of purchase where that is said."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING, NamedTuple

if TYPE_CHECKING:
    from claimpack.commands.desk import Changing
    from claimpack.core.claim import ProofKind


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


def file_papers(changing: Changing, incoming: Sequence[IncomingPaper], proof: ProofKind | None) -> FiledPapers:
    """Put papers on the claim being changed; one whose content is there already is not added twice.

    Args:
        changing: the claim being changed.
        incoming: the papers.
        proof: what the first of them proves the purchase as, where it does.
    """
    from claimpack.book.rows import KeptFile
    from claimpack.core.papers import paper_place, with_paper, with_proof

    claim, files = changing.claim, {file.path: file for file in changing.entry.files}
    known = {file.sha256: file.path for file in changing.entry.files}
    added: list[tuple[IncomingPaper, str]] = []
    there: list[tuple[IncomingPaper, str]] = []
    for each in incoming:
        file = known.get(each.sha256) or paper_place(claim, files, each.path.name)
        named = (*(photo.file for photo in claim.photos), *claim.paper_files())
        (there if file in files and file in named else added).append((each, file))
        files.setdefault(file, KeptFile(file, each.sha256, each.bytes))
        known[each.sha256] = file
        if file not in named:
            claim = with_paper(claim, file)
    first = known[incoming[0].sha256] if proof else ""
    if proof:
        claim = with_proof(claim, first, proof, files)
    changed = claim != changing.claim or len(files) > len(changing.entry.files)
    if changed:
        told = ", ".join(each.path.name for each in incoming)
        changing.keep(claim, files=list(files.values()), why=f"papers: {told}"[:200])
    return FiledPapers(tuple(added), tuple(there), first, changed)
