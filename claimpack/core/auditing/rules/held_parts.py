"""Audit rules about held parts: none where there must be one, one not found, and parts scrapped too early."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from claimpack.core.auditing.audited import AuditedClaim, Irregularity, Measures
from claimpack.core.auditing.rule import OURS, PRACTICE, OneClaimRule
from claimpack.core.events.part_state import HeldStanding
from claimpack.core.holding.hold import Starts, hold_of
from claimpack.core.holding.release_rules import (
    NOT_INSPECTED,
    RELEASED,
    WITHDRAWN,
    Keeping,
    kept_until,
    lets_go,
    why_kept,
)
from claimpack.core.payment.payment_dates import payment_dates
from claimpack.core.values.wording.sentence import say


def held_part_missing(audited: AuditedClaim, measures: Measures) -> Iterator[Irregularity]:
    """A filed claim without the failed part the plan has kept, or whose part was not found when shelves were counted.

    A claim asks for one where the maker pays parts. Told until the hold has run out; after it the part need not be
    there.

    Source: charge-back when it cannot be produced: common practice, no source.
    """
    # nobody comes to see the part of a claim that asks for nothing
    if not audited.is_with_the_maker or not audited.asks_for_money:
        return
    for part in audited.standing.parts:
        # one that went out or was let go is not on a shelf to be counted
        if part.missing and part.state in ("held", "called back"):
            said = say("held-part-missing.counted", part=f"{audited.number}/{part.index}", day=part.missing)
            yield audited.irregular(said, {"counted": str(part.missing), "state": part.state}, "serious")
    if not audited.claim.held:
        yield from _none_held(audited, measures)


def _none_held(audited: AuditedClaim, measures: Measures) -> Iterator[Irregularity]:
    claim, plan, standing = audited.claim, audited.plan, audited.standing
    # a plan that says nothing of keeping parts asks for none
    if plan is None or plan.hold is None or not plan.requires.held_part:
        return
    rule = hold_of(plan)
    until = rule.until(Starts(standing.filed, standing.paid_on, claim.dates.repaired))
    # a hold without a day goes on
    is_over = until is not None and measures.today > until
    if not is_over and any(part.payer == "maker" for part in claim.parts):
        evidence = {"hold": rule.terms, "until": str(until or "the maker releases it")}
        yield audited.irregular(say("held-part-missing", claim=audited.number), evidence, "serious")


def scrapped_early(audited: AuditedClaim, _measures: Measures) -> Iterator[Irregularity]:
    """A held part scrapped without a rule that let it go, or by a rule that did not let it go on that day.

    Source: common practice, no source; how long a part is held is the plan's, how long it waits for inspection the
    section the terms cite.
    """
    for part in audited.standing.parts:
        if part.scrapped:
            told = {"part": f"{audited.number}/{part.index}", "day": part.scrapped}
            early = _kept_then(audited, part, part.scrapped)
            said = None
            if not part.rule:
                said = say("scrapped-early.no-rule", against="no rule that let it go is recorded", **told)
            elif early:
                said = say("scrapped-early", until=kept_until(early), against=why_kept(early), **told)
            if said:
                evidence = {"scrapped": str(part.scrapped), "rule recorded": part.rule or "none"}
                yield audited.irregular(said, evidence, "serious")


def _kept_then(audited: AuditedClaim, part: HeldStanding, on: date) -> Keeping | None:
    """How a part was to be kept on the day it was scrapped by a rule; None where it was not, or that is not known."""
    # which day it was is not known without the terms that gave it
    if part.rule == NOT_INSPECTED and not (audited.terms and audited.terms.is_known):
        return None
    then = {"filed": part.then_filed, "received": part.then_received}
    # days that were corrected afterwards do not make a step wrong that was right when it was taken
    standing = audited.standing.model_copy(update=then) if part.then_filed else audited.standing
    # The hold as it was then: a plan that was changed since does not make a part that was let go one let go too early.
    rule, repaired = audited.summary.hold, audited.claim.dates.repaired
    until = rule.until(Starts(standing.filed, part.then_paid or standing.paid_on, repaired))
    inspect_by = payment_dates(standing, audited.terms).inspect_by
    # as if it were still held, which is how it stood when the rule let it go
    kept = Keeping("held", until, inspect_by)
    # the maker's word and a withdrawal need no day; without any day known none can have been too early
    if part.rule in (RELEASED, WITHDRAWN) or (until is None and inspect_by is None):
        return None
    return None if lets_go(kept, on) else kept


def released_unheard(audited: AuditedClaim, _measures: Measures) -> Iterator[Irregularity]:
    """A part let go as released by the maker, of a claim that the maker had neither answered nor paid by then.

    Source: a rule of this tool's, no source.
    """
    standing = audited.standing
    heard = min((day for day in (standing.heard, *(paid.on for paid in standing.payments)) if day), default=None)
    for part in standing.parts:
        on = part.released
        if part.rule == RELEASED and on and standing.filed and standing.filed <= on and (heard is None or on < heard):
            said = say("released-unheard", part=f"{audited.number}/{part.index}", day=on)
            yield audited.irregular(said, {"filed": f"{standing.filed}", "let go": f"{on}"}, "look")


def not_sent_back(audited: AuditedClaim, measures: Measures) -> Iterator[Irregularity]:
    """A part that the maker called back and that was not sent by the day it named, or was let go instead.

    Source: common practice, no source; a part that cannot be produced is charged back.
    """
    for part in audited.standing.parts if audited.asks_for_money else ():
        # the maker may change its mind and let go what it called back
        if not part.called_back or part.sent or part.rule == RELEASED:
            continue
        called = {"part": f"{audited.number}/{part.index}", "called": part.called_back}
        evidence = {"called back": f"{part.called_back}", "send by": f"{part.send_by or 'not named'}"}
        # what is scrapped was let go before
        if part.released:
            said = say("not-sent-back.let-go", day=part.scrapped or part.released, **called)
            yield audited.irregular(said, evidence, "serious")
        # on the day itself it may still go out
        elif part.send_by and part.send_by < measures.today:
            yield audited.irregular(say("not-sent-back", by=part.send_by, **called), evidence, "serious")


HELD_PART_RULES = (
    OneClaimRule(
        "held-part-missing", "No failed part is held where the plan asks for one.", PRACTICE, held_part_missing
    ),
    OneClaimRule("scrapped-early", "A held part was scrapped early, or without a rule.", PRACTICE, scrapped_early),
    OneClaimRule(
        "released-unheard",
        "A held part was let go in the maker's name before the maker was heard of.",
        OURS,
        released_unheard,
    ),
    OneClaimRule(
        "not-sent-back",
        "A part that the maker called back was not sent in time, or let go.",
        PRACTICE,
        not_sent_back,
    ),
)
"""The rules about held parts."""
