"""Ending: a claim given up, taken back, or taken up again; each decided here before it is recorded."""

from __future__ import annotations

from claimpack.core.event_kinds import Kind
from claimpack.core.events import Happening
from claimpack.core.following import may_follow
from claimpack.core.money import plain
from claimpack.core.settling import Step, recorded, refuse_without_reason
from claimpack.core.states import Standing
from claimpack.errors import BadInput


def written_off(standing: Standing, step: Step, rest_only: bool = False) -> Happening:
    """What is recorded when the shop gives up what is outstanding, and what the maker refused of a claim.

    Args:
        standing: where the claim stands.
        step: the day, and why.
        rest_only: whether only what the maker refused is given up, and what it accepted is still waited for.

    Raises:
        WrongState: nothing can be written off.
        BadInput: there is no reason, or no part of it is refused and still open.

    Source: common practice, no source.
    """
    may_follow(standing, Happening(what="written off", on=step.on), step.claim)
    refuse_without_reason(step)
    rest = standing.refused_rest
    if rest_only and not rest:
        raise BadInput(
            "--rest: no part of the claim is refused and still open",
            "It gives up what the maker did not accept when it accepted a part, and nothing else.",
            f"Leave it out to give up what is outstanding; see: claimpack show {step.claim}",
        )
    amount = rest if rest_only else rest + standing.outstanding
    facts = {"amount": plain(amount) if amount else "", "rest": plain(rest) if rest else ""}
    return recorded("written off", step, facts)


def withdrawn(standing: Standing, step: Step) -> Happening:
    """What is recorded when the shop takes a claim back.

    Raises:
        WrongState: it is settled, or money came in for it.
        BadInput: there is no reason.

    Source: a rule of this tool's, no source.
    """
    return _plainly("withdrawn", standing, step)


def reopened(standing: Standing, step: Step) -> Happening:
    """What is recorded when a claim that was withdrawn or written off, whole or in part, is taken up again.

    Raises:
        WrongState: nothing of it was.
        BadInput: there is no reason.

    Source: a rule of this tool's, no source.
    """
    return _plainly("reopened", standing, step)


def _plainly(what: Kind, standing: Standing, step: Step) -> Happening:
    may_follow(standing, Happening(what=what, on=step.on), step.claim)
    refuse_without_reason(step)
    return recorded(what, step, {})
