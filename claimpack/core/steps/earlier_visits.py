"""A unit that was here before: what to warn of, and which earlier repairs to carry over."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from decimal import Decimal
from typing import Literal

from claimpack.core.claims.claim import Claim
from claimpack.core.events.standing import Standing
from claimpack.core.events.states import OPEN
from claimpack.core.facts.cases import EarlierRepair
from claimpack.core.facts.record import Record
from claimpack.core.facts.unit import Serial
from claimpack.core.judging.claim_summary import ClaimSummary, maker_shown, maker_words
from claimpack.core.plans.plan import Plan
from claimpack.core.pricing.pricing import Amounts
from claimpack.core.values.money import ZERO, Number
from claimpack.core.values.words import folded, run_on

RepeatKind = Literal["open claim", "same component", "here before"]

_ORDER: tuple[RepeatKind, ...] = ("open claim", "same component", "here before")
_NOT_UNDER_WARRANTY = ("withdrawn", "refused")
_SETTLED = ("paid", "written off")


class Visit(Record):
    """A claim in the book about a unit with one of the same serial numbers; `maker_words` are folded.

    `paid` is what came in for it in all, in `currency`; None while it is not settled. `tax` is what of it is tax; None
    where that is not known exactly.
    """

    claim: str
    maker: str
    maker_words: tuple[str, ...]
    serials: tuple[Serial, ...]
    state: str
    verdict: str
    presented: date
    component: str
    repaired: date | None
    returned: date | None = None
    components: tuple[str, ...] = ()
    paid: Number | None = None
    tax: Number | None = None
    currency: str = ""


class Repeat(Record):
    """One warning at the counter: an earlier claim, and why it matters to this one."""

    kind: RepeatKind
    claim: str
    because: str


def visit_of(claim: Claim, standing: Standing, summary: ClaimSummary, amounts: Amounts | None = None) -> Visit:
    """What a claim of the book says about a unit's visit.

    Args:
        claim: the claim.
        standing: where it stands.
        summary: the few facts of it.
        amounts: what is claimed by it; of a claim that was paid just that, the tax is known.
    """
    return Visit(
        claim=claim.number,
        maker=maker_shown(claim, summary),
        maker_words=maker_words(claim, summary),
        serials=claim.unit.serials,
        state=standing.state,
        verdict=summary.verdict,
        presented=claim.dates.presented,
        component=claim.what_failed(),
        components=claim.components(),
        repaired=claim.dates.repaired,
        returned=claim.dates.returned,
        paid=standing.paid if standing.state in _SETTLED else None,
        # paid short, nobody knows how much of it was tax
        tax=amounts.tax if amounts and amounts.claimed == standing.paid else None,
        currency=standing.currency,
    )


def repeats(claim: Claim, visits: Sequence[Visit]) -> tuple[Repeat, ...]:
    """The warnings about a unit: open claims first, then the same component, then other visits, the latest first.

    Source: common practice, no source.
    """
    latest = sorted(visits, key=lambda visit: visit.presented, reverse=True)
    found = [_repeat(claim, visit) for visit in latest if _shared(claim, visit)]
    return tuple(sorted(found, key=lambda repeat: _ORDER.index(repeat.kind)))


def _repeat(claim: Claim, visit: Visit) -> Repeat:
    serial = _shared(claim, visit)
    other_maker = "" if _same_maker(claim, visit) else f", maker {visit.maker}"
    about = f", {visit.component}" if visit.component else ""
    if visit.state in OPEN:
        stands = f"{visit.state}, came in {visit.presented}{about}{other_maker}"
        return Repeat(
            kind="open claim", claim=visit.claim, because=f"{serial} is on an open claim: {visit.claim}, {stands}."
        )
    # one that came in for it and was not repaired has not failed again
    if visit.repaired and _same_component(claim, visit):
        done = f"{visit.component} repaired on {visit.repaired}, claim {visit.claim} ({visit.state}{other_maker})"
        return Repeat(
            kind="same component", claim=visit.claim, because=f"{serial} had the same component before: {done}."
        )
    was = f"came in {visit.presented}{about} ({visit.state}{other_maker})"
    return Repeat(
        kind="here before", claim=visit.claim, because=f"{serial} was here before: claim {visit.claim}, {was}."
    )


def _shared(claim: Claim, visit: Visit) -> str:
    """The first serial number of the claim that the visit carries as well."""
    carried = {run_on(serial.value) for serial in visit.serials}
    return next((serial.value for serial in claim.unit.serials if run_on(serial.value) in carried), "")


def _same_maker(claim: Claim, visit: Visit) -> bool:
    return folded(claim.maker) in visit.maker_words


def _same_component(claim: Claim, visit: Visit) -> bool:
    return bool(_shared_component(claim, visit))


def _shared_component(claim: Claim, visit: Visit) -> str:
    """The first component of a visit that the claim is about as well; empty where there is none."""
    failed = {folded(word) for word in claim.components() if word}
    return next((word for word in visit.components if folded(word) in failed), "")


def earlier_repairs(claim: Claim, visits: Sequence[Visit], plan: Plan | None = None) -> tuple[EarlierRepair, ...]:
    """The repairs of this unit under warranty before it was presented, the first first, those it names already kept.

    Of the component that failed; of every component while what failed is not known yet, where the plan caps what is
    paid for a unit, with what each was paid, and where time in repair lengthens cover, with the days it was in. Left
    out: claims withdrawn, refused or not covered, and units of another maker that carry the same serial number.

    Source: common practice, no source.
    """
    found = list(claim.earlier)
    for visit in sorted(visits, key=lambda visit: (visit.repaired or date.min, visit.claim)):
        repair = _repair(claim, visit, plan)
        if repair and not any(_is_same(repair, known) for known in found):
            found.append(repair)
    return tuple(found)


def _repair(claim: Claim, visit: Visit, plan: Plan | None) -> EarlierRepair | None:
    if visit.repaired is None or not visit.component or visit.repaired > claim.dates.presented:
        return None
    # what no maker paid for is no repair under warranty, and counts against no cap
    if visit.state in _NOT_UNDER_WARRANTY or visit.verdict == "not covered":
        return None
    if not _same_maker(claim, visit) or not _shared(claim, visit):
        return None
    # a cap for the unit and days in repair count whatever component it was
    capped, lengthened = plan and plan.pays.unit_cap, plan and plan.counts_time_in_repair
    if claim.component() and not _same_component(claim, visit) and not (capped or lengthened):
        return None
    paid = _without_tax(visit, plan) if plan and capped else None
    days = {"presented": visit.presented, "returned": visit.returned} if lengthened else {}
    component = _shared_component(claim, visit) or visit.components[0]
    return EarlierRepair(component=component, repaired=visit.repaired, claim=visit.claim, paid=paid, **days)


def _without_tax(visit: Visit, plan: Plan) -> Decimal | None:
    """What a visit was paid; None while it is open, or where tax may be in it that nobody can take out exactly."""
    tax = visit.tax if plan.pays.tax else ZERO
    if visit.paid is None or tax is None or visit.currency != plan.currency:
        return None
    return visit.paid - tax


def _is_same(repair: EarlierRepair, known: EarlierRepair) -> bool:
    return folded(repair.component) == folded(known.component) and repair.repaired == known.repaired
