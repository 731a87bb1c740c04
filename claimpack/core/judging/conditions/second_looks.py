"""What does not keep a claim from being filed, and a maker may ask about all the same."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date

from claimpack.core.facts.lines import Part
from claimpack.core.judging.conditions.missing_items import ClaimFacts, MissingItem, MissingItemRule
from claimpack.core.pricing.labour import hardly_worked
from claimpack.core.pricing.parts import pieces_paid
from claimpack.core.values.money import plain
from claimpack.core.values.wording.sentence import say


def meter(facts: ClaimFacts) -> list[MissingItem]:
    """No reading of an hour meter that is said not to be there.

    Source: a rule of this tool's, no source.
    """
    unit = facts.claim.unit
    # hours are judged by the reading; that the unit is said to have no meter makes one of the two wrong
    if unit.has_hour_meter is not False or unit.hours_run is None:
        return []
    why = say("why.meter", hours=plain(unit.hours_run))
    return [MissingItem(what=say("missing.meter"), why=why, blocks_filing=False)]


def part_costs(facts: ClaimFacts) -> list[MissingItem]:
    """A cost for every part that came from the shop and that the maker pays for, not with a kit.

    Source: a rule of this tool's, no source; a part without a cost is paid nothing for.
    """
    # a part that comes in a kit costs nothing of its own
    paid = [pieces.part for pieces in pieces_paid(facts.claim.parts, facts.plan) if pieces.paid]
    free = [part for part in paid if _is_of_maker(part, facts) and part.source == "stock" and not part.unit_cost]
    why = say("why.part-cost")
    return [MissingItem(what=say("missing.part-cost", part=part.name), why=why, blocks_filing=False) for part in free]


def _is_of_maker(part: Part, facts: ClaimFacts) -> bool:
    return part.payer == "maker" and part.failure not in facts.closed


def list_prices(facts: ClaimFacts) -> list[MissingItem]:
    """A list price for every part the maker sent, where it adds handling to them by that.

    Source: a rule of this tool's, no source; without one the handling is not claimed.
    """
    if not facts.plan.pays.handling_on_supplied:
        return []
    sent = [part for part in facts.claim.parts if _is_of_maker(part, facts) and part.source == "maker"]
    why = say("why.list-price")
    return [
        MissingItem(what=say("missing.list-price", part=part.name), why=why, blocks_filing=False)
        for part in sent
        if part.list_price is None
    ]


def dealer_level(facts: ClaimFacts) -> list[MissingItem]:
    """The shop's level with the maker, where its labour rates go by that and labour is claimed.

    Source: a rule of this tool's, no source; without it no rate of a level is claimed.
    """
    by_level = any(rate.level for rate in facts.plan.pays.labour_rates)
    # without a level a rate for any level is claimed, or the plan's plain one: a claim that may be too low, not wrong
    if not by_level or facts.level or not any(entry.payer == "maker" for entry in facts.claim.labour):
        return []
    return [MissingItem(what=say("missing.dealer-level"), why=say("why.dealer-level"), blocks_filing=False)]


def labour_clocks(facts: ClaimFacts) -> list[MissingItem]:
    """No clock that shows hardly anything of what the time schedule claims.

    Source: a rule of this tool's, no source; the hours are the plan's.
    """
    lacking = []
    for found in hardly_worked(facts.claim, facts.plan):
        why = say("why.hardly-worked", claimed=plain(found.claimed), worked=plain(found.worked))
        lacking.append(
            MissingItem(what=say("missing.labour-clock", operation=found.name), why=why, blocks_filing=False)
        )
    return lacking


def photo_dates(facts: ClaimFacts) -> list[MissingItem]:
    """No picture older than the unit, or younger than today; pictures of the same cause are told together.

    Source: a rule of this tool's, no source.
    """
    dates = facts.claim.dates
    earliest = min((day for day in (facts.claim.unit.built, dates.purchased, dates.delivered) if day), default=None)
    days = [(file, taken.date()) for file, taken in facts.taken.items() if taken]
    early = [(file, on) for file, on in days if earliest and on < earliest]
    # cameras with a wrong clock date all pictures alike, hence one doubt for all of them and not one each
    late = [(file, on) for file, on in days if on > facts.today]
    found = (("why.photo-early", early, {"earliest": earliest}), ("why.photo-late", late, {"today": facts.today}))
    return [_doubtful(why, pictures, **than) for why, pictures, than in found if pictures]


def _doubtful(why: str, pictures: Sequence[tuple[str, date]], **than: object) -> MissingItem:
    """One thing to look at for all pictures of the same cause."""
    files = ", ".join(file for file, _ in pictures)
    taken = ", ".join(str(on) for on in sorted({on for _, on in pictures}))
    return MissingItem(say("missing.photo-date", file=files), say(why, taken=taken, **than), blocks_filing=False)


def owner(facts: ClaimFacts) -> list[MissingItem]:
    """The owner's name.

    Source: common practice, no source.
    """
    if facts.claim.owner.name:
        return []
    return [MissingItem(what=say("missing.owner"), why=say("why.owner"), blocks_filing=False)]


def part_goes_first(facts: ClaimFacts) -> list[MissingItem]:
    """That the failed part goes back first, where the plan pays when it is there.

    Source: common practice, no source; the condition is the plan's.
    """
    if not facts.plan.requires.part_returned_first or not facts.claim.held:
        return []
    return [MissingItem(say("missing.part-first"), say("why.part-first"), blocks_filing=False)]


SECOND_LOOKS: tuple[MissingItemRule, ...] = (
    meter,
    part_costs,
    list_prices,
    dealer_level,
    labour_clocks,
    photo_dates,
    part_goes_first,
    owner,
)
"""Every one of them, in the order they are told."""
