"""What may follow where a claim or a held part stands, and the commands that take it further."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from decimal import Decimal

from claimpack.core.claims.part_codes import PartCode
from claimpack.core.events.event_kinds import EVENT_KINDS, PART_WAYS, WAYS, Condition, EventKind, either
from claimpack.core.events.events import NewEvent
from claimpack.core.events.standing import Standing
from claimpack.core.events.states import PENDING, PartState, State, told_state
from claimpack.core.values.money import in_money
from claimpack.errors import WrongState

CLAIM = "CLAIM"
"""What stands for a claim's number where it is not known."""

EventFacts = Mapping[str, str]

_HOLDS: Mapping[Condition, Callable[[Standing, EventFacts], bool]] = {
    "a rest is refused": lambda claim, _: bool(claim.refused_rest),
    "a rest was let go": lambda claim, _: bool(claim.rest_written_off),
    # undone, a charge-back takes the write-off of it along
    "a charge-back was written off": lambda claim, _: (
        claim.state == "written off" and bool(claim.payments) and not claim.payments[-1].came_in
    ),
    # it was accepted by paying all of it; the written answer comes after
    "it was accepted without an answer": lambda claim, _: claim.state == "accepted" and not claim.answers,
    "an answer is there": lambda claim, _: bool(claim.answers),
    "another day is named": lambda claim, facts: (
        bool(facts.get("send_by")) and _part_state(claim, facts) == "called back"
    ),
    "money is kept": lambda claim, _: claim.paid > 0,
    "money moved while the maker has it": lambda claim, _: bool(claim.payments) and claim.state in PENDING,
    "a payment is there": lambda claim, _: bool(claim.payments),
    # and settled the claim
    "the answer came after the money": lambda claim, _: (
        claim.state == "paid" and bool(claim.answers) and claim.answers[-1].after == len(claim.payments)
    ),
}
"""When each condition of the events holds."""


def may_follow(standing: Standing, new_event: NewEvent, number: str = CLAIM) -> None:
    """Refuse what does not follow from where a claim or one of its parts stands.

    Args:
        standing: where the claim stands.
        new_event: what is about to be recorded.
        number: the claim's number, for the message.

    Raises:
        WrongState: it does not follow; the message names the state, what may happen in it, and the commands.

    Source: the states of a claim and of a held part are this tool's, no source.
    """
    kind = EVENT_KINDS[new_event.what]
    if _follows(kind, standing, new_event.facts):
        return
    if kind.of_a_part:
        raise _part_refusal(kind, standing, PartCode(number, int(new_event.facts["part"])))
    raise _refusal(kind, standing, number)


def filed_otherwise(standing: Standing, number: str, claimed: Decimal) -> str:
    """That a claim went to the maker at another amount than it comes to now, and how to send it again where that goes.

    Empty where it is not with the maker, or comes to what was filed.

    Source: a rule of this tool's, no source.
    """
    if standing.state not in PENDING or standing.claimed == claimed:
        return ""
    at = f"{number} was filed at {in_money(standing.claimed, standing.currency)}"
    if _follows(EVENT_KINDS["filed"], standing, {}):
        return f"{at}; send it again: claimpack file {number}"
    return f"{at}; the maker has that version, and this one can be sent when it asks or refuses."


def _follows(kind: EventKind, standing: Standing, facts: EventFacts) -> bool:
    if kind.follows is None:
        return True
    # what speaks against it goes before the state that would allow it
    if kind.unless and _HOLDS[kind.unless](standing, facts):
        return False
    state = _part_state(standing, facts) if kind.of_a_part else standing.state
    return state in kind.follows or any(_HOLDS[condition](standing, facts) for condition in kind.besides)


def _part_state(standing: Standing, facts: EventFacts) -> PartState:
    return standing.part(int(facts["part"])).state


def _cannot(kind: EventKind) -> str:
    return kind.cannot or f"be {kind.name.removeprefix('part ')}"


def _refusal(kind: EventKind, standing: Standing, number: str) -> WrongState:
    state, there = standing.state, [one for one in EVENT_KINDS.values() if _is_possible(one, standing)]
    ahead = either([_in_words(one, standing) for one in there if one.can])
    why = f"What can happen to {_A.get(state, f'a {state} claim')}: {ahead}."
    if kind.unless and _HOLDS[kind.unless](standing, {}):
        why = f"{in_money(standing.paid, standing.currency)} was paid for it. {why}"
    ways = [EVENT_KINDS[name] for name in (*WAYS[state], *([kind.rather] if kind.rather else []))]
    do = "; ".join(f"{way.way[0]}: {way.way[1].format(number=number)}" for way in ways if way.way and way in there)
    return WrongState(
        f"the claim is {told_state(state)}, so it cannot {_cannot(kind)} now", why, f"{do[:1].upper()}{do[1:]}"
    )


_A: Mapping[State, str] = {
    "draft": "a draft",
    "accepted": "an accepted claim",
    "written off": "a claim that is written off",
    "withdrawn": "a claim that is withdrawn",
}


def _is_possible(kind: EventKind, standing: Standing) -> bool:
    """Whether an event of a claim may follow, and there is something to take back where it takes something back."""
    # ways on are told of the claim; what follows in any state is no help to somebody who is stuck
    if kind.of_a_part or kind.follows is None or not _follows(kind, standing, {}):
        return False
    return not kind.needs or _HOLDS[kind.needs](standing, {})


def _in_words(kind: EventKind, standing: Standing) -> str:
    if not kind.again:
        return kind.can
    when, said = kind.again
    before = bool(standing.filed) if when == "filed before" else _HOLDS[when](standing, {})
    return said if before else kind.can


def _part_refusal(kind: EventKind, standing: Standing, code: PartCode) -> WrongState:
    state = standing.part(code.nth).state
    there = [one for one in EVENT_KINDS.values() if one.of_a_part and state in (one.follows or ())]
    # undoing is told by the command below, and not as something that can be done to a part
    possible = [one.name.removeprefix("part ") for one in there if not one.takes_back]
    is_in = (
        "the maker did not call the part back"
        if (kind.name, state) == ("part sent", "held")
        else f"the held part is {state}"
    )
    return WrongState(
        f"{is_in}, so it cannot {_cannot(kind)} now",
        f"From {state} it can be: {', '.join(possible) or 'nothing more'}.",
        PART_WAYS[state].format(code=code, number=code.claim),
    )
