"""Papers put on a claim and taken off it, the proof of purchase among them."""

from __future__ import annotations

from collections.abc import Collection
from datetime import date
from pathlib import PurePosixPath

from claimpack.core.claims.claim import Claim
from claimpack.core.claims.file_names import free_name
from claimpack.core.facts.fields import ProofKind
from claimpack.core.facts.pictures import Paper, Proof
from claimpack.core.values.words import run_on


def paper_place(claim: Claim, kept: Collection[str], name: str) -> str:
    """Where a new paper goes: in the place of one of that name that is missing, else under a name that is free.

    Args:
        claim: the claim.
        kept: the files that the book keeps of it, by path.
        name: the file's own name.
    """
    missing = [file for file in claim.paper_files() if file not in kept and _name(file).casefold() == name.casefold()]
    named = (*kept, *(photo.file for photo in claim.photos), *claim.paper_files())
    return missing[0] if missing else f"papers/{free_name(name, {_name(file) for file in named})}"


def _name(file: str) -> str:
    return PurePosixPath(file).name


def with_paper(claim: Claim, file: str) -> Claim:
    """The claim with a paper among its papers, once."""
    if any(paper.file == file for paper in claim.papers):
        return claim
    return claim.model_copy(update={"papers": (*claim.papers, Paper(file=file))})


def with_paper_told(claim: Claim, file: str, kind: str, on: date | None) -> Claim:
    """The claim with what kind of paper one of its papers is, and the day it is of; what is not given stays."""
    told = {name: value for name, value in (("kind", kind), ("on", on)) if value}
    papers = tuple(paper.model_copy(update=told) if paper.file == file else paper for paper in claim.papers)
    return claim.model_copy(update={"papers": papers})


def with_proof(claim: Claim, file: str, kind: ProofKind, kept: Collection[str]) -> Claim:
    """The claim with a paper as its proof of purchase; the one before stays among the papers, unless it is missing."""
    before = claim.proof.file
    if before and before != file:
        claim = with_paper(claim, before) if before in kept else without_paper(claim, before)
    there = claim.proof if before == file else _unread(claim.proof)
    proof = there.model_copy(update={"kind": kind, "file": file})
    return with_paper(claim, file).model_copy(update={"proof": proof})


def _unread(proof: Proof) -> Proof:
    """A proof without what was read off its paper."""
    return proof.model_copy(update={"read": ()}) if proof.read else proof


def without_paper(claim: Claim, file: str) -> Claim:
    """The claim without a paper; what kind of proof there is stays said."""
    papers = tuple(paper for paper in claim.papers if paper.file != file)
    proof = _unread(claim.proof).model_copy(update={"file": None}) if claim.proof.file == file else claim.proof
    return claim.model_copy(update={"papers": papers, "proof": proof})


def same_unit(one: Claim, other: Claim) -> bool:
    """Whether two claims are one, or about one unit: the unit, or its engine, has a serial number of the other's.

    Source: common practice, no source; a receipt proves the purchase of a unit, however often it is claimed for.
    """
    mine, others = ({run_on(serial.value) for serial in claim.unit.serials} for claim in (one, other))
    return one.number == other.number or not mine.isdisjoint(others)
