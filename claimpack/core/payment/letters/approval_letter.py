"""The words of a letter that asks a maker to approve a repair: the estimate, the evidence, the question."""

from __future__ import annotations

from datetime import date

from claimpack.core.claims.claim import Claim
from claimpack.core.claims.measurements import limits_in_words, value_said
from claimpack.core.judging.assessment import Assessment
from claimpack.core.payment.letters.letter import Letter, Sender
from claimpack.core.payment.letters.told_in_letters import anything_more
from claimpack.core.pricing.lines import PricedLine
from claimpack.core.pricing.pricing import Amounts
from claimpack.core.values.days import days_in_a_letter, in_a_letter
from claimpack.core.values.money import grouped, in_money
from claimpack.core.values.numbers_said import figures_said, hours_said, how_many

ESTIMATED = (
    "The amounts are an estimate by your rates and your time schedule, as we read them. What is claimed after the "
    "repair follows from what was done."
)


def request(
    assessment: Assessment, question: str, sender: Sender, address: tuple[str, ...], enclosed: tuple[str, ...]
) -> Letter:
    """The request for approval, for a person to read and sign; a claim that asks a favour says so."""
    claim, goodwill = assessment.claim, assessment.goodwill
    number = claim.number
    favour = "goodwill, and for your approval" if goodwill else "your approval"
    answer = "with the number of your approval, the amount it covers and the day it ends"
    return Letter(
        sender=sender,
        on=assessment.today,
        to=assessment.maker_name,
        subject=f"Warranty claim {number}: request for {'goodwill and ' if goodwill else ''}approval before the repair",
        facts=_facts(assessment, sender),
        amounts=_amounts(assessment),
        paragraphs=tuple(part for part in _paragraphs(assessment, question) if part),
        ask=f"We ask for {favour} before we begin. Please answer naming our claim number {number}, {answer}.",
        closing=f"{anything_more(sender, part_held=False)} The repair waits until then.",
        small_print=ESTIMATED,
        address=address,
        rows=tuple(_row(line, assessment.amounts) for line in _of_the_maker(assessment)),
        enclosed=enclosed,
    )


def _facts(assessment: Assessment, sender: Sender) -> tuple[tuple[str, str], ...]:
    claim, unit = assessment.claim, assessment.claim.unit
    hours = (
        "no hour meter"
        if unit.has_hour_meter is False
        else f"{figures_said(unit.hours_said)} h"
        if unit.hours_said
        else ""
    )
    said = (
        ("Our claim number", claim.number),
        ("Our dealer number", sender.dealer_number),
        ("Unit", " ".join(part for part in (unit.model, unit.kind) if part)),
        *((f"Serial, {serial.role}", serial.value) for serial in unit.serials[:3]),
        ("Hours", hours),
        ("Purchased on", _day(claim.dates.purchased)),
        ("Failed on", _day(claim.dates.failed)),
        ("Brought in on", _day(claim.dates.presented)),
        ("What failed", claim.what_failed()),
    )
    return tuple((label, value) for label, value in said if value)


def _day(on: date | None) -> str:
    return in_a_letter(on) if on else ""


def _paragraphs(assessment: Assessment, question: str) -> tuple[str, ...]:
    claim = assessment.claim
    return (
        _cover(assessment),
        _told("Complaint", claim.failure.complaint),
        _told("Cause", claim.failure.cause),
        _told("What we mean to do", claim.failure.correction),
        _found(claim),
        _told("Our question", question),
    )


def _cover(assessment: Assessment) -> str:
    asked = assessment.goodwill
    if asked is None:
        shares = [assessment.share, *(one.share for one in assessment.failures)]
        said = " ".join(map(str, filter(None, (assessment.headline, *shares))))
        return f"As we read your warranty terms: {days_in_a_letter(said)}"
    miss = f": {days_in_a_letter(str(asked.out_of_cover))}" if asked.out_of_cover else ""
    because = f" We ask all the same, because: {asked.because}" if asked.because else ""
    return f"As we read your warranty terms, this is out of cover under {asked.window}{miss}{because}"


def _told(label: str, said: str) -> str:
    return f"{label}: {' '.join(said.split())}" if said else ""


def _found(claim: Claim) -> str:
    """What was measured so far, beside its limits."""
    said = []
    for one in claim.findings:
        limits = limits_in_words(one)
        measured = f"{value_said(one)} {one.unit}".rstrip()
        said.append(f"{one.what} {measured}" + (f" (limits: {figures_said(limits)})" if limits else ""))
    return f"Measured so far: {'; '.join(said)}." if said else ""


def _of_the_maker(assessment: Assessment) -> list[PricedLine]:
    lines = assessment.price.lines if assessment.price else ()
    return [line for line in lines if line.payer == "maker" and (line.kind == "part" or line.whole)]


def _row(line: PricedLine, amounts: Amounts | None) -> tuple[str, str, str]:
    what = f"{line.code} {line.what}".strip() if line.kind == "part" else line.what
    much = hours_said(line.quantity) if line.kind == "labour" else grouped(line.quantity) if line.kind == "part" else ""
    if line.handling:
        much = f"{much}, handling included"
    if any(note.key == "price.from-maker" for note in line.notes):
        much = f"{much}, sent by you"
    return (what, much, in_money(line.whole, amounts.currency if amounts else ""))


def _amounts(assessment: Assessment) -> tuple[tuple[str, str], ...]:
    amounts, lines = assessment.amounts, _of_the_maker(assessment)
    if amounts is None:
        return ()
    tax = (("Tax", in_money(amounts.tax, amounts.currency)),) if amounts.tax else ()
    without_parts = lines and not any(line.kind == "part" for line in lines)
    label = "Estimate in all; no part is in it" if without_parts else "Estimate in all"
    return (*tax, (label, in_money(amounts.claimed, amounts.currency)))


def evidence_named(claim: Claim, pages: int) -> tuple[str, ...]:
    """What goes along with a letter, as it says itself: photos, findings and papers, on so many pages."""
    said = []
    if claim.findings:
        said.append(how_many(len(claim.findings), "finding"))
    if claim.photos:
        said.append(how_many(len(claim.photos), "photo"))
    said += [file.rpartition("/")[2] for file in claim.paper_files()]
    return (f"{', '.join(said)}, on {how_many(pages, 'page')}",) if said and pages else ()
