"""A whole claim told on one screen: what is empty is left out."""

from __future__ import annotations

import textwrap
from collections.abc import Iterable, Sequence
from decimal import Decimal
from typing import TYPE_CHECKING, NamedTuple

from claimpack.commands.screen.telling_case import of_the_case
from claimpack.core.payment.lost_money import LostMoney
from claimpack.core.steps.filing import Unsent
from claimpack.core.values.harmless import harmless
from claimpack.core.values.money import in_money, plain, unit_price
from claimpack.core.values.numbers_said import hours_said, how_many

if TYPE_CHECKING:
    from claimpack.commands.desk.say import Say
    from claimpack.core.claims.claim import Claim
    from claimpack.core.events.events import Event, NewEvent
    from claimpack.core.events.standing import Standing
    from claimpack.core.facts.cases import Approval
    from claimpack.core.facts.failure import Finding
    from claimpack.core.facts.lines import Extra, Labour, Part
    from claimpack.core.facts.pictures import Paper, Photo
    from claimpack.core.judging.assessment import Assessment
    from claimpack.core.steps.notes import Note

_LABEL = 13
_MOST_CELLS = 34
_MOST_NOTES = 5
_STATE_STYLES = {"paid": "good", "accepted": "good", "refused": "bad", "withdrawn": "quiet", "written off": "quiet"}


