"""Held parts: what the tag on each must say."""

from __future__ import annotations

from datetime import date
from typing import NamedTuple

from claimpack.core.claims.claim import Claim
from claimpack.core.holding.cautions import CARRIER, cautions_for, hazard_of
from claimpack.core.holding.hold import ClaimsHold


class TagFacts(NamedTuple):
    """What one tag says; texts are empty and dates None where the claim does not know.

    `hold_in_short` is the rule of the hold in fewer words, for tags without room for `hold_terms`. `shop` and
    `dealer_number` say where a part that was sent away belongs.
    """

    claim: str
    place: int
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
    shop: str = ""
    dealer_number: str = ""

    @property
    def code(self) -> str:
        """What both barcodes carry: claim number, a slash, the part's index from 1."""
        return f"{self.claim}/{self.place}"

    @property
    def cautions_on_the_way(self) -> tuple[str, ...]:
        """The cautions for whoever packs it; where it is dangerous, that carriers have rules of their own."""
        return self.cautions if self.hazard == "none" else (*self.cautions, CARRIER)

    def of_shop(self, shop: str, dealer_number: str) -> TagFacts:
        """The same tag with the shop it comes from, and the number the maker knows that shop by."""
        return self._replace(shop=shop, dealer_number=dealer_number)


def tags(claim: Claim, maker: str, hold: ClaimsHold) -> tuple[TagFacts, ...]:
    """The facts for one tag a held part, in the order of the claim.

    Args:
        claim: the claim with its held parts.
        maker: the one name the maker goes by.
        hold: how long failed parts are kept.

    Source: common practice, no source; how long a part is held is the plan's.
    """
    return tuple(
        TagFacts(
            claim=claim.number,
            place=place,
            of=len(claim.held),
            maker=maker,
            model=claim.unit.model,
            serial=claim.unit.own_serial or claim.part_sold.serial,
            part=held.part,
            part_number=held.number,
            part_serial=held.serial,
            failed_on=claim.dates.failed,
            held_since=held.since,
            hold_until=hold.until,
            hold_terms=hold.rule.terms,
            shelf=held.shelf,
            boxed=held.boxed,
            drained=held.drained,
            hazard=hazard_of(held, claim.unit),
            cautions=cautions_for(hazard_of(held, claim.unit), drained=held.drained),
            hold_in_short=hold.rule.in_short,
        )
        for place, held in enumerate(claim.held, start=1)
    )
