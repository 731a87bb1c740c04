"""The few facts of an assessed claim that lists are drawn from."""

from __future__ import annotations

from datetime import date
from functools import lru_cache
from typing import TYPE_CHECKING

from claimpack.core.facts.record import Record
from claimpack.core.holding.hold import HoldRule, Start
from claimpack.core.plans.makers import Maker, name_of
from claimpack.core.values.money import ZERO, Number
from claimpack.core.values.words import folded

if TYPE_CHECKING:
    from claimpack.core.claims.claim import Claim
    from claimpack.core.judging.assessment import Assessment


class ClaimSummary(Record):
    """What a list of claims shows of one, without reading the whole claim again.

    `maker` and `maker_name` are the maker's word and name as plans write them, empty where no plan is of that maker;
    `elsewhere` is the other maker its plan leaves the component to; `part_first` says that the maker pays when the
    failed part is back with it; `seller_alone`, that the shop owes it all as the seller; `judged_by` is the mark of the
    plan files it was judged under, which changes with any of them.
    """

    plan: str = ""
    maker: str = ""
    maker_name: str = ""
    verdict: str = "undecided"
    complete: bool = False
    covered_until: date | None = None
    file_by: date | None = None
    currency: str = ""
    claimed: Number = ZERO
    hold_for: str = ""
    hold_of: Start = ""
    approval_wanted: bool = False
    elsewhere: str = ""
    part_first: bool = False
    seller_alone: bool = False
    judged_by: str = ""

    @property
    def hold(self) -> HoldRule:
        """How long its plan had failed parts kept."""
        return _hold(self.hold_for, self.hold_of)


# a list of thousands of claims has a handful of different holds
_hold = lru_cache(maxsize=100)(lambda length, of: HoldRule(period=length, of=of))


def maker_shown(claim: Claim, known: ClaimSummary) -> str:
    """The one name a maker goes by in lists and reports: as its plans write it, else as the claim does."""
    return name_of(claim, Maker(known.maker, known.maker_name))


def maker_words(claim: Claim, known: ClaimSummary) -> tuple[str, ...]:
    """Every word the maker of a claim may be asked for by, folded: the claim's own first, then those of the plans."""
    return _folded_once((claim.maker, known.maker, known.maker_name))


@lru_cache(maxsize=1000)
def _folded_once(said: tuple[str, ...]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(folded(word) for word in said if word))


def summary_of(assessment: Assessment, judged_by: str = "") -> ClaimSummary:
    """The facts of an assessment that lists are drawn from, with the mark of the plan files it was made by."""
    from claimpack.core.judging.deadlines import last_day_to_file

    plan, amounts, window, maker = assessment.plan, assessment.amounts, assessment.window, assessment.maker
    return ClaimSummary(
        plan=plan.id if plan else "",
        maker=maker.word,
        maker_name=maker.name,
        verdict=assessment.verdict,
        complete=assessment.complete,
        covered_until=window.ends if window else None,
        file_by=last_day_to_file(assessment.claim, plan) if plan and not assessment.seller_alone else None,
        currency=amounts.currency if amounts else "",
        claimed=amounts.claimed if amounts else ZERO,
        hold_for=assessment.hold.rule.period,
        hold_of=assessment.hold.rule.of,
        approval_wanted=assessment.approval_wanted is not None,
        elsewhere=assessment.elsewhere.maker if assessment.elsewhere else "",
        part_first=plan is not None and plan.requires.part_returned_first,
        seller_alone=assessment.seller_alone,
        judged_by=judged_by,
    )
