"""Audit rules about people: an owner who works in the shop or is reached there, and use that does not fit the owner."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from decimal import Decimal
from typing import NamedTuple

from claimpack.core.auditing.audited import AuditedClaim, GroupKey, Irregularity, Measures, listed
from claimpack.core.auditing.house import known_people, name_words, phone_digits
from claimpack.core.auditing.rule import OURS, PRACTICE, AcrossRule, OneClaimRule
from claimpack.core.values.money import plain
from claimpack.core.values.numbers_said import how_many
from claimpack.core.values.wording.sentence import say
from claimpack.core.values.words import folded, word_set

_FIRMS = {
    "ltd", "llc", "inc", "gmbh", "plc", "corp", "co", "company", "services", "service", "landscaping", "landscapes",
    "paving", "builders", "building", "construction", "contractors", "contracting", "rentals", "rental", "hire",
    "council", "city", "county", "township", "school", "university", "church", "club", "hospital", "roofing", "farms",
    "nursery", "arborists", "groundworks", "plumbing", "sl", "sa", "srl", "bv", "pty",
}  # fmt: skip
"""Words in the names of businesses and public bodies."""


def owner_is_staff(audited: AuditedClaim, _measures: Measures) -> Iterator[Irregularity]:
    """The owner has the name of somebody who works in the shop, or worked on the claim.

    Source: common practice, no source.
    """
    name = audited.claim.owner.name
    people = known_people(audited.house, (entry.worker for entry in audited.claim.labour))
    found = people.named(name) if not audited.is_withdrawn else ""
    if found:
        yield audited.irregular(say("owner-is-staff", owner=name, staff=found), {"owner": name}, "look")


def owner_at_the_shop(audited: AuditedClaim, _measures: Measures) -> Iterator[Irregularity]:
    """The owner is reached at the shop: by its phone or a phone of its staff, its mail address or its own address.

    Source: common practice, no source.
    """
    owner, house = audited.claim.owner, audited.house
    shared = [house.phone_of(owner.phone)]
    if house.email and owner.email and house.email.casefold() == owner.email.casefold():
        shared.append("the shop's mail address")
    # lines and commas are set differently by everybody
    if house.address and owner.address and word_set(house.address) == word_set(owner.address):
        shared.append("the shop's address")
    same = " and ".join(filter(None, shared))
    if same and not audited.is_withdrawn:
        said = say("owner-at-the-shop", owner=owner.name or "not named", shared=same)
        yield audited.irregular(said, {"phone": owner.phone, "email": owner.email}, "look")


def use_unlike_owner(audited: AuditedClaim, _measures: Measures) -> Iterator[Irregularity]:
    """Household use by an owner whose name is that of a business, or any other use than rental by one who rents out.

    Source: common practice, no source.
    """
    claim = audited.claim
    words = set(word_set(claim.owner.name)) & _FIRMS
    if audited.is_withdrawn or not words:
        return
    # rental use nearly always has the shorter cover, so that professional gains by it
    rents = bool(words & {"rental", "rentals", "hire"})
    # household cover is nearly always the longest, and a business has no household
    if claim.unit.use == "household" or (rents and claim.unit.use == "professional"):
        said = say("use-unlike-owner", use=claim.unit.use, owner=claim.owner.name)
        yield audited.irregular(said, {"use": str(claim.unit.use)}, "look")


def household_works_hard(audited: AuditedClaim, measures: Measures) -> Iterator[Irregularity]:
    """A unit in household use whose meter ran more hours a week than a household has use for.

    Source: a rule of this tool's, no source.
    """
    claim, hours = audited.claim, audited.claim.unit.hours_run
    sold = claim.dates.in_service or claim.dates.delivered or claim.dates.purchased
    if claim.unit.use != "household" or hours is None or sold is None or audited.is_withdrawn:
        return
    days = ((claim.dates.failed or claim.dates.presented) - sold).days
    weeks = max(1, days // 7)
    # in its first fortnight any machine is tried out
    if hours > measures.household_week * max(weeks, 2):
        a_week = plain((hours / weeks).quantize(Decimal(1)))
        rate = plain((7 * hours / max(days, 7)).quantize(Decimal("0.1")))
        since = {"after": how_many(days, "day"), "since": sold, "weeks": weeks}
        said = say("household-works-hard", hours=plain(hours), a_week=a_week, rate=rate, **since)
        yield audited.irregular(said, {"hours": plain(hours), "since": f"{sold}"}, "look")


class Owned(NamedTuple):
    """A unit of one owner, as one claim tells it."""

    claim: str
    unit: str
    owner: str


def units_of_owners(audited: AuditedClaim) -> Iterator[tuple[GroupKey, Owned]]:
    """The units in household use of owners who are told apart by more than their name; at work many are usual."""
    known, unit = owner_key(audited), audited.claim.unit
    if known and audited.unit_key and unit.use == "household" and not audited.is_withdrawn:
        yield known, Owned(audited.number, audited.unit_key, audited.claim.owner.name)


def owner_key(audited: AuditedClaim) -> tuple[tuple[str, ...], str] | None:
    """Who the owner is, by name and by phone, mail or address; None where the name alone is known."""
    owner = audited.claim.owner
    # two people of one name are common, two of one name and phone are not
    reached = phone_digits(owner.phone) or folded(owner.email) or folded(owner.address)
    return (name_words(owner.name), reached) if owner.name and reached else None


def many_units_of_one(owned: Sequence[Owned], measures: Measures) -> Iterator[Irregularity]:
    """A person with claims on more units in household use than a household has.

    Source: a rule of this tool's, no source.
    """
    units = {each.unit for each in owned}
    if len(units) >= measures.household_units:
        claims = tuple(sorted({each.claim for each in owned}))
        said = say("many-units-of-one", owner=owned[0].owner, count=len(units), claims=listed(claims))
        yield Irregularity((said,), claims, "look", {"units": str(len(units))})


PEOPLE_RULES = (
    OneClaimRule("owner-is-staff", "The owner works in the shop.", PRACTICE, owner_is_staff),
    OneClaimRule("owner-at-the-shop", "The owner is reached at the shop.", PRACTICE, owner_at_the_shop),
    OneClaimRule("use-unlike-owner", "The use does not fit the owner's name.", PRACTICE, use_unlike_owner),
    OneClaimRule(
        "household-works-hard", "A unit in household use runs as one at work does.", OURS, household_works_hard
    ),
    AcrossRule(
        "many-units-of-one",
        "One person has claims on many units in household use.",
        OURS,
        units_of_owners,
        many_units_of_one,
    ),
)
"""The rules about people."""
