"""Audit rules about the same thing in two claims: unit and component, part number, serial number, purchase date."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date
from typing import NamedTuple

from claimpack.core.auditing.audited import AuditedClaim, GroupKey, Irregularity, Measures, Weight, listed
from claimpack.core.auditing.rule import PRACTICE, AcrossRule, OneClaimRule
from claimpack.core.values.wording.sentence import say
from claimpack.core.values.words import folded, run_on, word_set


class Spell(NamedTuple):
    """The days from failure to repair of what a claim asks for; a repair not done yet has no end.

    `serial` is the number by which it is compared, `own` that of the unit.
    """

    start: date
    end: date
    claim: str
    subject: str
    serial: str
    own: str
    is_draft: bool


def _spell(audited: AuditedClaim, subject: str, serial: str) -> Spell:
    dates = audited.claim.dates
    # until it is repaired any other claim for it overlaps
    start, end = dates.failed or dates.presented, dates.repaired or date.max
    return Spell(start, end, audited.number, subject, serial, audited.unit_serial, _is_draft(audited))


def _is_draft(audited: AuditedClaim) -> bool:
    return audited.standing.state == "draft"


def components_of_units(audited: AuditedClaim) -> Iterator[tuple[GroupKey, Spell]]:
    """The components a claim asks for, each by every serial number of its unit."""
    if not audited.asks_for_money:
        return
    for component in filter(None, audited.claim.components()):
        # by each of its numbers: the second claim may name the engine alone
        for serial in dict.fromkeys(serial.value for serial in audited.claim.unit.serials):
            yield (audited.maker, run_on(serial), folded(component)), _spell(audited, component, serial)


def parts_of_units(audited: AuditedClaim) -> Iterator[tuple[GroupKey, Spell]]:
    """The part numbers a claim asks the maker for, by the unit's serial number."""
    if not audited.unit_serial or not audited.asks_for_money:
        return
    for part in audited.claim.parts:
        if part.number and part.payer == "maker":
            key = (audited.maker, audited.unit_key, run_on(part.number))
            yield key, _spell(audited, f"part {part.number}", audited.unit_serial)


def unit_claimed_twice(spells: Sequence[Spell], _measures: Measures) -> Iterator[Irregularity]:
    """Two claims for one component of one unit, the days from failure to repair overlapping.

    Source: common practice, no source.
    """
    for first, second in _overlapping(spells):
        yield _twice("unit-claimed-twice", first, second)


def part_claimed_twice(spells: Sequence[Spell], _measures: Measures) -> Iterator[Irregularity]:
    """Two claims for one part number on one unit, the days from failure to repair overlapping.

    Source: common practice, no source.
    """
    for first, second in _overlapping(spells):
        yield _twice("part-claimed-twice", first, second)


def _overlapping(spells: Sequence[Spell]) -> Iterator[tuple[Spell, Spell]]:
    """Every spell that begins before an earlier one of another claim is over, with the one that ends last."""
    ordered = sorted(spells)
    last = ordered[0]
    for spell in ordered[1:]:
        # two failures of one component on one claim are one visit
        if spell.claim == last.claim:
            continue
        if spell.start <= last.end:
            yield last, spell
        last = max(last, spell, key=lambda each: each.end)


def _twice(rule: str, first: Spell, second: Spell) -> Irregularity:
    claims = tuple(sorted((first.claim, second.claim)))
    told = {"claims": listed(claims), "subject": folded(first.subject), "named": first.subject}
    own = {run_on(first.own), run_on(second.own)}
    # the same whichever of its numbers they were compared by
    serial = first.own if len(own) == 1 else first.serial
    # each has a number of its own beside the one they share: an engine may have been moved
    is_one_unit = run_on(serial) in own
    said = say(rule, **told) if is_one_unit else say(f"{rule}.by-number", number=serial, **told)
    evidence = {"serial": serial, first.claim: _days(first), second.claim: _days(second)}
    return Irregularity((said,), claims, _weight(first, second), evidence)


