"""What one claim has in common with the next about the same visit: a claim with another maker, or of a unit alike."""

from __future__ import annotations

from claimpack.core.claims.claim import Claim


def carried_over(claim: Claim) -> Claim:
    """A claim with the owner, unit, papers and dates of another, and nothing else of it.

    Source: common practice, no source.
    """
    kept = claim.model_dump(include={"maker", "unit", "owner", "dates", "proof", "papers"}, exclude_unset=True)
    return Claim.model_validate({"number": "0", **kept})
