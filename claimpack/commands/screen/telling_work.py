"""The work on a claim told: parts, labour, extras, findings, pictures, papers, and the parts that are kept."""

from __future__ import annotations

from typing import TYPE_CHECKING

from claimpack.commands.screen.labelled import counted, fact, table
from claimpack.core.claims.measurements import value_said
from claimpack.core.events.part_state import HeldStanding
from claimpack.core.values.money import grouped, plain, unit_price
from claimpack.core.values.numbers_said import figures_said, hours_said, how_many

if TYPE_CHECKING:
    from claimpack.commands.desk.say import Say
    from claimpack.core.claims.claim import Claim
    from claimpack.core.events.standing import Standing
    from claimpack.core.facts.failure import Finding
    from claimpack.core.facts.lines import Extra, Labour, Part
    from claimpack.core.facts.pictures import Paper, Photo


def tell_work(say: Say, claim: Claim, currency: str) -> None:
    """Parts, labour and extras, each with the number that `set` names it by."""
    parts = [
        (one.name, one.number, f"{plain(one.quantity)} x {unit_price(one.unit_cost, currency)}", _paid(claim, one))
        for one in claim.parts
    ]
    table(say, "Parts", counted(parts), right=(3,))
    labour = [(one.operation, one.worker, _hours(one), _paid(claim, one)) for one in claim.labour]
    table(say, "Labour", counted(labour), right=(3,))
    extras = [(one.what, _of_extra(one), _paid(claim, one)) for one in claim.extras]
    table(say, "Extras", counted(extras), right=(2,))


def _paid(claim: Claim, line: Part | Labour | Extra) -> str:
    """Who pays a line, if not the maker; and which failure it is for, where there are several."""
    payer = "" if line.payer == "maker" else f"{line.payer} pays"
    return ", ".join(word for word in (payer, f"failure {line.failure}" if claim.failure.also else "") if word)


def _of_extra(extra: Extra) -> str:
    """What an extra costs, or how far it was."""
    found = extra.amount if extra.amount is not None else extra.distance
    return "" if found is None else grouped(found) if extra.amount is not None else f"distance {plain(found)}"


def _hours(labour: Labour) -> str:
    if labour.hours is not None:
        return hours_said(labour.hours)
    if labour.started and labour.ended:
        ended = "%H:%M" if labour.started.date() == labour.ended.date() else "%m-%d %H:%M"
        return f"{labour.started:%Y-%m-%d %H:%M} to {labour.ended:{ended}}"
    return f"since {labour.started:%Y-%m-%d %H:%M}" if labour.started else ""


def tell_evidence(say: Say, claim: Claim) -> None:
    """Findings, pictures and papers."""
    findings = [(one.what, _measured(one), _limits(one)) for one in claim.findings]
    table(say, "Findings", counted(findings))
    photos = [(one.shot or "no shot named", one.file, _marks(one)) for one in claim.photos]
    table(say, "Photos", counted(photos))
    if claim.papers:
        say.answer()
        fact(say, "Papers", [_paper(paper) for paper in claim.papers])


def _paper(paper: Paper) -> str:
    told = ", ".join(said for said in (paper.kind, str(paper.on or "")) if said)
    return f"{paper.file} ({told})" if told else paper.file


def _measured(finding: Finding) -> str:
    return f"{value_said(finding)} {finding.unit}".strip()


def _limits(finding: Finding) -> str:
    low, high = figures_said(finding.low), figures_said(finding.high)
    if low and high:
        return f"limits {low} to {high}"
    return f"at least {low}" if low else f"at most {high}" if high else ""


def _marks(photo: Photo) -> str:
    count = len(photo.marks)
    return how_many(count, "mark") if count else ""


def tell_held(say: Say, claim: Claim, standing: Standing | None) -> None:
    """The parts that are kept: where each lies, since when, and whether it was drained."""
    held = []
    for index, one in enumerate(claim.held, start=1):
        part = standing.part(index) if standing else HeldStanding(index=index)
        drained = {True: "drained", False: "NOT drained", None: ""}[one.drained]
        shelf = f"shelf {one.shelf}" if one.shelf else "no shelf"
        since = f"held since {one.since}" if one.since else "" if part.on else "held"
        held.append((one.part, shelf, since, f"{part.state} {part.on}" if part.on else "", drained))
    table(say, "Held parts", counted(held))