def _weight(first: Spell | PartClaimed, second: Spell | PartClaimed) -> Weight:
    # a draft may still be seen to be a mistake before the maker hears of it
    return "look" if first.is_draft or second.is_draft else "serious"


def _days(spell: Spell) -> str:
    return f"{spell.start} to {spell.end}" if spell.end < date.max else f"{spell.start}, not repaired yet"


def part_line_twice(audited: AuditedClaim, _measures: Measures) -> Iterator[Irregularity]:
    """One part number on two lines of one claim that the maker pays.

    Source: common practice, no source.
    """
    asked = [part for part in audited.claim.parts if part.number and part.payer == "maker" and audited.asks_for_money]
    seen: set[str] = set()
    told: set[str] = set()
    for part in asked:
        number = run_on(part.number)
        if number in seen and number not in told:
            told.add(number)
            said = say("part-line-twice", part=part.number, claim=audited.number)
            yield audited.irregular(said, {"part": f"{part.number} {part.name}"}, "look")
        seen.add(number)


class PartSeen(NamedTuple):
    """A part with its own serial number, as a claim shows it."""

    claim: str
    number: str
    serial: str


def serial_parts(audited: AuditedClaim) -> Iterator[tuple[GroupKey, PartSeen]]:
    """The parts with a number and a serial number that a claim holds or says failed."""
    if not audited.asks_for_money:
        return
    failed = (failure.part for failure in audited.claim.failures)
    shown = [(part.number, part.serial) for part in failed]
    shown += [(held.number, held.serial) for held in audited.claim.held]
    for number, serial in dict.fromkeys(shown):
        if number and serial:
            yield (audited.maker, run_on(number), run_on(serial)), PartSeen(audited.number, number, serial)


def part_serial_twice(seen: Sequence[PartSeen], _measures: Measures) -> Iterator[Irregularity]:
    """One part, known by its number and serial number, in two claims.

    Source: common practice, no source.
    """
    claims = tuple(sorted({part.claim for part in seen}))
    if len(claims) > 1:
        one = {"part": seen[0].number, "serial": seen[0].serial}
        said = say("part-serial-twice", claims=listed(claims), **one)
        yield Irregularity((said,), claims, "serious", one)


class PartClaimed(NamedTuple):
    """A part of a unit with a serial number of its own, claimed as what failed; `off` is the day it was replaced."""

    presented: date
    claim: str
    part: str
    serial: str
    off: date | None
    is_draft: bool


def own_serials_claimed(audited: AuditedClaim) -> Iterator[tuple[GroupKey, PartClaimed]]:
    """The parts a claim says failed whose serial numbers stand beside the unit's: its battery, its engine."""
    claim = audited.claim
    if not audited.asks_for_money:
        return
    for component in dict.fromkeys(filter(None, claim.components())):
        for serial in claim.unit.serials:
            part = _whole(serial.role)
            if serial.role == "unit" or _whole(component) != part:
                continue
            names = [*(held.part for held in claim.held), *(each.name for each in claim.parts)]
            taken_out = any(_whole(name) == part for name in names)
            off = claim.dates.repaired if taken_out else None
            seen = PartClaimed(claim.dates.presented, audited.number, component, serial.value, off, _is_draft(audited))
            yield (audited.maker, run_on(serial.value)), seen


def _whole(name: str) -> set[str]:
    """The words by which a part is the whole of something: a battery pack of 36 V is the battery, its cover is not."""
    return {word for word in word_set(name) if len(word) > 2 and word.isalpha()} - _NO_PART_OF_IT


_NO_PART_OF_IT = {"pack", "unit", "assembly", "assy", "complete"}


