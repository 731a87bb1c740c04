"""Audit rules about proofs of purchase: one paper that proves the purchase of several units."""

from __future__ import annotations

from collections.abc import Hashable, Iterator, Sequence
from typing import NamedTuple

from claimpack.core.audited import AuditedClaim, Irregularity, Measures, listed

_MOST_SHOWN = 10


class ProofSeen(NamedTuple):
    """A proof of purchase as one claim names it, with the serial number of the claim's unit."""

    claim: str
    path: str
    serial: str


def proofs_by_content(audited: AuditedClaim) -> Iterator[tuple[Hashable, ProofSeen]]:
    """The proof of purchase of a claim that was not withdrawn, by the hash of its content."""
    path = audited.claim.proof.file
    kept = next((file for file in audited.files if file.path == path), None)
    if path and kept and audited.standing.state != "withdrawn":
        yield kept.sha256, ProofSeen(audited.number, path, audited.unit_key)


def same_paper(seen: Sequence[ProofSeen], _measures: Measures) -> Iterator[Irregularity]:
    """One paper as the proof of purchase of different units: it may list them all, or be the wrong one.

    Source: common practice, no source.
    """
    if len({proof.serial for proof in seen}) < 2:
        return
    claims = tuple(sorted({proof.claim for proof in seen}))
    shown = sorted(f"{proof.claim}: {proof.path}" for proof in seen)
    more = f" and {len(shown) - _MOST_SHOWN} more" if len(shown) > _MOST_SHOWN else ""
    yield Irregularity(
        rule="same-paper",
        claims=claims,
        what=f"Claims {listed(claims)} prove the purchase of different units with the same paper.",
        evidence={"papers": ", ".join(shown[:_MOST_SHOWN]) + more},
        weight="look",
    )
