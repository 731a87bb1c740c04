"""What a claim still lacks before it can be filed, and what the maker may ask about."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from decimal import Decimal

from claimpack.core.claims.days_ahead import days_ahead
from claimpack.core.facts.cases import Goodwill
from claimpack.core.facts.fields import CaseKind
from claimpack.core.holding.cautions import hazard_of
from claimpack.core.judging.conditions.amounts_asked import AMOUNT_RULES
from claimpack.core.judging.conditions.approvals import approval
from claimpack.core.judging.conditions.as_read import as_read
from claimpack.core.judging.conditions.evidence_asked import files, findings, papers, proof, serials, shots
from claimpack.core.judging.conditions.failures_asked import (
    component,
    defect,
    open_shares,
    presumed_of,
    still_open,
    story,
)
from claimpack.core.judging.conditions.missing_items import ClaimFacts, MissingItem, MissingItemRule
from claimpack.core.judging.conditions.second_looks import SECOND_LOOKS, owner
from claimpack.core.pricing.labour import clocked
from claimpack.core.pricing.working_time import MOST_HOURS
from claimpack.core.values.money import plain, to_step
from claimpack.core.values.wording.sentence import say
from claimpack.core.verdict.failures import JudgedFailure, closed_of, cover_years_from
from claimpack.core.verdict.plan_faults import faults
from claimpack.core.windows.judged_days import before_the_sale
from claimpack.core.windows.limits.hours import is_impossible, most_hours


def plan_faults(facts: ClaimFacts) -> list[MissingItem]:
    """A plan without the faults that this claim meets.

    Source: a rule of this tool's, no source.
    """
    what = say("missing.plan-fault", plan=facts.plan.id)
    claims = [facts.claim.of_failure(number) for number, _ in enumerate(facts.claim.failures, start=1)]
    # two failures may meet one fault of the plan, which is to be mended once
    found = {str(fault.says): fault.says for claim in claims for fault in faults(claim, facts.plan)}
    return [MissingItem(what, why=says) for says in found.values()]


def goodwill(facts: ClaimFacts) -> list[MissingItem]:
    """The reason of a favour that is asked, and that the claim is said to ask for one.

    Source: common practice, no source.
    """
    claim = facts.claim
    if claim.asks_goodwill:
        return [] if claim.goodwill.because else [MissingItem(what=say("missing.goodwill"), why=say("why.goodwill"))]
    # keys of a favour on an ordinary claim: nothing is wrong, but the case was most likely forgotten
    if claim.goodwill == Goodwill():
        return []
    return [MissingItem(what=say("missing.case"), why=say("why.case"), blocks_filing=False)]


def case_facts(facts: ClaimFacts) -> list[MissingItem]:
    """What a kind of case goes by: which part was sold and when.

    Source: common practice, no source.
    """
    sold = facts.claim.part_sold
    if facts.claim.case != "part":
        return []
    asked = [] if sold.name or sold.number else [MissingItem(say("missing.part-sold"), why=say("why.part-sold"))]
    return asked if sold.sold else [*asked, MissingItem(say("missing.part-sold-on"), why=say("why.part-sold-on"))]


def repaired(facts: ClaimFacts) -> list[MissingItem]:
    """The day of the repair; of a part sold, the day it was replaced.

    Source: common practice, no source.
    """
    if facts.claim.dates.repaired:
        return []
    key = "missing.part-replaced" if facts.claim.case == "part" else "missing.repaired"
    return [MissingItem(what=say(key), why=say("why.filing-counts"))]


def judged_on(facts: ClaimFacts) -> list[MissingItem]:
    """The day the claim is judged on, even where the verdict is the same whichever it was.

    Source: common practice, no source; the day of the repair is asked for anyway.
    """
    if facts.plan.judged_on != "failed" or facts.claim.dates.failed:
        return []
    return [MissingItem(what=say("missing.failed"), why=say("why.judged-on-it"))]


def registered(facts: ClaimFacts) -> list[MissingItem]:
    """No registration before the sale.

    Source: a rule of this tool's, no source; one of the two days is wrong, and registration may add cover.
    """
    dates = facts.claim.dates
    if not before_the_sale(dates):
        return []
    why = say("why.registered-before-sale", registered=dates.registered, purchased=dates.purchased)
    return [MissingItem(what=say("missing.registered"), why=why)]


def hours(facts: ClaimFacts) -> list[MissingItem]:
    """No hour-meter reading of more hours than there were.

    Source: a day has 24 hours.
    """
    most, read = most_hours(facts.claim), facts.claim.unit.hours_run
    if most is None or read is None or not is_impossible(facts.claim):
        return []
    return [
        MissingItem(what=say("missing.meter"), why=say("why.impossible-hours", hours=plain(read), most=plain(most)))
    ]


def held(facts: ClaimFacts) -> list[MissingItem]:
    """The failed part on the shelf, and safe to keep there.

    Source: charge-back when it cannot be produced: common practice, no source. Draining: 49 CFR 173.220(a)(1).
    """
    claim = facts.claim
    if not facts.plan.requires.held_part:
        return []
    # a repair without a new part leaves nothing behind to be kept
    if not claim.held and any(part.payer == "maker" for part in claim.parts):
        return [MissingItem(what=say("missing.held"), why=say("why.held"))]
    # fuel in a part on a shelf is a danger, and no reason to keep a claim from being filed in time
    wet = [part for part in claim.held if hazard_of(part, claim.unit) == "fuel" and not part.drained]
    why = say("why.drained")
    return [MissingItem(what=say("missing.drained", part=part.part), why=why, blocks_filing=False) for part in wet]


def labour_time(facts: ClaimFacts) -> list[MissingItem]:
    """A time for every labour entry that is claimed by the clock, no clock still running, and none of more than a day.

    Source: common practice, no source.
    """
    lacking = []
    for entry in facts.claim.labour:
        running = entry.started is not None and entry.ended is None and entry.hours is None
        worked = clocked(entry)
        by_schedule = facts.plan.scheduled_operation(entry.operation) and facts.plan.pays.claim_time != "actual"
        if running:
            why = say("why.clock", started=entry.started)
        # more than a day at a stretch is a clock that nobody stopped, and would be claimed as it stands
        elif worked is not None and worked > MOST_HOURS:
            why = say("why.longer-than-a-day", worked=plain(to_step(worked, Decimal("0.01"), "nearest")))
            lacking.append(MissingItem(what=say("missing.longer-than-a-day", operation=entry.operation), why=why))
            continue
        # an operation of the schedule is paid by its hours, whoever forgot to clock in
        elif worked is None and not by_schedule:
            why = say("why.no-time")
        else:
            continue
        lacking.append(MissingItem(what=say("missing.clock", operation=entry.operation), why=why))
    return lacking


def future(facts: ClaimFacts) -> list[MissingItem]:
    """No date that has not come yet; work and held parts may be noted later than the day a claim is filed on.

    Source: a claim is a statement of fact: common practice, no source.
    """
    lacking = []
    for day in days_ahead(facts.claim, facts.today):
        what = say("missing.future", role_word=day.role.removeprefix("dates."))
        why = say("why.future", date=day.on, today=facts.today)
        # the shop may write down tomorrow's work, while a maker reads a day of sale or of failure as a fact
        lacking.append(MissingItem(what, why, blocks_filing=not day.role.startswith(("labour.", "held."))))
    return lacking


MISSING_ITEM_RULES: tuple[MissingItemRule, ...] = (
    plan_faults,
    proof,
    files,
    serials,
    as_read,
    component,
    defect,
    goodwill,
    case_facts,
    story,
    repaired,
    judged_on,
    registered,
    hours,
    shots,
    findings,
    papers,
    approval,
    labour_time,
    *AMOUNT_RULES,
    held,
    future,
    *SECOND_LOOKS,
)
"""Every condition, in the order it is told."""


_OF_AN_OWNER = (proof, registered)


WAIVED_IN: Mapping[CaseKind, tuple[MissingItemRule, ...]] = {
    "stock": (*_OF_AN_OWNER, owner),
    "part": (serials, registered),
    "campaign": (*_OF_AN_OWNER, owner, component, defect, approval),
    "declined": (repaired, held),
}
"""What is not asked for in some kinds of case. A stock unit has no owner and no receipt; the machine that
a part was sold for need not be there; a campaign is paid whatever failed, in warranty or not;
a repair that was declined was not made."""


def missing(told: ClaimFacts, failures: Sequence[JudgedFailure] = ()) -> tuple[MissingItem, ...]:
    """Everything a claim lacks, what blocks filing first.

    Args:
        told: what the rules look at.
        failures: every failure of the claim, judged.
    """
    facts = told
    if failures:
        starts, closed = cover_years_from(facts.plan, failures), closed_of(failures)
        # nothing is asked of a failure that is not covered where another one is: its lines go to somebody else
        facts = told._replace(closed=closed, starts=starts, presumed=presumed_of(failures))
    rules = [rule for rule in MISSING_ITEM_RULES if rule not in WAIVED_IN.get(facts.claim.case, ())]
    # what keeps the verdict open comes before what the papers lack: it is the first thing to find out
    found = [*still_open(failures), *open_shares(facts.plan, failures)]
    found += (lacking for rule in rules for lacking in rule(facts))
    # the sort is stable, so that both halves keep the order of the rules
    return tuple(sorted(found, key=lambda lacking: not lacking.blocks_filing))
