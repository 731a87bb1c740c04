"""What is told of a claim that goes another way than a plain repair: its kind, the part sold, what the maker asked."""

from __future__ import annotations

from collections.abc import Iterator

from claimpack.core.claims.claim import Claim

_KINDS = {
    "stock": "a dealer's unit, not sold yet",
    "part": "a part sold",
    "campaign": "a campaign of the maker",
    "goodwill": "goodwill: asked as a favour",
    "declined": "the owner declined the repair",
}

_SETTLED = ("accepted", "refused", "paid", "written off", "withdrawn")


def of_the_case(claim: Claim, state: str = "draft") -> Iterator[tuple[str, tuple[str, ...]]]:
    """Labels with what they say, in the order they are read; nothing for a plain repair that nobody asked about.

    `state` is where the claim stands: no maker waits any more for an answer about one that it has settled.
    """
    left = "no answer is kept" if state in _SETTLED else "not answered yet"
    if claim.case in _KINDS:
        yield "Case", (_KINDS[claim.case], claim.campaign, claim.goodwill.asks, claim.goodwill.because)
    sold = claim.part_sold
    if claim.case == "part":
        fitted = "not fitted by the shop" if sold.never_fitted else f"fitted {sold.fitted}" if sold.fitted else ""
        on = f"sold {sold.sold}" if sold.sold else ""
        yield "Part sold", (sold.name, sold.number, sold.serial, on, fitted)
    for one in claim.questions:
        answer = f"answered {one.answered}: {one.answer}" if one.answer else left
        yield "Asked", (f"{one.asked}: {one.text}", answer)