def replaced_part_again(seen: Sequence[PartClaimed], _measures: Measures) -> Iterator[Irregularity]:
    """A part, known by its serial number, claimed as failed on a unit that came in the day it was replaced or later.

    Source: common practice, no source; what was taken out of a unit cannot fail in it again.
    """
    ordered = sorted(seen, key=lambda each: (each.presented, each.claim))
    for place, later in enumerate(ordered):
        first = next((one for one in ordered[:place] if one.off and one.off <= later.presented), None)
        if first is None or first.claim == later.claim:
            continue
        said = say("replaced-part-again", claim=later.claim, component=folded(later.part), other=first.claim)
        days = {first.claim: f"replaced on {first.off}", later.claim: f"came in on {later.presented}"}
        claims = tuple(sorted((first.claim, later.claim)))
        yield Irregularity((said,), claims, _weight(first, later), {"serial": later.serial, **days})


class Bought(NamedTuple):
    """When a unit was bought and when it failed, or came in where that is not told, as one claim says."""

    purchased: date
    failed: date
    claim: str
    serial: str
    came_in: bool


def purchases(audited: AuditedClaim) -> Iterator[tuple[GroupKey, Bought]]:
    """The purchase date a claim gives, by the unit's serial number; a later owner bought it again, and is left out."""
    claim = audited.claim
    bought = claim.dates.purchased
    # the second owner has a purchase of its own
    if bought is None or not audited.unit_serial or claim.owner.first_owner is False:
        return
    if not audited.is_withdrawn:
        failed, came_in = claim.dates.failed or claim.dates.presented, claim.dates.failed is None
        yield (audited.maker, audited.unit_key), Bought(bought, failed, audited.number, audited.unit_serial, came_in)


def purchase_dates_differ(bought: Sequence[Bought], _measures: Measures) -> Iterator[Irregularity]:
    """Claims about one unit that give different purchase dates; serious where one has it fail before it was bought.

    Source: common practice, no source.
    """
    ordered = sorted(bought)
    latest = ordered[-1]
    if ordered[0].purchased == latest.purchased:
        return
    claims = tuple(sorted({each.claim for each in ordered}))
    evidence = {"serial": latest.serial} | {each.claim: f"bought {each.purchased}" for each in ordered[:20]}
    early = min(ordered, key=lambda each: each.failed)
    # later than the failure it cannot have been bought, whichever of the days is wrong
    if early.failed < latest.purchased:
        days = {"failed": early.failed, "bought": latest.purchased}
        how, known = ("came-in-before", "came in") if early.came_in else ("failed-before", "failed")
        said = say(f"purchase-dates-differ.{how}", early=early.claim, latest=latest.claim, **days)
        evidence[early.claim] = f"bought {early.purchased}, {known} {early.failed}"
        yield Irregularity((said,), claims, "serious", evidence)
    else:
        said = say("purchase-dates-differ", claims=listed(claims))
        yield Irregularity((said,), claims, "look", evidence)


REPEAT_RULES = (
    AcrossRule(
        "unit-claimed-twice",
        "One component of one unit is claimed twice, at overlapping times.",
        PRACTICE,
        components_of_units,
        unit_claimed_twice,
    ),
    AcrossRule(
        "part-claimed-twice",
        "One part number is claimed twice on one unit, at overlapping times.",
        PRACTICE,
        parts_of_units,
        part_claimed_twice,
    ),
    OneClaimRule("part-line-twice", "One part number stands on two lines of a claim.", PRACTICE, part_line_twice),
    AcrossRule(
        "part-serial-twice",
        "One part, known by its serial number, is in two claims.",
        PRACTICE,
        serial_parts,
        part_serial_twice,
    ),
    AcrossRule(
        "replaced-part-again",
        "A part is claimed that an earlier claim replaced, by its serial number.",
        PRACTICE,
        own_serials_claimed,
        replaced_part_again,
    ),
    AcrossRule(
        "purchase-dates-differ",
        "Claims give one unit different purchase dates, or have it fail before it was bought.",
        PRACTICE,
        purchases,
        purchase_dates_differ,
    ),
)
"""The rules about the same thing in two claims."""
