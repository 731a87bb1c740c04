"""Why makers refuse: their words counted, and whether it was a matter of form."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from datetime import date
from decimal import Decimal
from textwrap import shorten
from typing import NamedTuple

from claimpack.core.events.events import Event
from claimpack.core.reporting.reported import Days, ReportedClaim
from claimpack.core.values.money import summed

NO_REASON = "no reason noted"
LONGEST_REASON = 200
"""As many letters of a reason are shown; the history has all of them."""


class Refusal(NamedTuple):
    """One answer that refused a claim; because is in the maker's words, form where it can be put right."""

    claim: str
    maker: str
    on: date
    because: str
    form: bool
    currency: str
    claimed: Decimal


class AnswersIn(NamedTuple):
    """How many answers to claims came in, the refusals among them in the order they came, and answers to favours."""

    came: int
    refusals: tuple[Refusal, ...]
    to_favours: int = 0


class RefusalReason(NamedTuple):
    """A reason for refusing: how often it was given, for form and for substance, and what was claimed, by currency.

    `claims` counts a claim once, however often it was refused for that reason, and so do the amounts.
    """

    said: str
    form: int
    substance: int
    claims: int
    makers: tuple[str, ...]
    amounts: Mapping[str, Decimal]

    @property
    def times(self) -> int:
        """How often it was given."""
        return self.form + self.substance


class Answers:
    """The answers that came in within the days, from events in the order they were recorded; those undone left out.

    A claim refused, put right and sent in again counts its refusal, whatever came of it. A question is no answer, and
    answers to favours are counted apart: a favour that is not granted is no refusal of what is owed.
    """

    def __init__(self, days: Days) -> None:
        self._days, self._came, self._to_favours = days, 0, 0
        self._refusals: list[Refusal] = []

    def add(self, claim: ReportedClaim) -> None:
        """Count the answers to one claim."""
        standing: list[Event] = []
        for event in claim.answers:
            if event.what == "answered" and not event.facts.get("silence"):
                standing.append(event)
            elif event.what == "answer undone" and standing:
                # an answer that was undone was never given
                standing.pop()
        # a question delays, and decides nothing
        told = [event for event in standing if event.facts.get("answer") != "questioned" and self._days.hold(event.on)]
        if claim.is_favour:
            self._to_favours += len(told)
            return
        self._came += len(told)
        self._refusals += [_refusal(event, claim) for event in told if event.facts.get("answer") == "refused"]

    def told(self) -> AnswersIn:
        """What was counted."""
        refusals = sorted(self._refusals, key=lambda refusal: (refusal.on, refusal.claim))
        return AnswersIn(self._came, tuple(refusals), self._to_favours)


def _refusal(event: Event, claim: ReportedClaim) -> Refusal:
    form = event.facts.get("form") == "yes"
    return Refusal(claim.number, claim.maker, event.on, event.why, form, claim.currency, claim.claimed)


def refusals_by_reason(refusals: Iterable[Refusal]) -> tuple[RefusalReason, ...]:
    """The reasons given, the most frequent first; the same words in other letters or with a full stop are one reason.

    Source: common practice, no source; the reasons are the maker's own words.
    """
    found: dict[str, list[Refusal]] = {}
    for refusal in refusals:
        found.setdefault(_bare(refusal.because).casefold(), []).append(refusal)
    reasons = [_reason(given) for given in found.values()]
    return tuple(sorted(reasons, key=lambda reason: (-reason.times, reason.said.casefold())))


def _bare(said: str) -> str:
    return " ".join(said.split()).rstrip(" .!;,")


def _reason(given: Sequence[Refusal]) -> RefusalReason:
    # shown as it was written most often
    spellings = Counter(_bare(refusal.because) for refusal in given)
    # refused twice for one reason, its money was at stake once
    once = {refusal.claim: refusal for refusal in given}.values()
    form = sum(refusal.form for refusal in given)
    return RefusalReason(
        said=shorten(spellings.most_common(1)[0][0], LONGEST_REASON, placeholder=" …") or NO_REASON,
        form=form,
        substance=len(given) - form,
        claims=len(once),
        makers=tuple(sorted({refusal.maker for refusal in given})),
        amounts=summed((refusal.currency, refusal.claimed) for refusal in once),
    )
