"""What to do next with a claim: in a list's few words, and as sentences with the commands after a step."""

from __future__ import annotations

from datetime import date
from typing import TYPE_CHECKING

from claimpack.core.events.event_kinds import command_of
from claimpack.core.events.states import PENDING
from claimpack.core.payment.payment_dates import PaymentDates, payment_dates
from claimpack.core.payment.silence import as_of
from claimpack.core.steps.listed import ListedClaim, is_favour
from claimpack.core.values.money import in_money

if TYPE_CHECKING:
    from collections.abc import Callable

    from claimpack.core.events.standing import Standing
    from claimpack.core.judging.assessment import Assessment
    from claimpack.core.judging.conditions.missing_items import MissingItem
    from claimpack.core.payment.payment_dates import DatedFrom
    from claimpack.core.plans.terms import Terms
    from claimpack.core.values.wording.sentence import Sentence


def waits_for(claim: ListedClaim, terms: Terms | None, today: date) -> str:
    """What is to happen next with a listed claim; an empty text where it is settled.

    Source: common practice, no source; the dates are those of the plan and the terms.
    """
    if claim.state == "draft":
        ran_out = claim.approval_until is not None and claim.approval_until < today
        return _draft(claim, claim.approval_wanted or ran_out, today)
    # what was accepted is paid, and so it is not pending: the rest would be forgotten otherwise
    if claim.state == "paid" and claim.refused_rest:
        return step_of_a_rest(claim, terms, today)
    if claim.state not in PENDING:
        return ""
    counts = as_of(claim, terms, today)
    return next_step(counts, payment_dates(counts, terms), today)


def is_late(claim: ListedClaim, today: date) -> bool:
    """Whether a claim waits to be filed, and its last day to file is past.

    Source: the plan's filing limit; the last day counts.
    """
    waits_to_be_filed = claim.state == "draft" and (claim.verdict == "covered" or claim.asks_goodwill)
    return waits_to_be_filed and claim.file_by is not None and today > claim.file_by


def step_of_a_rest(claim: ListedClaim, terms: Terms | None, today: date) -> str:
    """What to do about what a maker refused of a claim it accepted in part.

    Source: common practice, no source; what silence accepted, the section the terms cite.
    """
    dates, rest = payment_dates(claim, terms), in_money(claim.refused_rest, claim.currency)
    if dates.answered_late:
        return _after_a_letter(f"chase {rest}: silence accepted it on {dates.accepted_by_silence_on}", claim, today)
    step, unknown = f"{'resubmit' if is_favour(claim.verdict) else 'contest'} or write off {rest}", no_days(dates)
    return _after_a_letter(f"{step}; {unknown}" if unknown else step, claim, today)


def _draft(claim: ListedClaim, approval_wanted: bool, today: date) -> str:
    # of a declined repair nothing is repaired, so no other step of a draft fits
    if claim.case_kind == "declined":
        return "file the diagnosis: the owner declined" if claim.claimed else "close it: the owner declined"
    if claim.seller_alone:
        return "close it: the seller owes it alone"
    if claim.verdict == "undecided":
        return "find out if it is covered"
    if claim.verdict == "not covered" and not claim.asks_goodwill:
        return f"open a claim under {claim.elsewhere}" if claim.elsewhere else "tell the owner: not covered"
    # asked before any day to file by: nobody files while the maker has not said whether to repair
    waiting = _of_the_approval(claim)
    if waiting:
        return waiting
    by = f" by {claim.file_by}{' (late)' if is_late(claim, today) else ''}" if claim.file_by else ""
    if claim.asks_goodwill:
        return f"file the request for goodwill{by}"
    if by and approval_wanted:
        # only a repaired claim has a last day to file, and no maker is asked for an approval after the repair
        return f"without full approval: file{by}"
    work = "replace the part" if claim.case_kind == "part" else "repair"
    return f"file{by}" if by else f"{_FIRST if approval_wanted else ''}{work}, then file"


