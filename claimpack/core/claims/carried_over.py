"""What one claim has in common with the next about the same visit: a claim with another maker, or of a unit alike."""

from __future__ import annotations

from claimpack.core.claims.claim import Claim


def carried_over(claim: Claim) -> Claim:
    """A claim with the owner, unit, papers and dates of another, and nothing else of it.

    Source: common practice, no source.
    """
    common = {"maker", "unit", "owner", "dates", "proof", "papers", *(["case"] if claim.is_stock else [])}
    kept = claim.model_dump(include=common, exclude_unset=True)
    return Claim.model_validate({"number": "0", **kept})