class Told(NamedTuple):
    """A claim to be shown; no standing and revision for a folder, no assessment for what it once was.

    `lost` is the last charge-back and the last write-off, `maker` the name lists show it by.
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


def tell_claim(say: Say, told: Told) -> None:
    """Unit, owner, state, money, dates, failure, work, evidence, held parts, and what it still needs."""
    claim = told.claim
    _tell_head(say, told)
    if told.assessment:
        from claimpack.commands.screen.telling import tell_verdict_line

        tell_verdict_line(say, told.assessment)
    say.answer()
    for label, parts in of_the_case(claim, told.standing.state if told.standing else "draft"):
        _fact(say, label, parts)
    _tell_unit(say, claim)
    _tell_standing(say, told)
    _tell_failure(say, claim)
    amounts = told.assessment.amounts if told.assessment else None
    _tell_work(say, claim, amounts.currency if amounts else claim.currency or "")
    _tell_evidence(say, claim)
    _tell_held(say, told)
    _tell_notes(say, told)
    _tell_what_is_missing(say, told)


def _fact(say: Say, label: str, parts: Iterable[str], between: str = " · ") -> None:
    """A labelled line, wrapped under itself; nothing where there is nothing to say."""
    text = between.join(part for part in parts if part)
    if not text:
        return
    room = say.world.width() - _LABEL
    lines = [
        line
        for part in harmless(text).split("\n")
        for line in textwrap.wrap(part, room, break_on_hyphens=False) or [""]
    ]
    say.answer(say.styled(f"{label:<{_LABEL}}", "quiet") + lines[0])
    for line in lines[1:]:
        say.answer(" " * _LABEL + line)


def _tell_head(say: Say, told: Told) -> None:
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
    meter = "no hour meter" if unit.has_hour_meter is False else f"{unit.hours_said} hours" if unit.hours_said else ""
    others = [f"no {one.kind}" if one.total is None else f"{one.said} {one.kind}" for one in unit.other_meters]
    serials = [f"{serial.role} {serial.value}" for serial in unit.serials]
    sold_in = f"sold in {unit.sold_in}" if unit.sold_in else ""
    built = f"built {unit.built}" if unit.built else ""
    invoiced = f"invoiced {unit.invoiced}" if unit.invoiced else ""
    year = f"model year {unit.model_year}" if unit.model_year else ""
    _fact(say, "Unit", (*serials, unit.use or "", meter, *others, built, invoiced, year, sold_in))
    which = {True: "first owner", False: "not the first owner", None: ""}[owner.first_owner]
    _fact(say, "Owner", (owner.name, owner.phone, owner.email, ", ".join(owner.address.split("\n")), which))
    sale = ("purchased", "delivered", "in_service", "registered", "resold", "transferred")
    roles = (*sale, "failed", "presented", "repaired", "returned")
    days = [f"{role.replace('_', ' ')} {day}" for role in roles if (day := getattr(dates, role))]
    _fact(say, "Dates", (*days, "never registered" if dates.never_registered else ""))
    _fact(say, "Proof", (claim.proof.kind or "", claim.proof.file or ""))
    approval = claim.approval
    if approval:
        up_to = f"up to {plain(approval.up_to)}" if approval.up_to is not None else ""
        until = f"for a repair up to {approval.expires}" if approval.expires else ""
        state = _approval_state(approval)
        told_of = (approval.number, state, approval.by, up_to, until, approval.conditions, approval.because)
        _fact(say, "Approval", told_of)
    _fact(say, "Earlier", [f"{one.component} {one.repaired} ({one.claim or 'no claim'})" for one in claim.earlier])


def _approval_state(approval: Approval) -> str:
    """When it was asked for, given or refused."""
    if approval.is_waited_for:
        return f"asked for {approval.asked or ''}, no answer yet".replace(" ,", ",")
    if approval.is_refused:
        return f"REFUSED {approval.on or ''}".strip()
    return str(approval.on or "")


def _tell_standing(say: Say, told: Told) -> None:
    """State and money, as far as there are any."""
    standing, amounts = told.standing, told.assessment.amounts if told.assessment else None
    if standing is None or standing.filed is None:
        _fact(say, "Money", (f"{in_money(amounts.claimed, amounts.currency)} to claim" if amounts else "",))
        return
    money = standing.currency
    _fact(
        say,
        "Filed",
        (
            str(standing.filed),
            standing.reference,
            f"received {standing.received}" if standing.received else "",
            f"claimed {in_money(standing.claimed, money)}",
        ),
    )
    _fact(say, "Corrected", (told.unsent.told(told.claim.number) if told.unsent else "",))
    accepted = f"accepted {in_money(standing.accepted, money)}" if standing.accepted is not None else ""
    answer_why = standing.answers[-1].because if standing.answers else ""
    _fact(say, "Answered", (str(standing.answered or ""), accepted, answer_why))
    memos = [f", memo {one.memo}" if one.memo else "" for one in standing.payments]
    paid = [f"{in_money(one.amount, money)} on {one.on}" for one in standing.payments]
    _fact(say, "Paid", [f"{came}{memo}" for came, memo in zip(paid, memos, strict=True)])
    taken_back, given_up = told.lost
    _fact(say, "Charged back", _lost(taken_back, money))
    _fact(say, "Given up", _lost(given_up, money))
    written_off = f"written off {in_money(standing.written_off, money)}" if standing.written_off else ""
    owed = f"outstanding {in_money(standing.outstanding, money)}" if standing.outstanding else ""
    refused = f"not accepted {in_money(standing.refused_rest, money)}" if standing.refused_rest else ""
    _fact(say, "Money", (owed, refused, written_off))
    told_already = (answer_why, taken_back.why if taken_back else "")
    _fact(say, "Because", (standing.because if standing.because not in told_already else "",))


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
        _fact(say, "Failed", (told, failure.component, failure.defect or "", named))
        _fact(say, "Complaint", (failure.complaint,))
        _fact(say, "Cause", (failure.cause,))
        _fact(say, "Correction", (failure.correction,))


def _tell_work(say: Say, claim: Claim, currency: str) -> None:
    parts = [
        (one.name, one.number, f"{plain(one.quantity)} x {unit_price(one.unit_cost, currency)}", _paid(claim, one))
        for one in claim.parts
    ]
    _table(say, "Parts", _counted(parts), right=(3,))
    labour = [(one.operation, one.technician, _hours(one), _paid(claim, one)) for one in claim.labour]
    _table(say, "Labour", _counted(labour), right=(3,))
    extras = [(one.what, _of_extra(one), _paid(claim, one)) for one in claim.extras]
    _table(say, "Extras", _counted(extras), right=(2,))


def _counted(rows: Sequence[tuple[str, ...]]) -> list[tuple[str, ...]]:
    """Rows with the number that `set` names them by."""
    return [(str(number), *row) for number, row in enumerate(rows, start=1)]


def _paid(claim: Claim, line: Part | Labour | Extra) -> str:
    """Who pays a line, if not the maker; and which failure it is for, where there are several."""
    payer = "" if line.payer == "maker" else f"{line.payer} pays"
    return ", ".join(word for word in (payer, f"failure {line.failure}" if claim.failure.also else "") if word)


def _of_extra(extra: Extra) -> str:
    """What an extra costs, or how far it was."""
    found = extra.amount if extra.amount is not None else extra.distance
    return "" if found is None else plain(found) if extra.amount is not None else f"distance {plain(found)}"


def _hours(labour: Labour) -> str:
    if labour.hours is not None:
        return hours_said(labour.hours)
    if labour.started and labour.ended:
        ended = "%H:%M" if labour.started.date() == labour.ended.date() else "%m-%d %H:%M"
        return f"{labour.started:%Y-%m-%d %H:%M} to {labour.ended:{ended}}"
    return f"since {labour.started:%Y-%m-%d %H:%M}" if labour.started else ""


def _tell_evidence(say: Say, claim: Claim) -> None:
    findings = [(one.what, _measured(one), _limits(one)) for one in claim.findings]
    _table(say, "Findings", _counted(findings))
    photos = [(one.shot or "no shot named", one.file, _marks(one)) for one in claim.photos]
    _table(say, "Photos", _counted(photos))
    if claim.papers:
        say.answer()
        _fact(say, "Papers", [_paper(paper) for paper in claim.papers])


def _paper(paper: Paper) -> str:
    told = ", ".join(said for said in (paper.kind, str(paper.on or "")) if said)
    return f"{paper.file} ({told})" if told else paper.file


def _measured(finding: Finding) -> str:
    return f"{finding.value} {finding.unit}".strip()


def _limits(finding: Finding) -> str:
    if finding.low and finding.high:
        return f"limits {finding.low} to {finding.high}"
    return f"at least {finding.low}" if finding.low else f"at most {finding.high}" if finding.high else ""


def _marks(photo: Photo) -> str:
    count = len(photo.marks)
    return how_many(count, "mark") if count else ""


def _tell_held(say: Say, told: Told) -> None:
    held = []
    for index, one in enumerate(told.claim.held, start=1):
        state = told.standing.part(index).state if told.standing else ""
        drained = {True: "drained", False: "NOT drained", None: ""}[one.drained]
        shelf, since = f"shelf {one.shelf}" if one.shelf else "no shelf", f"since {one.since}" if one.since else ""
        held.append((one.part, shelf, state, since, drained))
    _table(say, "Held parts", _counted(held))


def _tell_notes(say: Say, told: Told) -> None:
    """The latest notes, and when to look again."""
    if told.notes:
        say.heading("Notes")
    for note in told.notes[:_MOST_NOTES]:
        again = f" (again on {note.again})" if note.again else ""
        say.item(say.mark("todo"), f"{note.on} {note.who}: {note.text}{again}", indent=0)
    if len(told.notes) > _MOST_NOTES:
        say.note(f"Earlier notes: claimpack history {told.claim.number}")


def _table(say: Say, title: str, rows: Sequence[Sequence[str]], right: Sequence[int] = ()) -> None:
    from claimpack.commands.screen.listing import shortened

    if rows:
        say.heading(title)
        say.table([[shortened(cell, _MOST_CELLS) for cell in row] for row in rows], right=right)


def _tell_what_is_missing(say: Say, told: Told) -> None:
    """What still blocks filing, and what to do next."""
    assessment = told.assessment
    blocking = [item for item in assessment.missing if item.blocks_filing] if assessment else []
    is_due = assessment is not None and (assessment.verdict != "not covered" or assessment.goodwill is not None)
    if blocking and is_due and (told.standing is None or told.standing.state == "draft"):
        for title, wrong in (("To put right before it can be filed", True), ("Missing before it can be filed", False)):
            items = [item for item in blocking if item.is_wrong is wrong]
            if items:
                say.heading(title)
            for item in items:
                say.item(say.mark("todo"), str(item.what))
    if told.waits_for:
        say.answer()
        _fact(say, "Next", (told.waits_for,))