_FIRST = "get the maker's approval, "


def _of_the_approval(claim: ListedClaim) -> str:
    """That the maker was asked for its approval, or refused it; empty where neither holds."""
    if claim.approval_state == "asked":
        asked = f", asked on {claim.approval_asked}" if claim.approval_asked else ""
        return f"wait for the maker's approval{asked}"
    if claim.approval_state == "refused":
        return "tell the owner: the maker refused its approval"
    return ""


def letter_sent(claim: DatedFrom, today: date) -> str:
    """The last letter that nothing came of yet, and from when to ask again; empty where there is none.

    Source: common practice, no source.
    """
    if claim.chased_on is None:
        return ""
    is_early = claim.ask_again is not None and today < claim.ask_again
    return f"chased on {claim.chased_on}{f', ask again from {claim.ask_again}' if is_early else ''}"


_ASKS = ("chase ", "ask ", "contest")


def _after_a_letter(step: str, claim: ListedClaim, today: date) -> str:
    """A step that asks the maker, where a letter went out already: that it did, and when to ask again."""
    sent = letter_sent(claim, today)
    return f"{step}; {sent}" if sent and step.startswith(_ASKS) else step


def next_step(claim: ListedClaim, dates: PaymentDates, today: date) -> str:
    """What to do next with a claim that is filed and not settled, in the few words a list has room for.

    Source: common practice, no source; the dates are those of the terms.
    """
    return _after_a_letter(_as_far_as_known(_next_step(claim, dates, today), claim, dates), claim, today)


def _as_far_as_known(step: str, claim: ListedClaim, dates: PaymentDates) -> str:
    """A step that days of the terms could change, where they are not known."""
    unknown = no_days(dates)
    return f"{step}; {unknown}" if unknown and claim.state in ("questioned", "refused") else step


def _next_step(claim: ListedClaim, dates: PaymentDates, today: date) -> str:
    # first, since each step below would chase money that is not there
    if nothing_is_owed(claim):
        return "nothing is owed: write it off to close it"
    silent = f"silence accepted it on {dates.accepted_by_silence_on}" if dates.answered_late else ""
    if claim.state == "questioned":
        spoken = f"; silence accepted it on {dates.accepted_by_silence_on}" if dates.silence_has_spoken(today) else ""
        return f"answer the maker's question{spoken}"
    if dates.no_grounds_on:
        step = _when_accepted(claim, dates, today)
        return step if step == _SEND_FIRST else f"{step}: refused on {dates.no_grounds_on}, no grounds on record"
    if claim.state == "refused" and dates.refused_by_silence_on:
        is_over = _is_too_late(dates, today)
        silent_on = dates.refused_by_silence_on
        return _when_refused(claim, dates, today) if is_over else f"silence refused it on {silent_on}: resubmit"
    if claim.state == "refused":
        after = _when_refused(claim, dates, today)
        or_again = f"; or {after}" if claim.refused_for_form and not _is_too_late(dates, today) else ""
        return f"contest: {silent}{or_again}" if silent else after
    if claim.state == "accepted":
        return _when_accepted(claim, dates, today)
    if dates.silence_has_spoken(today):
        late = dates.pay_due is not None and today > dates.pay_due
        if claim.part_awaited:
            return _SEND_FIRST
        return "chase the payment: accepted by silence" if late else "ask for payment: accepted by silence"
    if dates.answer_due and today > dates.answer_due:
        return "ask when it was received, and chase the answer" if dates.answer_estimated else "chase the answer"
    return no_days(dates) or "wait for the answer"


def _is_too_late(dates: PaymentDates, today: date) -> bool:
    """Whether the time to resubmit a refused claim is over."""
    return dates.resubmit_by is not None and today > dates.resubmit_by


