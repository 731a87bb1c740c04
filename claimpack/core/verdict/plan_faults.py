"""Faults of a plan that change what one claim is paid, or whether it is covered: until they are mended nobody knows."""

from __future__ import annotations

from collections.abc import Iterable
from typing import NamedTuple

from claimpack.core.claims.claim import Claim
from claimpack.core.clauses.operations import Operation
from claimpack.core.plans.lint_words import is_written_otherwise
from claimpack.core.plans.plan import Plan
from claimpack.core.values.money import fits, plain
from claimpack.core.values.wording.sentence import Sentence, say
from claimpack.core.values.words import is_among, is_said, nearest


class Fault(NamedTuple):
    """One fault, and whether the verdict hangs on it; else an amount does."""

    says: Sentence
    of_verdict: bool = False


def faults(claim: Claim, plan: Plan) -> tuple[Fault, ...]:
    """The faults of a plan that this claim meets; those that touch other claims alone are left to `lint`.

    Source: a rule of this tool's, no source.
    """
    return tuple(
        fault
        for rule in (_takes_away, _spelt_otherwise, _renews_outside, _circles, _misspelt, _no_coin)
        for fault in rule(claim, plan)
    )


def _takes_away(claim: Claim, plan: Plan) -> Iterable[Fault]:
    component = claim.component()
    if not is_said(component, plan.excluded.components):
        return
    for window in plan.window:
        # named on both lists in so many words; a window for everything less the exclusions is no fault
        if is_said(component, window.covers) and not window.despite_exclusions:
            yield Fault(say("fault.takes-away", window=window.name or window.id, component=component), of_verdict=True)


def _spelt_otherwise(claim: Claim, plan: Plan) -> Iterable[Fault]:
    left_out = [word for window in plan.window for word in window.except_]
    said = is_written_otherwise(claim.component(), (*plan.excluded.components, *left_out), plan)
    if said:
        yield Fault(say("fault.spelt", said=said, component=claim.component()), of_verdict=True)


def _renews_outside(claim: Claim, plan: Plan) -> Iterable[Fault]:
    component = claim.component()
    for window in plan.window:
        for renewal in window.scheduled:
            meant = None if is_among(renewal.component, window.covers) else nearest(renewal.component, window.covers)
            # a slip in another part's renewal is no concern of this claim
            if meant and is_said(component, [meant]):
                facts = {"window": window.name or window.id, "said": renewal.component, "component": meant}
                yield Fault(say("fault.renewal", **facts), of_verdict=True)


def _circles(claim: Claim, plan: Plan) -> Iterable[Fault]:
    claimed = _claimed(claim, plan)
    for place, one in enumerate(claimed):
        for other in claimed[place + 1 :]:
            # both would be included in the other, and paid nothing
            if is_said(other.code, plan.included_in(one.code)) and is_said(one.code, plan.included_in(other.code)):
                yield Fault(say("fault.circle", operation=one.code, other=other.code))


def _misspelt(claim: Claim, plan: Plan) -> Iterable[Fault]:
    codes = [operation.code for operation in plan.operation]
    claimed = _claimed(claim, plan)
    for one in claimed:
        for included in one.includes:
            meant = None if is_said(included, codes) else nearest(included, codes)
            # it matters where both are claimed: the slip has them both paid
            if meant and meant != one.code and is_said(meant, [other.code for other in claimed]):
                yield Fault(say("fault.misspelt", operation=one.code, said=included, other=meant))


def _no_coin(claim: Claim, plan: Plan) -> Iterable[Fault]:
    cap = plan.pays.extras_cap
    if cap is not None and not fits(cap, plan.currency) and any(extra.payer == "maker" for extra in claim.extras):
        yield Fault(say("fault.no-coin", amount=plain(cap), currency=plan.currency))


def _claimed(claim: Claim, plan: Plan) -> list[Operation]:
    """The operations of the schedule that the maker is to pay, in the schedule's order."""
    of_maker = [entry.operation for entry in claim.labour if entry.payer == "maker"]
    return [operation for operation in plan.operation if is_said(operation.code, of_maker)]
