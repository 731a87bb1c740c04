"""Findings that were talked about and settled with a reason: they are told apart until their facts change."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Iterable, Sequence
from datetime import date
from typing import NamedTuple

from claimpack.core.auditing.audited import Irregularity
from claimpack.core.events.events import Event, NewEvent
from claimpack.errors import BadInput, NotFound

MARK = "finding"
"""The fact of an event that tells which finding it is about."""


class Settled(NamedTuple):
    """A finding that is settled: the day, who did, and why."""

    on: date
    who: str
    why: str


def mark_of(found: Irregularity) -> str:
    """What tells a finding from others, and from itself once its facts are other ones."""
    facts = [found.stands_for] if found.stands_for else [*found.claims, found.what, *sorted(found.evidence.items())]
    # sixteen digits, since a mark is looked for among the findings of one book and not among all there are
    return hashlib.sha256(json.dumps([found.rule, facts]).encode()).hexdigest()[:16]


def settled_in(events: Iterable[Event]) -> dict[str, Settled]:
    """What is settled after events in their order, by the mark of the finding."""
    settled: dict[str, Settled] = {}
    for event in events:
        if event.what == "finding settled":
            settled[event.facts[MARK]] = Settled(event.on, event.who, event.why)
        elif event.what == "finding taken up":
            # two people may take it up at once
            settled.pop(event.facts[MARK], None)
    return settled


def split(
    found: Iterable[Irregularity], settled: dict[str, Settled]
) -> tuple[tuple[Irregularity, ...], tuple[tuple[Irregularity, Settled], ...]]:
    """Findings that are open, and those that are settled with how."""
    pairs = [(each, settled.get(mark_of(each))) for each in found]
    return tuple(each for each, how in pairs if how is None), tuple((each, how) for each, how in pairs if how)


def settling(found: Irregularity, because: str, on: date) -> NewEvent:
    """What is recorded of a finding that is settled.

    Raises:
        BadInput: no reason is given.
    """
    if not because.strip():
        raise BadInput(
            "--because is missing",
            "Whoever asks later is to read why there is nothing in it.",
            'As in: --because "The engine was moved; invoice 1180 shows it."',
        )
    # twenty are enough to recognise it; a pattern may name hundreds
    facts = {MARK: mark_of(found), "rule": found.rule, "claims": ", ".join(found.claims[:20])}
    return NewEvent(what="finding settled", on=on, why=because.strip(), facts=facts)


def taking_up(found: Irregularity, because: str, on: date) -> NewEvent:
    """What is recorded of a settled finding that is taken up again."""
    facts = {MARK: mark_of(found), "rule": found.rule}
    return NewEvent(what="finding taken up", on=on, why=because.strip(), facts=facts)


def asked_for(found: Sequence[Irregularity], rule: str, claims: Sequence[str], state: str) -> list[Irregularity]:
    """The findings of a rule that name all of some claims.

    Args:
        found: the findings there are.
        rule: the rule that found them, or found the same.
        claims: numbers of claims.
        state: what the findings are, for the message: open or settled.

    Raises:
        NotFound: there is none.
    """
    # whoever was told of it under another rule's name may settle it by that name, too
    named = [each for each in found if rule in (each.rule, *each.also) and set(claims) <= set(each.claims)]
    if not named:
        raise NotFound(
            f"there is no {state} finding of {rule} about {' and '.join(claims)}",
            "A finding is settled as it stands; once its facts change, it is another one.",
            f"See: claimpack audit {' '.join(claims)}",
        )
    return named
