"""A claim closed because the owner declined the repair, and taken up again: what `withdraw` and `reopen` do then."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from claimpack.commands.desk.desk import Desk
    from claimpack.commands.desk.world import World
    from claimpack.commands.money.settled import Taken
    from claimpack.core.steps.settling import Step


def decline(world: World, number: str, on: str, why: str, today: str) -> tuple[Taken, tuple[str, ...]]:
    """Close a claim unfiled; what was taken and what is to be done.

    Raises:
        ClaimpackError: there is no such claim, or the step cannot be taken.
    """
    from claimpack.commands.money.settled import Taken
    from claimpack.core.steps.declining import declined, what_became, what_it_cost

    desk, step = _at_the_desk(world, number, on, why, today)
    with desk.changing(number) as changing:
        before = changing.claim
        after, event = declined(before, changing.entry.standing, step)
        changing.keep(after, event)
    # what finding the fault cost is the owner's to pay, at the shop's own rate
    own_rate = desk.shop.settings.retail(after.dates.repaired or desk.day).labour_rate
    cost = what_it_cost(desk.assess(desk.book.get(number)), own_rate)
    return Taken(desk, after, changing.standing, event), (*what_became(before), *cost)


def take_up_again(world: World, number: str, on: str, why: str, today: str) -> Taken | None:
    """Take up a claim that was declined, as it was before; None for one that was not.

    Raises:
        ClaimpackError: there is no such claim, or the step cannot be taken.
    """
    from claimpack.book.lookups import versions
    from claimpack.commands.money.settled import Taken
    from claimpack.core.steps.declining import before_it_was_declined
    from claimpack.core.steps.paying import reopened

    desk, step = _at_the_desk(world, number, on, why, today)
    entry = desk.book.get(number)
    if entry.claim.case != "declined":
        return None
    earlier = [version for _, version in versions(desk.book.engine, number, 1, entry.revision)]
    # by the revision looked at, since the earlier ones were read before the claim was locked
    with desk.changing(number, entry.revision) as changing:
        event = reopened(changing.entry.standing, step)
        after = before_it_was_declined(changing.claim, reversed(earlier))
        changing.keep(after, event)
    return Taken(desk, after, changing.standing, event)


def _at_the_desk(world: World, number: str, on: str, why: str, today: str) -> tuple[Desk, Step]:
    from claimpack.commands.desk.desk import Desk
    from claimpack.commands.desk.options import a_date
    from claimpack.core.facts.keys import record_from
    from claimpack.core.steps.settling import Step, refuse_day_ahead

    desk = Desk(world, today)
    day = a_date(on, "--on") if on else desk.day
    refuse_day_ahead(day, desk.day)
    return desk, record_from(Step, {"on": day, "why": why, "claim": number}, number, {"why": "--because"})
