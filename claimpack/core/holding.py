"""Held parts: what the tag on each must say."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from claimpack.core.cautions import cautions_for, hazard_of
from claimpack.core.claim import Claim
from claimpack.core.periods import moved
from claimpack.core.plan import Plan


@dataclass(frozen=True)
class TagFacts:
    """What one tag says; texts are empty and dates None where the claim does not know.

    `hold_in_short` is the rule of the hold in fewer words, for tags without room for `hold_terms`.
    """

    claim: str
    index: int
    of: int
    maker: str
    model: str
    serial: str
    part: str
    part_number: str
    part_serial: str
    failed_on: date | None
    held_since: date | None
    hold_until: date | None
    hold_terms: str
    shelf: str
    boxed: bool
    drained: bool | None
    hazard: str
    cautions: tuple[str, ...]
    hold_in_short: str = ""

    @property
    def code(self) -> str:
        """What both barcodes carry: claim number, a slash, the part's index from 1."""
        return f"{self.claim}/{self.index}"


def tags(claim: Claim, plan: Plan | None, filed: date | None = None, paid: date | None = None) -> tuple[TagFacts, ...]:
    """The facts for one tag a held part, in the order of the claim.

    Args:
        claim: the claim with its held parts.
        plan: the plan whose hold applies, if one was found.
        filed: the day the claim was filed, when it was.
        paid: the day it was paid, when it was.

    Source: common practice, no source; how long a part is held is the plan's.
    """
    until, terms = hold(claim, plan, filed, paid)
    return tuple(
        TagFacts(
            claim=claim.number,
            index=index,
            of=len(claim.held),
            maker=(plan.maker_name if plan else "") or claim.maker,
            model=claim.unit.model,
            serial=claim.unit.serial("unit") or (claim.unit.serials[0].value if claim.unit.serials else ""),
            part=held.part,
            part_number=held.number,
            part_serial=held.serial,
            failed_on=claim.dates.failed,
            held_since=held.since,
            hold_until=until,
            hold_terms=terms,
            shelf=held.shelf,
            boxed=held.boxed,
            drained=held.drained,
            hazard=hazard_of(held, claim.unit),
            cautions=cautions_for(hazard_of(held, claim.unit), drained=held.drained),
            hold_in_short=_in_short(plan),
        )
        for index, held in enumerate(claim.held, start=1)
    )


def _in_short(plan: Plan | None) -> str:
    if plan is None or plan.hold is None:
        return "until released"
    start = {"filed": "filing", "paid": "payment", "repaired": "repair"}[plan.hold.of]
    return f"{plan.hold.for_.in_words()} from {start}"


def hold(claim: Claim, plan: Plan | None, filed: date | None, paid: date | None) -> tuple[date | None, str]:
    """The last day a failed part must be kept, and the rule in words; the day is None while its start is unknown."""
    if plan is None or plan.hold is None:
        return None, "until the maker releases it"
    start = {"filed": filed, "paid": paid, "repaired": claim.dates.repaired}[plan.hold.of]
    terms = f"{plan.hold.for_.in_words()} from the day it is {plan.hold.of}, or until the maker releases it"
    return (moved(start, plan.hold.for_) if start else None), terms
