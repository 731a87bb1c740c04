"""Findings that were talked about and settled with a reason: they are told apart until their facts change."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Iterable, Sequence
from datetime import date
from typing import NamedTuple

from claimpack.core.auditing.audited import Irregularity
from claimpack.core.auditing.wording import FORMERLY, SAYS
from claimpack.core.events.events import Event, NewEvent
from claimpack.errors import BadInput, NotFound

MARK = "finding"
"""The fact of an event that tells which finding it is about."""


class Settled(NamedTuple):
    """A finding that is settled: the day, who did, and why."""

    on: date
    who: str
    why: str


def marks_of(found: Irregularity) -> tuple[str, str]:
    """What tells a finding from others, and from itself once its facts are other ones; and what formerly did.

    The words of its sentences are no part of it; formerly they were.
    """
    if found.stands_for:
        one = _mark([found.rule, [found.stands_for]])
        return one, one
    facts = [
        [part.claims, [(each.key, sorted(each.facts.items())) for each in part.says], sorted(part.evidence.items())]
        for part in found.parts or (found,)
    ]
    evidence = _evidence_formerly(found) | {part.rule: _formerly(part) for part in found.parts[1:]}
    return _mark(facts), _mark([found.rule, [*found.claims, _formerly(found), *sorted(evidence.items())]])


def _mark(facts: object) -> str:
    # sixteen digits, since a mark is looked for among the findings of one book and not among all there are
    return hashlib.sha256(json.dumps(facts).encode()).hexdigest()[:16]


def _formerly(found: Irregularity) -> str:
    return " ".join(sentence.plainly({**SAYS, **FORMERLY}) for sentence in found.says)


def _evidence_formerly(found: Irregularity) -> dict[str, str]:
    facts = found.says[0].facts
    return {name: facts.get(f"{name}_formerly", fact) for name, fact in found.evidence.items()}


def settled_in(events: Iterable[Event]) -> dict[str, Settled]:
    """What is settled after events in their order, by the mark of the finding."""
    settled: dict[str, Settled] = {}
    for event in events:
        if event.what == "finding settled":
            settled[event.facts[MARK]] = Settled(event.on, event.who, event.why)
        elif event.what == "finding taken up":
            # two people may take it up at once
            for mark in event.facts[MARK].split():
                settled.pop(mark, None)
    return settled


def split(
    found: Iterable[Irregularity], settled: dict[str, Settled]
) -> tuple[tuple[Irregularity, ...], tuple[tuple[Irregularity, Settled], ...]]:
    """Findings that are open, and those that are settled with how."""
    pairs = [(each, next((settled[mark] for mark in marks_of(each) if mark in settled), None)) for each in found]
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
    facts = {MARK: marks_of(found)[0], "rule": found.rule, "claims": ", ".join(found.claims[:20])}
    return NewEvent(what="finding settled", on=on, why=because.strip(), facts=facts)


def taking_up(found: Irregularity, because: str, on: date) -> NewEvent:
    """What is recorded of a settled finding that is taken up again."""
    # whichever of its marks it was settled by
    facts = {MARK: " ".join(marks_of(found)), "rule": found.rule}
    return NewEvent(what="finding taken up", on=on, why=because.strip(), facts=facts)


def asked_for(
    found: Sequence[Irregularity], rule: str, claims: Sequence[str], state: str, whose: str = ""
) -> list[Irregularity]:
    """The findings of a rule that name all of some claims.

    Args:
        found: the findings there are.
        rule: the rule that found them, or found the same.
        claims: numbers of claims.
        state: what the findings are, for the message: open or settled.
        whose: the option by which the claims of all shops are looked through, where there are several.

    Raises:
        NotFound: there is none.
    """
    # whoever was told of it under another rule's name may settle it by that name, too
    named = [each for each in found if rule in (each.rule, *each.also) and set(claims) <= set(each.claims)]
    if not named:
        raise NotFound(
            f"there is no {state} finding of {rule} about {' and '.join(claims)}",
            "A finding is settled as it stands; once its facts change, it is another one.",
            f"See: {' '.join(filter(None, ('claimpack audit', *claims, whose)))}",
        )
    return named
