"""Everything there is to say about a claim: verdict, reasons, amounts, what is missing, dates to keep."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, datetime
from decimal import Decimal
from typing import Literal, NamedTuple

from claimpack.core.claims.claim import Claim
from claimpack.core.claims.days_ahead import as_known_on
from claimpack.core.clauses.operations import Elsewhere
from claimpack.core.facts.record import Record
from claimpack.core.holding.hold import ClaimsHold, HoldRule, Starts, hold_of
from claimpack.core.holding.tags import TagFacts, tags
from claimpack.core.judging.conditions.as_read import read_otherwise
from claimpack.core.judging.conditions.conditions import missing
from claimpack.core.judging.conditions.missing_items import ClaimFacts, MissingItem, files_lacking
from claimpack.core.judging.deadlines import Deadline, Late, deadlines, hold_until, late
from claimpack.core.judging.goodwill import GoodwillAsked, goodwill_asked
from claimpack.core.judging.priced_as_judged import priced_as_judged
from claimpack.core.plans.campaign import with_id
from claimpack.core.plans.makers import Maker, maker_of, name_of
from claimpack.core.plans.plan import Plan
from claimpack.core.pricing.pricing import Amounts, Price
from claimpack.core.pricing.retail import NO_RETAIL, Retail
from claimpack.core.values.money import ZERO, Number, in_money
from claimpack.core.values.wording.sentence import Sentence, say
from claimpack.core.values.words import Text
from claimpack.core.verdict.coverage import Judgement, Verdict, hours_left, limits_left
from claimpack.core.verdict.failures import (
    JudgedFailure,
    head_of,
    headline_of,
    judged_failures,
    owed_by_the_seller_alone,
)
from claimpack.core.verdict.matching import match, may_fall_under
from claimpack.core.windows.judged import WindowJudgement, facts_that_decide
from claimpack.core.windows.limits.meters import LimitLeft
from claimpack.core.windows.reasons import Reason


def sent_again(amounts: Amounts, paid_before: Decimal | None) -> Sentence | None:
    """That a claim is sent again, so that nobody takes its whole amount for what is asked for.

    Args:
        amounts: what it claims in all.
        paid_before: what was paid for it before; None where it is sent for the first time.

    Source: common practice, no source.
    """
    if paid_before is None:
        return None
    if not paid_before:
        return say("again.unpaid")
    asked = max(amounts.claimed - paid_before, ZERO)
    return say("again.paid", paid=in_money(paid_before, amounts.currency), asked=in_money(asked, amounts.currency))


YES, NO, NOT_YET = 0, 3, 4


class Circumstances(Record):
    """What an assessment goes by beside claim, plan and day.

    Args:
        taken: when each picture was taken, by file, as its camera wrote it; None where it did not.
        filed: the day the claim was filed, when it was.
        paid: the day it was paid, when it was.
        hold: how long the book has failed parts kept; None for a claim that is in no book, then its plan says.
        first_filed: the day it was filed for the first time.
        anyway: the reason it was filed although something spoke against it; empty where there was none.
        retail: what the shop charges owners.
        not_kept: the files that a claim of the book names and the book does not keep.
        paid_before: what was paid for a claim that is sent again; None where it is sent for the first time.
    """

    taken: dict[str, datetime | None] = {}
    filed: date | None = None
    paid: date | None = None
    hold: HoldRule | None = None
    first_filed: date | None = None
    anyway: Text = ""
    retail: Retail = NO_RETAIL
    not_kept: tuple[str, ...] = ()
    paid_before: Number | None = None

    def hold_of(self, claim: Claim, plan: Plan | None) -> ClaimsHold:
        """How long failed parts are kept: as the book goes by, else as the plan found says."""
        rule = hold_of(plan) if self.hold is None else self.hold
        return ClaimsHold(rule, Starts(self.filed, self.paid, claim.dates.repaired))


ORDINARY = Circumstances()
"""A claim not yet filed, without pictures, at a shop that charges what the plan pays."""


class Assessment(NamedTuple):
    """A claim assessed; everything the renderers draw, decided.

    Where a claim is about several failures, they stand in `failures`, and window, days, windows and reasons are those
    of the one whose verdict is that of the claim. `share` goes beside the headline: what the maker pays of it on the
    day judged, where that is not all; of several failures each says its own.
    """

    claim: Claim
    plan: Plan | None
    today: date
    verdict: Verdict
    headline: Sentence
    window: WindowJudgement | None
    starts: date | None
    judged_on: date | None
    days_left: int | None
    hours_left: Decimal | None
    windows: tuple[WindowJudgement, ...]
    reasons: tuple[Reason, ...]
    missing: tuple[MissingItem, ...]
    price: Price | None
    deadlines: tuple[Deadline, ...]
    tags: tuple[TagFacts, ...]
    maker: Maker = Maker()
    hold: ClaimsHold = ClaimsHold()
    sent_again: Sentence | None = None
    late: Late | None = None
    goodwill: GoodwillAsked | None = None
    anyway: str = ""
    limits_left: tuple[LimitLeft, ...] = ()
    elsewhere: Elsewhere | None = None
    failures: tuple[JudgedFailure, ...] = ()
    share: Sentence | None = None
    seller_alone: bool = False
    """Whether the shop owes all of it as the seller, so that nothing is asked of the maker."""

    @property
    def need_not_be_filed(self) -> bool:
        """Whether there is nothing to ask the maker for: it is not covered and no favour, or the seller's alone."""
        return self.seller_alone or (self.verdict == "not covered" and self.goodwill is None)

    @property
    def maker_name(self) -> str:
        """The one name the maker goes by."""
        return name_of(self.claim, self.maker)

    @property
    def amounts(self) -> Amounts | None:
        """The totals, None where no plan was found to price with."""
        return self.price.amounts if self.price else None

    @property
    def owner_pays_if(self) -> Literal["", "covered", "granted", "repaired", "used"]:
        """What must come true before the owner pays what is told: cover, the maker's favour, the repair, its parts.

        Of a repair that was declined nobody said whether the parts that are listed were used.
        """
        if self.verdict == "undecided":
            return "covered"
        if self.goodwill:
            return "granted"
        if self.claim.case == "declined":
            return "used" if self.parts_of_the_owner else ""
        is_a_repair = self.claim.case not in ("part", "stock")
        return "repaired" if is_a_repair and self.claim.dates.repaired is None else ""

    @property
    def parts_of_the_owner(self) -> tuple[str, ...]:
        """The parts that the owner pays for, by name."""
        lines = self.price.lines if self.price else ()
        return tuple(line.what for line in lines if line.kind == "part" and line.payer == "owner" and line.amount)

    @property
    def complete(self) -> bool:
        """Whether the verdict is given and nothing that blocks filing is missing."""
        return self.verdict != "undecided" and not any(item.blocks_filing for item in self.missing)

    @property
    def approval_wanted(self) -> MissingItem | None:
        """The maker's approval where it is lacking: the first thing to get, unless it is not covered anyway."""
        refused = self.verdict == "not covered"
        return None if refused else next((item for item in self.missing if item.is_approval), None)

    @property
    def exit_code(self) -> int:
        """0 covered and complete, 3 not covered, 4 undecided or incomplete."""
        if self.verdict == "not covered":
            return NO
        return YES if self.verdict == "covered" and self.complete else NOT_YET

    @property
    def asks(self) -> tuple[str, ...]:
        """The facts, as keys of the claim, that would decide an undecided verdict; each once, nearest first."""
        if self.verdict != "undecided":
            return ()
        return facts_that_decide(self.windows, [reason for reason in self.reasons if not reason.window])


