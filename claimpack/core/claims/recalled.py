"""What an earlier claim tells of a unit, or of an owner, that may be true of a new one; somebody has to say so."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from claimpack.core.claims.claim import Claim
from claimpack.core.values.words import run_on

Facts = dict[str, Any]
"""What is known, by dotted key; a serial by its role."""

_OF_THE_UNIT = ("kind", "model_year", "use", "built", "sold_in")
_OF_ITS_SALE = ("purchased", "delivered", "in_service", "registered", "never_registered")
_OF_THE_OWNER = ("name", "phone", "email", "address")


def unit_facts(claim: Claim) -> Facts:
    """What stays true of a unit from one visit to the next: no reading, no failure, and nothing of its owner.

    Source: common practice, no source.
    """
    unit, dates = claim.unit, claim.dates
    facts: Facts = {f"unit.{key}": getattr(unit, key, None) for key in _OF_THE_UNIT}
    facts |= {f"unit.serials.@{serial.role}": serial.value for serial in unit.serials}
    facts |= {f"dates.{key}": getattr(dates, key) or None for key in _OF_ITS_SALE}
    if unit.meter is False:
        facts["unit.meter"] = False
    return {key: value for key, value in facts.items() if value not in (None, "")}


def owner_facts(claim: Claim, *, of_the_unit: bool = False) -> Facts:
    """Who an owner is; of a unit's owner also how the purchase is shown, and whether it was sold to them new."""
    facts: Facts = {f"owner.{key}": getattr(claim.owner, key) for key in _OF_THE_OWNER}
    if of_the_unit:
        facts |= {"owner.first_owner": claim.owner.first_owner, "proof.kind": claim.proof.kind}
        facts["proof.file"] = claim.proof.file
    return {key: value for key, value in facts.items() if value not in (None, "")}


def owners_by_phone(claims: Iterable[Claim], phone: str) -> list[Claim]:
    """The claims whose owner has that phone, one for each owner, in their order; owners without a name are left out."""
    found: dict[tuple[str, ...], Claim] = {}
    for claim in claims:
        owner = claim.owner
        if owner.name and run_on(owner.phone) == run_on(phone):
            found.setdefault(tuple(run_on(getattr(owner, key)) for key in ("name", "email", "address")), claim)
    return list(found.values())


def facts_in_words(facts: Facts) -> str:
    """Facts on one line, for somebody who says whether they still hold."""
    days = {"purchased": "bought", "delivered": "delivered", "in_service": "in use since", "registered": "registered"}
    said = []
    for key, value in facts.items():
        name = key.rpartition(".")[2]
        if name.startswith("@"):
            said.append(f"{name[1:]} {value}")
        elif name in days:
            said.append(f"{days[name]} {value}")
        elif isinstance(value, bool):
            said.append(_TRUTHS[name, value])
        elif name != "file":
            said.append(" / ".join(str(value).splitlines()))
    return ", ".join(said)


_TRUTHS = {
    ("meter", False): "no hour meter",
    ("never_registered", True): "never registered",
    ("first_owner", True): "first owner",
    ("first_owner", False): "not the first owner",
}
