"""Audit rules about which unit it is: numbers that cannot all be true, meters, approvals, refused and filed anew."""

from __future__ import annotations

import itertools
from collections.abc import Iterator, Sequence
from datetime import date
from decimal import Decimal
from typing import NamedTuple

from claimpack.core.auditing.audited import AuditedClaim, GroupKey, Irregularity, Measures, Weight, listed
from claimpack.core.auditing.rule import OURS, PRACTICE, AcrossRule
from claimpack.core.reading.look_alikes import as_it_looks
from claimpack.core.values.money import plain
from claimpack.core.values.wording.sentence import Sentence, say
from claimpack.core.values.words import folded, run_on

# shorter ones, as 1 or A2, are no serial numbers but what was written for want of one
_LEAST_OF_A_NUMBER = 4


class UnitSeen(NamedTuple):
    """A unit as one claim tells it."""

    claim: str
    serial: str
    model: str


def units_by_look(audited: AuditedClaim) -> Iterator[tuple[GroupKey, UnitSeen]]:
    """The units of claims, by what their number looks like."""
    if not audited.is_withdrawn:
        # O and 0, I and 1: a number misread, or altered so that a second claim is not noticed
        key = as_it_looks(audited.unit_serial)
        if len(key) >= _LEAST_OF_A_NUMBER:
            yield (audited.maker, key), UnitSeen(audited.number, audited.unit_serial, audited.claim.unit.model)


def serials_look_alike(seen: Sequence[UnitSeen], _measures: Measures) -> Iterator[Irregularity]:
    """Two claims whose unit numbers differ only in marks that are taken for one another.

    Source: common practice, no source.
    """
    spelled = {run_on(each.serial): each.serial for each in seen}
    if len(spelled) > 1:
        serials = " and ".join(sorted(spelled.values())[:3])
        said = say("serials-look-alike", serials=serials)
        yield _across((each.claim for each in seen), said, {"serials": serials}, "serious")


def unit_of_two_models(seen: Sequence[UnitSeen], _measures: Measures) -> Iterator[Irregularity]:
    """One unit number on two models of one maker.

    Source: common practice, no source.
    """
    models = {folded(each.model): each.model for each in seen}
    # numbers that only look alike are told by the rule about those
    if len(models) > 1 and len({run_on(each.serial) for each in seen}) == 1:
        serial = seen[0].serial
        said = say("unit-of-two-models", serial=serial, models=" and ".join(sorted(models.values())[:3]))
        yield _across((each.claim for each in seen), said, {"serial": serial}, "serious")


class NumberSeen(NamedTuple):
    """A number that one unit alone can have, as one claim tells it."""

    claim: str
    role: str
    number: str
    unit: str
    shown: str


def other_serials(audited: AuditedClaim) -> Iterator[tuple[GroupKey, NumberSeen]]:
    """The numbers of engines and the like, each with the unit it is in."""
    unit = audited.claim.unit
    if audited.is_withdrawn:
        return
    for serial in unit.serials:
        # the unit's own number has rules of its own
        if serial.value != audited.unit_serial and len(as_it_looks(serial.value)) >= _LEAST_OF_A_NUMBER:
            seen = NumberSeen(audited.number, serial.role, serial.value, audited.unit_key, audited.unit_serial)
            yield (audited.maker, folded(serial.role), as_it_looks(serial.value)), seen


def number_in_two_units(seen: Sequence[NumberSeen], _measures: Measures) -> Iterator[Irregularity]:
    """One engine number, or that of another part, in claims about different units.

    Source: common practice, no source.
    """
    units = {each.unit: each.shown for each in seen}
    if len(units) > 1:
        shown = " and ".join(sorted(units.values())[:3])
        said = say("number-in-two-units", what=seen[0].role, number=seen[0].number, units=shown)
        evidence = {seen[0].role: seen[0].number, "units": shown}
        yield _across((each.claim for each in seen), said, evidence, "serious")


def approvals_by_number(audited: AuditedClaim) -> Iterator[tuple[GroupKey, NumberSeen]]:
    """The numbers of approvals, each with the unit it was given for."""
    approval = audited.claim.approval
    # a claim given up frees its approval for the one that takes its place
    if approval and approval.is_given and audited.asks_for_money:
        seen = NumberSeen(audited.number, "approval", approval.number, audited.unit_key, audited.unit_serial)
        yield (audited.maker, run_on(approval.number)), seen


def approval_twice(seen: Sequence[NumberSeen], _measures: Measures) -> Iterator[Irregularity]:
    """One approval number in two claims that ask for money.

    Source: common practice, no source.
    """
    if len({each.claim for each in seen}) > 1:
        said = say("approval-twice", number=seen[0].number)
        yield _across((each.claim for each in seen), said, {"approval": seen[0].number}, "serious")


