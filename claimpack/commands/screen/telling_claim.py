"""A whole claim told on one screen: what is empty is left out."""

from __future__ import annotations

from collections.abc import Sequence
from decimal import Decimal
from typing import TYPE_CHECKING, NamedTuple

from claimpack.commands.screen.labelled import fact
from claimpack.commands.screen.telling_case import of_the_case
from claimpack.commands.screen.telling_work import tell_evidence, tell_held, tell_work
from claimpack.core.payment.lost_money import LostMoney
from claimpack.core.steps.filing import Unsent
from claimpack.core.values.money import grouped, in_money
from claimpack.core.values.numbers_said import figures_said
from claimpack.core.values.words import on_one_line

if TYPE_CHECKING:
    from claimpack.commands.desk.say import Say
    from claimpack.core.claims.claim import Claim
    from claimpack.core.events.events import Event, NewEvent
    from claimpack.core.events.standing import Standing
    from claimpack.core.facts.cases import Approval
    from claimpack.core.judging.assessment import Assessment
    from claimpack.core.steps.notes import Note

_MOST_NOTES = 5
_STATE_STYLES = {"paid": "good", "accepted": "good", "refused": "bad", "withdrawn": "quiet", "written off": "quiet"}


class ClaimTold(NamedTuple):
    """A claim to be shown; no standing and revision for a folder, no assessment for what it once was.

    `lost` is the last charge-back and the last write-off, `maker` the name lists show it by; `terms_unread` what its
    payment terms are named by where they cannot be read.
    """

    claim: Claim
    standing: Standing | None
    revision: int | None
    assessment: Assessment | None
    waits_for: str
    lost: LostMoney = LostMoney()
    unsent: Unsent | None = None
    maker: str = ""
    notes: Sequence[Note] = ()
    terms_unread: str = ""


def tell_claim(say: Say, told: ClaimTold) -> None:
    """Unit, owner, state, money, dates, failure, work, evidence, held parts, and what it still needs."""
    claim = told.claim
    _tell_head(say, told)
    if told.assessment:
        from claimpack.commands.screen.telling import tell_verdict_line

        tell_verdict_line(say, told.assessment)
    say.answer()
    for label, parts in of_the_case(claim, told.standing.state if told.standing else "draft"):
        fact(say, label, parts)
    _tell_unit(say, claim)
    _tell_standing(say, told)
    _tell_failure(say, claim)
    amounts = told.assessment.amounts if told.assessment else None
    tell_work(say, claim, amounts.currency if amounts else claim.currency or "")
    tell_evidence(say, claim)
    tell_held(say, claim, told.standing)
    _tell_notes(say, told)
    _tell_what_is_missing(say, told)


def _tell_head(say: Say, told: ClaimTold) -> None:
    claim, standing = told.claim, told.standing
    state = standing.state if standing else "folder"
    as_of = f"as of revision {told.revision}" if told.standing and not told.assessment else ""
    about = (
        f"{told.maker or claim.maker} {claim.unit.model}",
        claim.unit.kind,
        f"came in {claim.dates.presented}",
        as_of,
    )
    lead = ((claim.number, "strong"), (state.upper(), _STATE_STYLES.get(state, "strong")))
    say.lines(" · ".join(part for part in about if part), *lead)


def _tell_unit(say: Say, claim: Claim) -> None:
    unit, owner, dates = claim.unit, claim.owner, claim.dates
    meter = (
        "no hour meter"
        if unit.has_hour_meter is False
        else f"{figures_said(unit.hours_said)} hours"
        if unit.hours_said
        else ""
    )
    others = [
        f"no {one.kind}" if one.total is None else f"{figures_said(one.said)} {one.kind}" for one in unit.other_meters
    ]
    serials = [f"{serial.role} {serial.value}" for serial in unit.serials]
    sold_in = f"sold in {unit.sold_in}" if unit.sold_in else ""
    built = f"built {unit.built}" if unit.built else ""
    invoiced = f"invoiced {unit.invoiced}" if unit.invoiced else ""
    year = f"model year {unit.model_year}" if unit.model_year else ""
    fact(say, "Unit", (*serials, unit.use or "", meter, *others, built, invoiced, year, sold_in))
    which = {True: "first owner", False: "not the first owner", None: ""}[owner.first_owner]
    fact(say, "Owner", (owner.name, owner.phone, owner.email, on_one_line(owner.address), which))
    sale = ("purchased", "delivered", "in_service", "registered", "resold", "transferred")
    roles = (*sale, "failed", "presented", "repaired", "returned")
    days = [f"{role.replace('_', ' ')} {day}" for role in roles if (day := getattr(dates, role))]
    fact(say, "Dates", (*days, "never registered" if dates.never_registered else ""))
    fact(say, "Proof", (claim.proof.kind or "", claim.proof.file or ""))
    approval = claim.approval
    if approval:
        up_to = f"up to {grouped(approval.up_to)}" if approval.up_to is not None else ""
        until = f"for a repair up to {approval.expires}" if approval.expires else ""
        state = _approval_state(approval)
        told_of = (approval.number, state, approval.by, up_to, until, approval.conditions, approval.because)
        fact(say, "Approval", told_of)
    fact(say, "Earlier", [f"{one.component} {one.repaired} ({one.claim or 'no claim'})" for one in claim.earlier])


