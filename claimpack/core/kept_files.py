"""The photos and papers a claim of the book names, beside those that the book keeps."""

from __future__ import annotations

from collections.abc import Collection, Iterable

from claimpack.core.claim import Claim
from claimpack.core.lacking import Missing
from claimpack.core.wording import Sentence, say


def not_kept(claim: Claim, kept: Collection[str]) -> tuple[str, ...]:
    """The files a claim names that are not among those kept, photos first, each once."""
    named = (*(photo.file for photo in claim.photos), *claim.paper_files())
    return tuple(file for file in dict.fromkeys(named) if file not in kept)


def files_lacking(claim: Claim, files: Iterable[str]) -> list[Missing]:
    """What a claim lacks because the book does not keep files that it names, each with the command that adds it.

    Source: a rule of this tool's, no source; a packet shows every picture and paper the claim names.
    """
    return [Missing(what=say("missing.file", file=file), why=_add(claim, file)) for file in files]


def _add(claim: Claim, file: str) -> Sentence:
    photos = [photo.file for photo in claim.photos]
    if file in photos:
        return say("why.photo-not-kept", claim=claim.number, place=photos.index(file) + 1)
    if file == claim.proof.file:
        kind = claim.proof.kind if claim.proof.kind not in (None, "none") else "receipt"
        return say("why.proof-not-kept", claim=claim.number, kind=kind)
    return say("why.paper-not-kept", claim=claim.number, place=claim.paper_files().index(file) + 1)