def assess(
    claim: Claim,
    plans: Sequence[Plan],
    today: date,
    circumstances: Circumstances = ORDINARY,
) -> Assessment:
    """Judge a claim, price it, and say what it lacks and which dates to keep.

    Args:
        claim: the claim.
        plans: the plans to choose from, statutory windows already taken in.
        today: the day it is.
        circumstances: what the claim itself does not say.

    Raises:
        BadInput: amounts in another currency than the plan's.
    """
    # days still to come decide nothing; what is told and asked for goes by the claim as it was written
    said, claim = claim, as_known_on(claim, today)
    found = match(claim, plans)
    if found.plan is None:
        # the same plans as those whose forms a reading of its plate goes by
        otherwise = read_otherwise(claim, may_fall_under(claim, plans))
        return _without_plan(said, found.reason, today, circumstances, maker_of(claim, None, plans), otherwise)
    plan, maker = _with_its_campaign(found.plan, claim), maker_of(claim, found.plan)
    hold = circumstances.hold_of(claim, plan)
    failures = judged_failures(claim, plan)
    head = head_of(failures)
    judgement = head.judgement
    goodwill = goodwill_asked(claim, judgement, circumstances.anyway)
    priced = priced_as_judged(claim, plan, circumstances.retail, failures, goodwill)
    sellers = not priced.amounts.claimed and owed_by_the_seller_alone(plan, failures)
    # what is not to be filed has no day to be filed by
    filing_plan = plan.model_copy(update={"filing": None}) if sellers else plan
    return Assessment(
        claim=said,
        plan=plan,
        today=today,
        verdict=judgement.verdict,
        headline=headline_of(failures),
        window=judgement.window,
        starts=judgement.starts,
        judged_on=judgement.event,
        days_left=judgement.days_left,
        hours_left=hours_left(claim, judgement),
        windows=judgement.windows,
        reasons=_every_reason(found.reason, judgement),
        missing=missing(_facts(said, plan, priced.amounts, today, circumstances), failures),
        price=priced,
        deadlines=deadlines(claim, filing_plan, judgement, today, hold),
        tags=tags(said, name_of(said, maker), hold),
        maker=maker,
        hold=hold,
        sent_again=sent_again(priced.amounts, circumstances.paid_before),
        late=late(claim, filing_plan, today, circumstances.first_filed or circumstances.filed),
        goodwill=goodwill,
        anyway=circumstances.anyway,
        limits_left=limits_left(claim, judgement),
        elsewhere=head.elsewhere,
        failures=failures if len(failures) > 1 else (),
        share=head.share if len(failures) == 1 else None,
        seller_alone=sellers,
    )


