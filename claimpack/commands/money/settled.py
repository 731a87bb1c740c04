"""What the commands share that follow a filed claim: a step taken, and where it leaves the claim told."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING, NamedTuple

if TYPE_CHECKING:
    from claimpack.commands.desk.desk import Desk
    from claimpack.commands.desk.world import World
    from claimpack.core.claims.claim import Claim
    from claimpack.core.steps.claim_state import Standing
    from claimpack.core.steps.events import NewEvent
    from claimpack.core.steps.settling import Step


_GIVEN = {"on": "--on", "why": "--because"}


class Taken(NamedTuple):
    """A step taken: the claim, where it stands after it, and what was recorded."""

    desk: Desk
    claim: Claim
    standing: Standing
    new_event: NewEvent


def take(
    world: World,
    claim: str,
    step: Callable[[Standing, Step], NewEvent],
    on: str = "",
    why: str = "",
    today: str = "",
) -> Taken:
    """Take one step with a claim of the book, and record it.

    Args:
        world: the world the command runs in.
        claim: its number.
        step: what decides the step.
        on: the day it counts from, as written; empty for today.
        why: the reason, as written.
        today: the day it is, as written.

    Raises:
        ClaimpackError: there is no such claim, or the step cannot be taken.
    """
    from claimpack.commands.desk.desk import Desk
    from claimpack.commands.desk.gather import a_date
    from claimpack.commands.desk.one_claim import number_of
    from claimpack.core.claims.keys import record_from
    from claimpack.core.steps.settling import Step, refuse_impossible_day

    desk = Desk(world, today)
    day = a_date(on, "--on") if on else desk.day
    taken = record_from(Step, {"on": day, "why": why, "claim": number_of(claim)}, claim, _GIVEN)
    with desk.changing(number_of(claim)) as changing:
        standing = changing.entry.standing
        new_event = step(standing, taken)
        refuse_impossible_day(standing, new_event, desk.day)
        changing.keep(changing.claim, new_event)
    return Taken(desk, changing.claim, changing.standing, new_event)


def tell(taken: Taken, *, json: bool, notes: tuple[str, ...] = ()) -> int:
    """Say where the claim stands now; the exit code is done."""
    from claimpack.commands.desk.say import Say
    from claimpack.core.payment.ledger import money_facts, standing_in_words, state_in_words
    from claimpack.core.steps.paying import what_was_undone

    say, number = Say(taken.desk.world), taken.claim.number
    if json:
        say.document(money_facts(number, taken.standing))
        return 0
    money = f": {standing_in_words(taken.standing)}" if taken.standing.filed else ""
    say.answer(f"{number} is {state_in_words(taken.standing)}{money}")
    undone = what_was_undone(taken.new_event, taken.standing.currency)
    for note in (undone, *notes) if undone else notes:
        say.note(note)
    return 0
