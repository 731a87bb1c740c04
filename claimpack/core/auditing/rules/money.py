"""Audit rules about money: more than was approved, and plans that pay less than the law's floor."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from decimal import Decimal
from typing import NamedTuple

from claimpack.core.auditing.audited import AuditedClaim, GroupKey, Irregularity, Measures, listed
from claimpack.core.auditing.rule import PRACTICE, AcrossRule, OneClaimRule
from claimpack.core.plans.plan import Plan
from claimpack.core.plans.terms import Terms, labour_floor_gap, parts_floor_gap
from claimpack.core.pricing.labour import labour_times
from claimpack.core.pricing.rates import labour_rate
from claimpack.core.values.money import ZERO, plain, rounded
from claimpack.core.values.wording.sentence import say


def over_approval(audited: AuditedClaim, _measures: Measures) -> Iterator[Irregularity]:
    """More is claimed than the maker's approval reaches to.

    Source: common practice, no source.
    """
    approval = audited.approval
    limit = approval.up_to if approval and approval.falls_short_of(audited.claimed) else None
    if approval is None or limit is None or audited.is_withdrawn:
        return
    named = f"approval {approval.number}" if approval.number else "the approval"
    claimed, approved = plain(audited.claimed), plain(limit)
    is_draft = audited.standing.state == "draft"
    said = say("over-approval.draft" if is_draft else "over-approval", claimed=claimed, approval=named, limit=approved)
    evidence = {"claimed": claimed, "approved": approved, "approval": approval.number}
    # what was not filed asks for nothing yet
    yield audited.irregular(said, evidence, "look" if is_draft else "serious")


class Short(NamedTuple):
    """By how much one claim's plan pays less than the floor of its terms, for parts and for labour."""

    claim: str
    plan: str
    currency: str
    terms: str
    cites: str
    parts: Decimal
    labour: Decimal


def shortfalls(audited: AuditedClaim) -> Iterator[tuple[GroupKey, Short]]:
    """By how much a claim is paid less than its terms ask for, by plan and terms."""
    plan, terms = audited.plan, audited.terms
    if plan is None or terms is None or not audited.asks_for_money:
        return
    # a floor in one currency says nothing about amounts in another
    if audited.claim.currency not in (None, plan.currency):
        return
    parts, labour = _short_on_parts(audited, plan, terms), _short_on_labour(audited, plan, terms)
    if parts or labour:
        said = Short(audited.number, plan.id, plan.currency, terms.id, terms.section, parts, labour)
        yield (plan.id, terms.id), said


def _short_on_parts(audited: AuditedClaim, plan: Plan, terms: Terms) -> Decimal:
    # what the maker sends costs the shop nothing, so there is nothing to add to
    bought = [part for part in audited.claim.parts if part.payer == "maker" and part.source == "stock"]
    return sum(
        (
            parts_floor_gap(
                part.quantity * part.unit_cost, plan.pays.handling_rate(part.unit_cost), terms, plan.currency
            )
            for part in bought
        ),
        ZERO,
    )


def _short_on_labour(audited: AuditedClaim, plan: Plan, terms: Terms) -> Decimal:
    claim, retail = audited.claim, audited.retail
    times = [time for time in labour_times(claim, plan) if time.entry.payer == "maker"]
    level = retail.level_with(plan)
    rates = [labour_rate(time.entry, claim, plan, level).rate for time in times]
    gaps = [labour_floor_gap(rate, retail.labour_rate, terms) for rate in rates]
    # rounded line by line as the claim itself is, so that the sum is what the lines were short by
    return sum((rounded(time.claimed * gap, plan.currency) for time, gap in zip(times, gaps, strict=True)), ZERO)


def below_floor(short: Sequence[Short], _measures: Measures) -> Iterator[Irregularity]:
    """A plan that pays less than the floor of the payment terms in force, told once for all its claims.

    Source: the section the terms cite, as S.D. Codified Laws 37-5-17 (parts), La. R.S. 51:501 (labour).
    """
    first = short[0]
    parts, labour = sum((each.parts for each in short), ZERO), sum((each.labour for each in short), ZERO)
    claims = tuple(sorted(each.claim for each in short))
    said = say(
        "below-floor",
        plan=first.plan,
        short=plain(parts + labour),
        currency=first.currency,
        cites=first.cites,
        claims=listed(claims),
    )
    short_on = {"short on parts": plain(parts), "short on labour": plain(labour)}
    yield Irregularity((said,), claims, "look", {"plan": first.plan, "terms": first.terms, **short_on})


MONEY_RULES = (
    OneClaimRule("over-approval", "More is claimed than the maker approved.", PRACTICE, over_approval),
    AcrossRule(
        "below-floor",
        "A plan pays less than the law's floor.",
        "the section the payment terms cite",
        shortfalls,
        below_floor,
    ),
)
"""The rules about money of a whole claim."""