class ReadingSeen(NamedTuple):
    """What the hour meter of a unit read on a day, as one claim tells it."""

    on: date
    hours: Decimal
    claim: str
    serial: str


def meter_readings(audited: AuditedClaim) -> Iterator[tuple[GroupKey, ReadingSeen]]:
    """The readings of hour meters, by unit; those of meters that were replaced are counted on top."""
    hours = audited.claim.unit.hours_run
    if hours is not None and audited.unit_serial and not audited.is_withdrawn:
        seen = ReadingSeen(audited.claim.dates.presented, hours, audited.number, audited.unit_serial)
        yield (audited.maker, as_it_looks(audited.unit_serial)), seen


def meter_backwards(seen: Sequence[ReadingSeen], _measures: Measures) -> Iterator[Irregularity]:
    """A meter that reads less on a later day, or ran more hours than there were between two days.

    Source: common practice, no source; a day has 24 hours.
    """
    ordered = sorted(seen)
    for first, later in itertools.pairwise(ordered):
        # both days count whole: it is not known at which hour either meter was read
        between, ran = 24 * ((later.on - first.on).days + 1), later.hours - first.hours
        key = "meter-backwards" if ran < 0 else "meter-backwards.ran-more" if ran > between else ""
        if key and first.claim != later.claim:
            before, after = plain(first.hours), plain(later.hours)
            said = say(key, hours=before, on=first.on, reading=after, later_on=later.on)
            evidence = {"serial": later.serial, first.claim: before, later.claim: after}
            yield _across((first.claim, later.claim), said, evidence, "serious")


class Asked(NamedTuple):
    """What one claim asks for on one unit, and how it stands."""

    presented: date
    claim: str
    component: str
    refused: date | None
    why: str


def asked_of_units(audited: AuditedClaim) -> Iterator[tuple[GroupKey, Asked]]:
    """What was asked for, by what the unit's number looks like and the component; a favour asked after a no is open."""
    standing = audited.standing
    if not audited.unit_serial or not audited.is_with_the_maker or audited.claim.asks_goodwill:
        return
    # taken up again or accepted since, it is no longer refused
    refused = standing.answered if standing.state == "refused" else None
    for component in filter(None, audited.claim.components()):
        asked = Asked(audited.claim.dates.presented, audited.number, component, refused, standing.because)
        yield (audited.maker, as_it_looks(audited.unit_serial), folded(component)), asked


def refused_filed_anew(seen: Sequence[Asked], _measures: Measures) -> Iterator[Irregularity]:
    """A claim that the maker refused, and another one later for the same component of the same unit.

    Source: common practice, no source.
    """
    ordered = sorted(seen, key=lambda each: (each.presented, each.claim))
    for place, first in enumerate(ordered):
        # the next one alone: if that was refused too, it is told with the one after it
        later = next((each for each in ordered[place + 1 :] if each.claim != first.claim), None)
        if first.refused and later:
            told = {"first": first.claim, "component": folded(first.component), "refused": first.refused}
            key = "refused-filed-anew.because" if first.why else "refused-filed-anew"
            said = say(key, later=later.claim, why=first.why, **told)
            yield _across((first.claim, later.claim), said, {"refused": f"{first.refused}"}, "look")


def _across(
    claims: Iterator[str] | tuple[str, ...], said: Sentence, evidence: dict[str, str], weight: Weight
) -> Irregularity:
    involved = tuple(sorted(set(claims)))
    which = (say("claims", claims=listed(involved)),) if len(involved) > 2 else ()
    return Irregularity((said, *which), involved, weight, evidence)


IDENTITY_RULES = (
    AcrossRule(
        "serials-look-alike",
        "Unit numbers of two claims differ only in marks that are taken for one another.",
        PRACTICE,
        units_by_look,
        serials_look_alike,
    ),
    AcrossRule(
        "unit-of-two-models", "One unit number stands on two models.", PRACTICE, units_by_look, unit_of_two_models
    ),
    AcrossRule(
        "number-in-two-units",
        "One engine number, or that of another part, is in two units.",
        PRACTICE,
        other_serials,
        number_in_two_units,
    ),
    AcrossRule("approval-twice", "One approval is used in two claims.", PRACTICE, approvals_by_number, approval_twice),
    AcrossRule(
        "meter-backwards",
        "A meter reads less on a later day, or ran more hours than there were.",
        PRACTICE,
        meter_readings,
        meter_backwards,
    ),
    AcrossRule(
        "refused-filed-anew",
        "What the maker refused is asked for again in another claim.",
        OURS,
        asked_of_units,
        refused_filed_anew,
    ),
)
"""The rules about which unit it is."""
