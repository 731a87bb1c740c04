"""What is doubtful about labour as it is written down: more hours than anybody works, two things at one time."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from claimpack.book.tables.entries import Clock
    from claimpack.commands.desk.desk import Desk
    from claimpack.core.facts.lines import Labour
    from claimpack.core.pricing.working_time import Stretch


def doubts_about(desk: Desk, number: str, entry: Labour, stops: Clock | None = None) -> list[str]:
    """What to say of an entry that is about to go on a claim, beside the technician's other time in the book.

    Args:
        desk: the shop's book and plans.
        number: the claim.
        entry: the labour, not yet on the claim.
        stops: the running clock that it comes from.
    """
    from claimpack.core.pricing.working_time import at_one_time, long_in_words, overlap_in_words, stretches

    told = [long_in_words(entry)]
    for new in stretches(number, [entry]):
        plan = desk.plan_of(desk.book.get(number).claim)
        others = [*_in_the_book(desk, new), *_running(desk, new, stops)]
        told.append(overlap_in_words(new, at_one_time(new, others, plan), desk.world.shown))
    return [doubt for doubt in told if doubt]


def _in_the_book(desk: Desk, new: Stretch) -> list[Stretch]:
    from claimpack.book.lookups import claims_worked_on
    from claimpack.core.pricing.working_time import stretches

    entries = claims_worked_on(desk.book.engine, new.technician, new.started, new.ended)
    # what was taken back asks for no time
    counted = [entry.claim for entry in entries if entry.standing.state != "withdrawn"]
    return [stretch for claim in counted for stretch in stretches(claim.number, claim.labour)]


def _running(desk: Desk, new: Stretch, stops: Clock | None) -> list[Stretch]:
    from claimpack.core.pricing.working_time import Stretch

    # a clock that runs may run on through the new entry
    now = max(desk.world.now(), new.ended)
    return [
        Stretch(clock.claim, clock.technician, clock.operation, clock.started, now, runs=True)
        for clock in desk.book.clocks()
        if clock != stops
    ]
