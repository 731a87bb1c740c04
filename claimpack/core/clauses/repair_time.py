"""Time in repair that lengthens cover, as a plan or a law writes it."""

from __future__ import annotations

from typing import Annotated, Any, Literal

from claimpack.core.facts.fields import Use
from claimpack.core.facts.record import Record
from claimpack.core.values.days import Day
from claimpack.core.values.marks import BeforeValidator, PlainSerializer
from claimpack.core.values.periods import Duration
from claimpack.core.values.words import Line, Named
from claimpack.core.values.written import WrittenAs


class RepairTime(Record):
    """What time in repair adds to cover, and to whose.

    Args:
        by: which days count: each day of the calendar from the day the unit was brought in to the day it was ready,
            both in.
        sold_in: where the unit must have been sold, as in `["US-CA"]`.
        uses: the uses of the unit it is for; absent for every use, as in `["household"]`.
        unmended_within: how soon after an earlier repair the owner must tell that it did not mend what failed, so that
            cover is not over for it by its date, as in `P60D`.
        cites: where it is written, as in `owner's manual p. 4`.
        read_on: the day the law was read that says so; absent where the maker does, as in `2026-11-25`.
    """

    by: Literal["calendar"]
    sold_in: tuple[Named, ...] | None = None
    uses: tuple[Use, ...] | None = None
    unmended_within: Duration | None = None
    cites: Line = ""
    read_on: Day | None = None

    @property
    def is_plain(self) -> bool:
        """Whether it is for every unit, and cites nothing."""
        return self == RepairTime(by=self.by)


def _as_rules(written: Any) -> Any:
    rules = written if isinstance(written, (list, tuple)) else (written,)
    return tuple({"by": rule} if isinstance(rule, str) else rule for rule in rules)


def _as_written(rules: tuple[RepairTime, ...]) -> Any:
    # written as short as it was read, so that the plan in a packet reads like the maker's file
    written = [rule.by if rule.is_plain else rule.model_dump(mode="json", exclude_defaults=True) for rule in rules]
    return written[0] if len(written) == 1 else written


_Rule = Literal["calendar"] | RepairTime
RepairTimes = Annotated[
    tuple[RepairTime, ...],
    WrittenAs(_Rule | tuple[_Rule, ...]),
    BeforeValidator(_as_rules),
    PlainSerializer(_as_written),
]
"""One word for every unit, or a table for some of them; several where several laws say so."""
