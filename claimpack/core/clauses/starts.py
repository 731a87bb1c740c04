"""When cover starts, as a plan writes it: the first day a claim has of a list, or the earliest or latest of several."""

from __future__ import annotations

from typing import Annotated, Any, Literal, Self

from claimpack.core.facts.record import Record
from claimpack.core.values.marks import BeforeValidator, Field, PlainSerializer, model_validator
from claimpack.core.values.periods import Duration
from claimpack.core.values.written import WrittenAs

StartRole = Literal["delivered", "purchased", "in_service", "registered", "built", "invoiced"]
Pick = Literal["first", "earliest", "latest"]


class StartDay(Record):
    """A day of the claim on which cover may start, or a period after it.

    Args:
        of: the day, as in `purchased`.
        plus: how long after it cover starts; absent for the day itself, as in `P2Y`.
    """

    of: StartRole
    plus: Duration | None = None


def _as_day(written: Any) -> Any:
    return {"of": written} if isinstance(written, str) else written


def _day_as_written(day: StartDay) -> Any:
    return {"of": day.of, "plus": str(day.plus)} if day.plus else day.of


_StartDay = Annotated[
    StartDay, WrittenAs(StartRole | StartDay), BeforeValidator(_as_day), PlainSerializer(_day_as_written)
]
StartDays = Annotated[tuple[_StartDay, ...], Field(min_length=1)]


class StartRule(Record):
    """Which of some days cover starts on; exactly one of the three is given.

    Args:
        first: the first of these that the claim has; a plain list means the same, as in `["delivered", "purchased"]`.
        earliest: the earliest of these, as in `["registered", {of = "purchased", plus = "P2Y"}]`.
        latest: the latest of these, as in `["purchased", "registered"]`.
    """

    first: StartDays | None = None
    earliest: StartDays | None = None
    latest: StartDays | None = None

    @model_validator(mode="after")
    def _is_one_rule(self) -> Self:
        # two rules at once would have to be put in an order nobody wrote
        if sum(days is not None for days in (self.first, self.earliest, self.latest)) != 1:
            raise ValueError("give a list of days, or { } with either earliest or latest")
        return self

    @property
    def pick(self) -> Pick:
        """Which of its days counts."""
        return "first" if self.first else "earliest" if self.earliest else "latest"

    @property
    def days(self) -> tuple[StartDay, ...]:
        """Its days, in the order they are written."""
        return self.first or self.earliest or self.latest or ()

    @property
    def names_registration(self) -> bool:
        """Whether one of its days is that of the registration."""
        return any(day.of == "registered" for day in self.days)


def start_rule(*roles: StartRole) -> StartRule:
    """The rule that the first of some days counts."""
    # Nothing is left to check, and a record that is built to check costs every command a few milliseconds.
    return StartRule.model_construct(first=tuple(StartDay.model_construct(of=role) for role in roles))


def _as_rule(written: Any) -> Any:
    return {"first": written} if isinstance(written, (list, tuple)) else written


def _as_written(rule: StartRule) -> Any:
    days = [_day_as_written(day) for day in rule.days]
    return days if rule.pick == "first" else {rule.pick: days}


Start = Annotated[StartRule, WrittenAs(StartDays | StartRule), BeforeValidator(_as_rule), PlainSerializer(_as_written)]
"""A list of days, the first of which counts that the claim has; or the earliest or the latest of several."""
