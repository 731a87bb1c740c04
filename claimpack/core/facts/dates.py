"""The days of a claim, and the order they must come in."""

from __future__ import annotations

from typing import Any, Self

from claimpack.core.facts.keys import Contradiction, contradiction
from claimpack.core.facts.record import Record
from claimpack.core.values.days import Day
from claimpack.core.values.marks import model_validator


class Dates(Record):
    """The days that decide cover, in the order they happen; then those of a second sale and of the unit's return.

    Args:
        purchased: the day it was bought.
        delivered: the day it was handed over.
        in_service: the day it was first used, where that is another day.
        registered: the day it was registered with the maker.
        never_registered: whether it is known that nobody registered it.
        failed: the day it failed.
        presented: the day it was brought in.
        repaired: the day the repair was done.
        resold: the day the second owner bought it.
        transferred: the day the maker was told of that.
        returned: the day the owner was told that it is ready, or fetched it, whichever came first.
    """

    purchased: Day | None = None
    delivered: Day | None = None
    in_service: Day | None = None
    registered: Day | None = None
    never_registered: bool = False
    failed: Day | None = None
    presented: Day
    repaired: Day | None = None
    resold: Day | None = None
    transferred: Day | None = None
    returned: Day | None = None

    @model_validator(mode="after")
    def _in_order(self) -> Self:
        impossible = [
            Contradiction(f"{{}} {day_at(self, later)} is before {{}} {day_at(self, earlier)}", (later, earlier))
            for earlier, later in _ORDER
            if day_at(self, earlier) and day_at(self, later) and day_at(self, later) < day_at(self, earlier)
        ]
        if self.never_registered and self.registered:
            registered = ("never_registered", "registered")
            impossible.append(Contradiction(f"{{}} is true, but {{}} is {self.registered}", registered))
        if impossible:
            raise contradiction(impossible)
        return self


_ORDER = (
    # no pair with the sale: a stock unit fails before it, and the claim itself knows whether it is one
    ("in_service", "failed"),
    ("in_service", "presented"),
    ("failed", "presented"),
    ("failed", "repaired"),
    ("presented", "repaired"),
    ("presented", "returned"),
    ("repaired", "returned"),
    ("purchased", "resold"),
    ("delivered", "resold"),
)


def day_at(dates: Dates, role: str) -> Any:
    """A day of a claim by its key; None where it is not given."""
    return getattr(dates, role)