def _approval_state(approval: Approval) -> str:
    """When it was asked for, given or refused."""
    if approval.is_waited_for:
        return f"asked for {approval.asked or ''}, no answer yet".replace(" ,", ",")
    if approval.is_refused:
        return f"REFUSED {approval.on or ''}".strip()
    return str(approval.on or "")


def _tell_standing(say: Say, told: ClaimTold) -> None:
    """State and money, as far as there are any."""
    standing, amounts = told.standing, told.assessment.amounts if told.assessment else None
    if standing is None or standing.filed is None:
        fact(say, "Money", (f"{in_money(amounts.claimed, amounts.currency)} to claim" if amounts else "",))
        return
    money = standing.currency
    fact(
        say,
        "Filed",
        (
            str(standing.filed),
            standing.reference,
            f"received {standing.received}" if standing.received else "",
            f"claimed {in_money(standing.claimed, money)}",
        ),
    )
    fact(say, "Corrected", (told.unsent.told(told.claim.number) if told.unsent else "",))
    accepted = f"accepted {in_money(standing.accepted, money)}" if standing.accepted is not None else ""
    answer_why = standing.answers[-1].because if standing.answers else ""
    fact(say, "Answered", (str(standing.answered or ""), accepted, answer_why))
    memos = [f", memo {one.memo}" if one.memo else "" for one in standing.payments]
    paid = [f"{in_money(one.amount, money)} on {one.on}" for one in standing.payments]
    fact(say, "Paid", [f"{came}{memo}" for came, memo in zip(paid, memos, strict=True)])
    taken_back, given_up = told.lost
    fact(say, "Charged back", _lost(taken_back, money))
    fact(say, "Given up", _lost(given_up, money))
    written_off = f"written off {in_money(standing.written_off, money)}" if standing.written_off else ""
    owed = f"outstanding {in_money(standing.outstanding, money)}" if standing.outstanding else ""
    refused = f"not accepted {in_money(standing.refused_rest, money)}" if standing.refused_rest else ""
    fact(say, "Money", (owed, refused, written_off))
    told_already = (answer_why, taken_back.why if taken_back else "")
    fact(say, "Because", (standing.because if standing.because not in told_already else "",))


def _lost(event: Event | NewEvent | None, currency: str) -> tuple[str, ...]:
    """The day, the amount and the reason of money lost."""
    if event is None:
        return ()
    amount = event.facts.get("amount")
    return (str(event.on), in_money(Decimal(amount), currency) if amount else "", event.why)


def _tell_failure(say: Say, claim: Claim) -> None:
    for number, failure in enumerate(claim.failures, start=1):
        part, told = failure.part, f"failure {number}" if len(claim.failures) > 1 else ""
        named = " ".join(word for word in (part.number, part.name, part.serial) if word)
        fact(say, "Failed", (told, failure.component, failure.defect or "", named))
        fact(say, "Complaint", (failure.complaint,))
        fact(say, "Cause", (failure.cause,))
        fact(say, "Correction", (failure.correction,))


def _tell_notes(say: Say, told: ClaimTold) -> None:
    """The latest notes, and when to look again."""
    if told.notes:
        say.heading("Notes")
    for note in told.notes[:_MOST_NOTES]:
        again = f" (again on {note.again})" if note.again else ""
        say.item(say.mark("todo"), f"{note.on} {note.who}: {note.text}{again}", indent=0)
    if len(told.notes) > _MOST_NOTES:
        say.note(f"Earlier notes: claimpack history {told.claim.number}")


def _tell_what_is_missing(say: Say, told: ClaimTold) -> None:
    """What still blocks filing, and what to do next."""
    assessment = told.assessment
    blocking = [item for item in assessment.missing if item.blocks_filing] if assessment else []
    is_due = assessment is not None and not assessment.need_not_be_filed
    if blocking and is_due and (told.standing is None or told.standing.state == "draft"):
        for title, wrong in (("To correct before it can be filed", True), ("Missing before it can be filed", False)):
            items = [item for item in blocking if item.is_wrong is wrong]
            if items:
                say.heading(title)
            for item in items:
                say.item(say.mark("todo"), str(item.what))
    if told.waits_for:
        say.answer()
        fact(say, "Next", (told.waits_for,))
