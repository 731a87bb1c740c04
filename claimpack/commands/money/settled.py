"""What the commands share that follow a filed claim: a step taken, and where it leaves the claim told."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from contextlib import contextmanager
from typing import TYPE_CHECKING, NamedTuple

from claimpack.errors import BadInput, ClaimpackError

if TYPE_CHECKING:
    from datetime import date

    from claimpack.commands.desk.changing import Changing
    from claimpack.commands.desk.desk import Desk
    from claimpack.commands.desk.world import World
    from claimpack.core.claims.claim import Claim
    from claimpack.core.events.events import NewEvent
    from claimpack.core.events.standing import Standing
    from claimpack.core.steps.settling import Step


_GIVEN = {"on": "--on", "why": "--because"}


class Taken(NamedTuple):
    """A step taken: the claim, where it stands after it, what was recorded, and the verdict."""

    desk: Desk
    claim: Claim
    standing: Standing
    new_event: NewEvent
    verdict: str = ""

    @property
    def next_steps(self) -> tuple[str, ...]:
        """What to do next with the claim, a sentence each; empty where nothing is left."""
        from claimpack.core.payment.next_step import what_next
        from claimpack.core.steps.listed import is_favour

        return what_next(self.claim.number, self.standing, is_favour=is_favour(self.verdict))


def take(
    world: World,
    claim: str,
    step: Callable[[Standing, Step], NewEvent],
    on: str = "",
    why: str = "",
    today: str = "",
) -> Taken:
    """Take one step with a claim of the book, and record it; as `take_all` does with several."""
    return take_all(world, {claim: step}, on, why, today)[0]


def take_all(
    world: World,
    steps: Mapping[str, Callable[[Standing, Step], NewEvent]],
    on: str = "",
    why: str = "",
    today: str = "",
) -> list[Taken]:
    """Take a step with each of several claims of the book, and record them all, or none.

    Args:
        world: the world the command runs in.
        steps: what decides the step, by the claim's number.
        on: the day it counts from, as written; empty for today.
        why: the reason, as written.
        today: the day it is, as written.

    Raises:
        ClaimpackError: there is no such claim, or the step cannot be taken; of several, which claim it is.
    """
    from claimpack.commands.desk.desk import Desk
    from claimpack.commands.desk.one_claim import number_of
    from claimpack.commands.desk.options import a_date

    desk = Desk(world, today)
    day = a_date(on, "--on") if on else desk.day
    numbers = [number_of(claim) for claim in steps]
    events = []
    with desk.changing_all(numbers) as changings:
        for changing, step in zip(changings, steps.values(), strict=True):
            # of one claim it is known which is meant
            with _named(changing.claim.number if len(numbers) > 1 else ""):
                events.append(_one(desk, changing, step, day, why))
    return [
        Taken(desk, each.claim, each.standing, new_event, each.verdict)
        for each, new_event in zip(changings, events, strict=True)
    ]


def _one(desk: Desk, changing: Changing, step: Callable[[Standing, Step], NewEvent], day: date, why: str) -> NewEvent:
    from claimpack.core.facts.keys import record_from
    from claimpack.core.steps.questioning import with_what_was_asked
    from claimpack.core.steps.settling import Step, refuse_impossible_day

    number, standing = changing.claim.number, changing.entry.standing
    taken = record_from(Step, {"on": day, "why": why, "claim": number}, number, _GIVEN)
    new_event = step(standing, taken)
    # after the step has said what it is: which days are possible depends on it
    refuse_impossible_day(standing, new_event, desk.day)
    changing.keep(with_what_was_asked(changing.claim, standing, new_event), new_event)
    return new_event


@contextmanager
def _named(number: str) -> Iterator[None]:
    """Let a refusal begin with the number of the claim it is about, where there are several."""
    try:
        yield
    except ClaimpackError as error:
        if not number:
            raise
        none = f"{error.why} Nothing was recorded of any claim.".strip()
        # the same kind of refusal, so that its exit code stays
        raise type(error)(f"{number}: {error.what}", none, error.do, error.problems) from None


def each_once(claims: Sequence[str]) -> list[str]:
    """The numbers of claims, as they were named.

    Raises:
        BadInput: one is named twice.
    """
    twice = next((claim for place, claim in enumerate(claims) if claim in claims[:place]), None)
    if twice:
        raise BadInput(f"claim {twice} is named twice", "It would take the step twice.", "Name every claim once.")
    return list(claims)


def tell(taken: Taken, *, json: bool, notes: tuple[str, ...] = ()) -> int:
    """Say where the claim stands now; the exit code is done."""
    return tell_all([taken], [notes], json=json)


def tell_all(all_taken: Sequence[Taken], notes: Sequence[tuple[str, ...]], *, json: bool) -> int:
    """Say where every claim stands now, and of several what came in and is outstanding in all."""
    from claimpack.commands.desk.say import Say
    from claimpack.core.payment.ledger import money_facts, standing_in_words, state_in_words
    from claimpack.core.steps.paying import what_was_undone

    say = Say(all_taken[0].desk.world)
    if json:
        facts = [money_facts(taken.claim.number, taken.standing) for taken in all_taken]
        totals = {name: _sums(all_taken, name) for name in ("recorded", "outstanding")}
        say.document({"claims": facts, "totals": totals} if len(facts) > 1 else facts[0])
        return 0
    for taken, told in zip(all_taken, notes, strict=True):
        money = f": {standing_in_words(taken.standing)}" if taken.standing.filed else ""
        say.answer(f"{taken.claim.number} is {state_in_words(taken.standing)}{money}")
        undone = what_was_undone(taken.new_event, taken.standing.currency)
        for note in (undone, *told) if undone else told:
            say.note(note)
    if len(all_taken) > 1:
        sums = {
            name: " + ".join(f"{sum_} {code}".strip() for code, sum_ in _sums(all_taken, name).items())
            for name in ("recorded", "outstanding")
        }
        recorded = f"{sums['recorded']} recorded, " if sums["recorded"] else ""
        say.answer(f"{len(all_taken)} claims: {recorded}outstanding {sums['outstanding']}")
    return 0


def _sums(all_taken: Sequence[Taken], name: str) -> dict[str, str]:
    """What was recorded in one go, or is outstanding of the claims, by currency."""
    from claimpack.core.values.money import coins, exact, plain, summed

    if name == "outstanding":
        amounts = [(taken.standing.currency, taken.standing.outstanding) for taken in all_taken]
    else:
        told = ((taken.standing.currency, taken.new_event.facts.get("amount")) for taken in all_taken)
        # answers and withdrawals move no money
        amounts = [(currency, exact(amount)) for currency, amount in told if amount]
    return {code: plain(coins(amount, code)) for code, amount in summed(amounts).items()}
