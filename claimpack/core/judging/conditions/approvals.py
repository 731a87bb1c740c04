"""The maker's approval before a repair: whether it is needed, waited for, refused, or too small or too old."""

from __future__ import annotations

from datetime import date

from claimpack.core.facts.cases import Approval
from claimpack.core.judging.conditions.missing_items import ClaimFacts, MissingItem
from claimpack.core.plans.component_words import component_meant
from claimpack.core.values.money import plain
from claimpack.core.values.wording.sentence import Sentence, say


def approval(facts: ClaimFacts) -> list[MissingItem]:
    """The maker's approval before a big job, for the amount claimed; its answer, where it was asked.

    Source: common practice, no source.
    """
    given = facts.claim.approval
    # told even where the plan asks for none: a maker that said no will not pay
    if given and given.is_refused:
        return [MissingItem(what=say("missing.approval-refused"), why=_refused(given))]
    if given and given.is_waited_for:
        return [MissingItem(what=say("missing.approval-answer"), why=_asked(given))]
    if given and given.is_given:
        return _approval_reaches(facts, given)
    why = needed(facts)
    return [MissingItem(what=say("missing.approval"), why=why)] if why else []


def needed(facts: ClaimFacts) -> Sentence | None:
    """Why the plan asks for an approval of this claim; None where it asks for none."""
    claim, requires, amounts = facts.claim, facts.plan.requires, facts.amounts
    among = requires.approval_components
    failed = (component_meant(word, facts.plan, among) for word in claim.components())
    component = next((word for word in failed if word), None)
    # a component that always needs approval is named before an amount, which a smaller bill would get under
    if component:
        return say("why.approval-component", component=component)
    if requires.approval_above is not None and amounts.claimed > requires.approval_above:
        limit = plain(requires.approval_above)
        return say("why.approval-above", claimed=plain(amounts.claimed), limit=limit, currency=amounts.currency)
    return None


def _refused(given: Approval) -> Sentence:
    said = given.because.rstrip(".")
    if said:
        on = {"on": given.on} if given.on else {}
        return say("why.approval-refused-because" if on else "why.approval-refused-for", because=said, **on)
    return say("why.approval-refused-on", on=given.on) if given.on else say("why.approval-refused")


def _asked(given: Approval) -> Sentence:
    return say("why.approval-asked-on", asked=given.asked) if given.asked else say("why.approval-asked")


def _approval_reaches(facts: ClaimFacts, given: Approval) -> list[MissingItem]:
    amounts, repaired = facts.amounts, facts.claim.dates.repaired
    lacking = []
    # the number holds for what was approved; the maker pays no more under it, whatever was done
    if given.up_to is not None and given.falls_short_of(amounts.claimed):
        why = say(
            "why.approval-amount",
            claimed=plain(amounts.claimed),
            limit=plain(given.up_to),
            number=given.number,
            currency=amounts.currency,
        )
        lacking.append(MissingItem(what=say("missing.approval-amount"), why=why))
    if given.on and repaired and given.came_after(repaired):
        lacking.append(_not_that_day(facts, say("why.approval-late", on=given.on, repaired=repaired)))
    # before the repair the day that counts is today: it cannot be made in time any more
    if given.expires and given.had_run_out(repaired or facts.today):
        lacking.append(_approval_ran_out(facts, given.expires, repaired))
    return lacking


def _approval_ran_out(facts: ClaimFacts, expired: date, repaired: date | None) -> MissingItem:
    if repaired is None:
        return MissingItem(what=say("missing.approval-again"), why=say("why.approval-ran-out", expires=expired))
    return _not_that_day(facts, say("why.approval-outrun", expires=expired, repaired=repaired))


def _not_that_day(facts: ClaimFacts, why: Sentence) -> MissingItem:
    """A repair on a day the approval does not reach; it blocks filing where the plan asks for an approval."""
    # where no plan asks for it, an approval of the wrong day is odd and not a condition
    if needed(facts):
        return MissingItem(what=say("missing.approval-day"), why=why)
    return MissingItem(what=say("missing.approval-date"), why=why, blocks_filing=False)