def _when_refused(claim: ListedClaim, dates: PaymentDates, today: date) -> str:
    """What is left to do; nobody has a right to a favour, so its refusal is not contested."""
    for_form, favour = claim.refused_for_form, is_favour(claim.verdict)
    # without a day to send in again by, all ways are open
    if dates.resubmit_by is None:
        undone = "resubmit or write off" if favour else "contest, resubmit or write off"
        return "correct and resubmit" if for_form else undone
    if _is_too_late(dates, today):
        return f"{'' if favour else 'contest or '}write off: the time to resubmit is over"
    return "correct and resubmit" if for_form or favour else "contest, or correct and resubmit"


def no_days(dates: PaymentDates) -> str:
    """Why no day of a claim can be told, in a list's few words; empty where its terms are known, or it has none."""
    if dates.terms_unread:
        return f"its terms {dates.terms_unread} cannot be read: no day can be told"
    return "" if dates.terms_known else "its shop's terms are not known here: no day can be told"


_SEND_FIRST = "send the part back: by its plan it is paid when it is there"


def waits_for_part(claim: ListedClaim, dates: PaymentDates, today: date) -> bool:
    """Whether an accepted claim waits for the shop to send the failed part, which the maker pays on.

    Source: common practice, no source; the condition is the plan's.
    """
    return next_step(claim, dates, today) == _SEND_FIRST


def _when_accepted(claim: ListedClaim, dates: PaymentDates, today: date) -> str:
    if dates.audit_reached_to:
        return f"contest the charge-back: an audit reached to {dates.audit_reached_to}"
    if dates.owed_again:
        since = "owed again since" if dates.is_owed_again(today) else "from the day after"
        return f"chase the charge-back: {since} {dates.owed_again}"
    if claim.part_awaited:
        return _SEND_FIRST
    if not dates.terms_known:
        return no_days(dates)
    return "chase the payment" if dates.pay_due is not None and today > dates.pay_due else "wait for the payment"


def nothing_is_owed(claim: ListedClaim) -> bool:
    """Whether the maker accepted a claim and owes nothing for it, so that the shop has to close it."""
    return claim.state == "accepted" and not claim.outstanding


def step_with_dates(step: str, dates: PaymentDates) -> str:
    """A next step with the dates that go with it, where no column has room for them."""
    step, letter, sent = step.partition("; chased on ")
    return f"{_dated(step, dates)}{letter}{sent}"


def _dated(step: str, dates: PaymentDates) -> str:
    # the step's own words carry their day, so that list and letter name the same one
    if step.endswith("by silence"):
        return f"{step} on {dates.accepted_by_silence_on}"
    if step.endswith("again"):
        return f"{step} by {dates.resubmit_by}" if dates.resubmit_by else step
    if dates.answer_due is None:
        return step
    coming = {dates.accepted_by_silence_on: "accepts", dates.refused_by_silence_on: "refuses"}.get(dates.answer_due)
    return f"{step}; silence then {coming} it" if coming else step


def what_next(number: str, standing: Standing, *, is_favour: bool) -> tuple[str, ...]:
    """What to do next with a claim, a sentence each; empty where nothing is left.

    Args:
        number: the claim's number.
        standing: where it stands.
        is_favour: whether goodwill was asked for, so that there is nothing to contest.

    Source: common practice, no source.
    """
    if standing.state == "draft":
        return (f"It is a draft again; file it with: {command_of('filed', number)}",)
    if standing.state == "questioned":
        again = f"{command_of('filed', number)} --reply TEXT"
        return (f"Answer the maker, correct the claim where it asks, and resubmit it: {again}",)
    if standing.state == "refused":
        return (_after_refusal(number, standing, is_favour),)
    if standing.state == "filed":
        return (f"When the maker answers: {command_of('answered', number)} --on DATE",)
    waited_for = (_of_the_money(number, standing),) if standing.state == "accepted" else ()
    return (*waited_for, *_of_the_rest(number, standing, is_favour))