def _with_its_campaign(plan: Plan, claim: Claim) -> Plan:
    """The plan with the campaign that the claim is of, and none of the others: a packet carries what it goes by."""
    if not plan.campaign:
        return plan
    own = with_id(plan.campaign, claim.campaign) if claim.case == "campaign" else None
    return plan.model_copy(update={"campaign": (own,) if own else ()})


def _facts(claim: Claim, plan: Plan, amounts: Amounts, today: date, told: Circumstances) -> ClaimFacts:
    return ClaimFacts(claim, plan, amounts, today, told.taken, told.not_kept, told.retail.level_with(plan))


def _every_reason(found: Reason, judgement: Judgement) -> tuple[Reason, ...]:
    of_windows = tuple(reason for window in judgement.windows for reason in window.reasons)
    return (found, *judgement.reasons, *of_windows)


def _without_plan(
    claim: Claim,
    reason: Reason,
    today: date,
    circumstances: Circumstances,
    maker: Maker,
    otherwise: Sequence[MissingItem],
) -> Assessment:
    """The verdict while no one plan is found; a fact that would find it is named."""
    asked, hold = reason.asks != "plan", circumstances.hold_of(claim, None)
    return Assessment(
        claim=claim,
        plan=None,
        today=today,
        verdict="undecided",
        headline=say("answer.undecided", facts_word=reason.asks) if asked else say("answer.undecided-plan"),
        window=None,
        starts=None,
        judged_on=None,
        days_left=None,
        hours_left=None,
        windows=(),
        reasons=(reason,),
        missing=(*otherwise, *files_lacking(claim, circumstances.not_kept)),
        price=None,
        deadlines=tuple(hold_until(claim, hold, today)),
        tags=tags(claim, name_of(claim, maker), hold),
        maker=maker,
        hold=hold,
        anyway=circumstances.anyway,
    )
