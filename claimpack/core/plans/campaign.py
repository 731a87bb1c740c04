"""A maker's campaign: a repair that it asks for on some serial numbers, in warranty or not, until a closing day."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Annotated, Literal, Self

from claimpack.core.clauses.serial_ranges import SerialRange, is_in_range
from claimpack.core.facts.record import Record
from claimpack.core.facts.unit import Unit
from claimpack.core.values.days import Day
from claimpack.core.values.marks import Field, model_validator
from claimpack.core.values.money import NotNegative
from claimpack.core.values.words import Line, Named, Text


class CampaignOperation(Record):
    """The operation that a campaign pays, at its own hours.

    Args:
        code: what the maker calls it, as in `HC-2026-03`.
        name: what is done.
        hours: what is paid for it, in hours, as in `"0.4"`.
        class_: what the maker's labour rate may go by, as in `engine`.
    """

    code: Named
    name: Line = ""
    hours: NotNegative
    class_: Line = Field(default="", alias="class")


class Campaign(Record):
    """One campaign, as it stands in a file of campaigns/.

    Args:
        format: the form of the file, always 1.
        id: what claims name it by, as in `HC-2026-03`.
        name: what it is about.
        plan: the id of the plan by whose rates and terms it is paid, as in `halden-2025`.
        serials: the serial numbers it reaches, in ranges with both ends in.
        operation: what is paid, and how long it takes.
        parts: the numbers of the parts it pays; none where it pays no part.
        opens: the first day on which a unit may be brought in for it.
        closes: the last day on which a unit may be brought in for it; it counts.
        shots: pictures it asks for, as in `["serial plate"]`.
        cites: where the maker says so.
        note: anything else a service writer should know, in the maker's words.
    """

    format: Literal[1] = 1
    id: Annotated[Named, Field(max_length=40)]
    name: Named
    plan: Named
    serials: tuple[SerialRange, ...] = Field(min_length=1)
    operation: CampaignOperation
    parts: tuple[Named, ...] = ()
    opens: Day
    closes: Day
    shots: tuple[Named, ...] = ()
    cites: Line = ""
    note: Text = ""

    @model_validator(mode="after")
    def _opens_first(self) -> Self:
        if self.closes < self.opens:
            raise ValueError(f"closes {self.closes} is before opens {self.opens}")
        return self

    def serial_in(self, unit: Unit) -> str:
        """The serial number of a unit that the campaign reaches; empty where it reaches none."""
        return next((one.value for one in unit.serials if is_in_range(one.value, self.serials)), "")


def with_id(campaigns: Iterable[Campaign], wanted: str) -> Campaign | None:
    """The campaign of an id, however it is spelled; None where there is none."""
    return next((one for one in campaigns if one.id.casefold() == wanted.strip().casefold()), None)