def before_the_work(assessment: Assessment, spoken: Callable[[Sentence], str] = str) -> tuple[str, ...]:
    """What comes before any other step: the maker's approval where it is lacking; empty where it is not.

    Args:
        assessment: the claim as it stands.
        spoken: how a sentence is said: for people, or for scripts.

    Source: repairing first loses the claim: common practice, no source.
    """
    lacking, number = assessment.approval_wanted, assessment.claim.number
    if lacking is None:
        return ()
    given, late = assessment.claim.approval, assessment.claim.dates.repaired is not None
    first = "Before it is filed" if late else "First, before the repair"
    said = f"{first}: {spoken(lacking.what)}. {spoken(lacking.why)}"
    if given and given.is_waited_for:
        return (said, f"When the maker answers: claimpack approval given|refused {number}")
    if given and given.is_refused:
        return (said, f"If the maker reverses: claimpack approval given {number} --number NUMBER")
    if late:
        return (said, _after_the_work(lacking, number))
    ask = f"Ask the maker: claimpack approval request {number}"
    return (said, f"{ask}; its number goes in with: claimpack approval given {number} --number NUMBER")


def _after_the_work(lacking: MissingItem, number: str) -> str:
    """What can be done where the unit was repaired without the approval: it is too late to ask for one."""
    all_the_same = f"file it all the same: {command_of('filed', number)} --anyway REASON"
    # an approval that was given and is too small cannot be had for work that is done
    if lacking.what.key == "missing.approval-amount":
        return f"Claim no more than was approved; or {all_the_same}"
    record = f"claimpack approval given {number} --number NUMBER --on DATE"
    return f"If the maker approved it before the repair: {record}; else {all_the_same}"


def _contest(number: str) -> str:
    return f"contest it: claimpack chase {number} --grounds TEXT"


def _after_refusal(number: str, standing: Standing, favour: bool) -> str:
    again = f"correct it and resubmit it: {command_of('filed', number)}"
    contest = () if favour else (_contest(number),)
    if standing.refused_for_form:
        return "; if the maker is mistaken, ".join((f"Only form was wrong; {again}", *contest))
    ways = "; or ".join((*contest, again))
    return f"If the maker is mistaken, {ways}; else give it up: {command_of('written off', number)}"


def _of_the_money(number: str, standing: Standing) -> str:
    if not standing.payments:
        return f"When the money comes: {command_of('paid', number)} --on DATE"
    short = f"{in_money(standing.outstanding, standing.currency)} is still to come"
    return f"{short}; chase it, or give it up: {command_of('written off', number)}"


def _of_the_rest(number: str, standing: Standing, favour: bool) -> tuple[str, ...]:
    """What may become of what the maker refused of a claim it accepted in part; empty where nothing is refused."""
    if not standing.refused_rest:
        return ()
    rest = in_money(standing.refused_rest, standing.currency)
    contest = "" if favour else f"{_contest(number)}; "
    # without it the write-off would take what the maker still owes along
    alone = " --rest" if standing.outstanding else ""
    said = (
        f"{rest} was not accepted. If the maker reverses: claimpack answer {number} accepted, or part --amount MORE; "
        f"{contest}corrected and resubmitted: {command_of('filed', number)}; "
        f"let go: claimpack write-off {number}{alone} --because TEXT"
    )
    return (said,)


def of_earlier_money(before: Standing, after: Standing) -> tuple[str, ...]:
    """What became of money when a claim was filed again; empty where it had brought none.

    Args:
        before: where it stood before it was filed again.
        after: where it stands now.

    Source: a rule of this tool's, no source.
    """
    said = []
    if after.paid > 0:
        paid, still = (in_money(amount, after.currency) for amount in (after.paid, after.outstanding))
        said.append(f"{paid} was paid for it before and counts; {still} is outstanding now.")
    if before.state == "accepted" and before.outstanding:
        said.append(
            f"{in_money(before.outstanding, before.currency)} that the maker had accepted is waited for with the rest."
        )
    return tuple(said)
