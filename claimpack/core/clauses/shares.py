"""Shares of a line that a window pays, falling with the age of the unit, as a plan writes them."""

from __future__ import annotations

from datetime import date
from typing import Annotated, Any, Self

from claimpack.core.facts.record import Record
from claimpack.core.values.marks import AfterValidator, BeforeValidator, PlainSerializer, model_validator
from claimpack.core.values.money import PartOfOne
from claimpack.core.values.periods import Duration, Period, moved
from claimpack.core.values.written import WrittenAs

# any day serves that is the same for all: periods are compared, not days
_ANY_DAY = date(2001, 1, 1)


def months_in(period: Period) -> int:
    """The months of a period of years and months."""
    return period.years * 12 + period.months


class Share(Record):
    """What the maker pays of a line up to some age, or by the whole months left.

    Args:
        until: the age up to which `maker` is paid, from the start of cover; days in repair that lengthen the window
            move its last day as well, as in `P12M`.
        maker: the maker's share, as a fraction, as in `"0.50"`.
        full_until: the age up to which all is paid, where shares go by the month, as in `P12M`.
        of: the whole months that the months left are counted of, as in `P36M`.
    """

    until: Duration | None = None
    maker: PartOfOne | None = None
    full_until: Duration | None = None
    of: Duration | None = None

    @model_validator(mode="after")
    def _is_a_step_or_by_months(self) -> Self:
        is_step = self.until is not None and self.maker is not None
        if is_step == (self.of is not None) or (is_step and self.full_until):
            raise ValueError("give until and maker, or of with full_until")
        if any(months and not months.is_whole_months() for months in (self.of, self.full_until)):
            raise ValueError("full_until and of are whole months or years, as in P36M")
        if self.of and self.full_until and months_in(self.full_until) > months_in(self.of):
            raise ValueError("full_until is longer than of")
        return self

    @property
    def last(self) -> Period:
        """The age up to which it says anything."""
        return self.until or self.of or Period()


def _steps(said: Any) -> Any:
    return (said,) if isinstance(said, dict) else said


def _as_written(shares: tuple[Share, ...]) -> Any:
    written = [share.model_dump(mode="json", exclude_none=True) for share in shares]
    return written[0] if len(shares) == 1 and shares[0].of else written


def _in_order(shares: tuple[Share, ...]) -> tuple[Share, ...]:
    if len(shares) > 1 and any(share.of for share in shares):
        raise ValueError("shares by the months left stand alone, in { }")
    ages = [moved(_ANY_DAY, share.last) for share in shares]
    if ages != sorted(set(ages)):
        raise ValueError("write the steps by rising until")
    return shares


Shares = Annotated[
    tuple[Share, ...],
    WrittenAs(Share | tuple[Share, ...]),
    BeforeValidator(_steps),
    AfterValidator(_in_order),
    PlainSerializer(_as_written),
]
"""Steps by rising age, or one table that goes by the whole months left; empty where all is paid."""
