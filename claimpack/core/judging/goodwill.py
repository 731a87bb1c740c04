"""Goodwill: a favour asked of the maker for what is out of cover, with its reason and how far out of cover it is."""

from __future__ import annotations

from typing import NamedTuple

from claimpack.core.claims.claim import Claim
from claimpack.core.values.wording.sentence import Sentence
from claimpack.core.values.words import folded
from claimpack.core.verdict.coverage import Judgement
from claimpack.core.verdict.headline import nearest_miss

_KINDS = {"part": "parts", "labor": "labour", "extra": "extras", "freight": "extras"}


class GoodwillAsked(NamedTuple):
    """What is asked as a favour: why, in what words, the window that came nearest, and why it does not hold."""

    because: str
    asks: str
    window: str
    out_of_cover: Sentence | None


def goodwill_asked(claim: Claim, judgement: Judgement, anyway: str) -> GoodwillAsked | None:
    """The favour that a claim out of cover asks for; None where it is covered, undecided, or asks for none.

    Args:
        claim: the claim.
        judgement: its verdict.
        anyway: the reason it was filed although it is not covered; empty where it was not.

    Source: common practice, no source.
    """
    # one filed out of cover with a reason asks for a favour, whether it says so or not
    if judgement.verdict != "not covered" or not (claim.asks_goodwill or anyway):
        return None
    near, reason = nearest_miss(judgement)
    because = claim.goodwill.because or anyway
    return GoodwillAsked(because, claim.goodwill.asks, near.title, reason.says if reason else None)


def asked_alone(claim: Claim) -> Claim:
    """The claim with every line of a kind that is not asked left to the owner; all of it where no kind is named.

    Source: a rule of this tool's, no source; what a maker leaves is the owner's unless the claim says otherwise.
    """
    words = {_KINDS.get(word, word) for word in folded(claim.goodwill.asks).replace(",", " ").split()}
    asked = words & {"parts", "labour", "extras"}
    # words that name no kind are the shop's own, as "half of it": everything stays asked for
    if not asked:
        return claim
    left = {
        kind: tuple(
            line.model_copy(update={"payer": "owner"}) if line.payer == "maker" else line
            for line in getattr(claim, kind)
        )
        for kind in {"parts", "labour", "extras"} - asked
    }
    return claim.model_copy(update=left)
