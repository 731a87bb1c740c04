"""The unit a claim is about, and its owner."""

from __future__ import annotations

from decimal import Decimal
from typing import Annotated, Self

from claimpack.core.facts.fields import MeterHours, MeterKind, ModelYear, Use
from claimpack.core.facts.record import Record
from claimpack.core.values.days import Day
from claimpack.core.values.marks import AfterValidator, model_validator
from claimpack.core.values.money import NotNegative, plain, plain_or_none
from claimpack.core.values.words import Line, Named, Text, folded, folded_often


class Serial(Record):
    """One serial number and what carries it.

    Args:
        role: what carries the number, as in `unit`.
        value: the number as it is stamped, as in `HC70-118-20417`.
    """

    role: Named
    value: Named


HOURS = "hours"
"""What an hour meter counts."""


class Meter(Record):
    """What one meter reads, and what its predecessor read when it was replaced; or that the unit has no such meter.

    Args:
        kind: what it counts, as in `cycles`.
        value: what it reads, in its own unit, as in `4100`.
        replaced_at: what the meter before it read when it was replaced; counted on top, as in `"830.5"`.
        fitted: whether the unit has such a meter.
    """

    kind: MeterKind
    value: NotNegative | None = None
    replaced_at: NotNegative | None = None
    fitted: bool = True

    @model_validator(mode="after")
    def _reads_where_it_is_fitted(self) -> Self:
        if self.fitted and self.value is None:
            raise ValueError(f"the meter of {self.kind} needs its value, or fitted = false where the unit has none")
        if not self.fitted and (self.value is not None or self.replaced_at is not None):
            raise ValueError(f"the meter of {self.kind} is said not to be fitted, and to read something")
        return self

    @property
    def total(self) -> Decimal | None:
        """What was counted in all: the reading, and that of the meter before; None without a meter."""
        # a new meter counts from nothing, and the machine is as old as both
        return None if self.value is None else self.value + (self.replaced_at or 0)

    @property
    def said(self) -> str:
        """What was counted in all, and of what it is the sum where the meter was replaced; empty without a meter."""
        if self.value is None:
            return ""
        if self.replaced_at is None:
            return plain(self.value)
        return f"{plain(self.value + self.replaced_at)} ({plain(self.value)} + {plain(self.replaced_at)})"


def _once(meters: tuple[Meter, ...]) -> tuple[Meter, ...]:
    kinds = [folded(meter.kind) for meter in meters]
    twice = sorted({kind for kind in kinds if kinds.count(kind) > 1})
    if twice:
        raise ValueError(f"given twice: {', '.join(twice)}")
    return meters


Meters = Annotated[tuple[Meter, ...], AfterValidator(_once)]
"""The meters of a unit, one of a kind."""


class Unit(Record):
    """The machine: which one it is, how it is used and how long it ran.

    Args:
        model: the model as the maker writes it, as in `CS-70`.
        kind: what machine it is, as in `cut-off saw`.
        use: how it is used: household, professional, rental, or another word of the plan, as in
            `professional`.
        meter: whether it has an hour meter.
        hours: the reading of the hour meter when it was brought in, in hours, as in `"112.4"`.
        meters: other meters than the hour meter, as in `[{kind = "cycles", value = "4100"}]`.
        built: the day it was built.
        invoiced: the day of the dealer's own invoice, where cover of a unit in stock may start.
        model_year: the maker's model year, as in `2025`.
        sold_in: where it was sold: country, and state where law goes by state, as in `US-CA`.
        serials: its serial numbers by what carries them, as in `[{role = "unit", value = "HC70-118-20417"}]`.
    """

    model: Named
    kind: Line = ""
    use: Use | None = None
    meter: bool | None = None
    hours: MeterHours | None = None
    meters: Meters = ()
    built: Day | None = None
    invoiced: Day | None = None
    model_year: ModelYear | None = None
    sold_in: Line = ""
    serials: tuple[Serial, ...]

    @model_validator(mode="after")
    def _hours_once(self) -> Self:
        # two readings of one meter might differ
        if self.meter_of(HOURS) and (self.hours is not None or self.meter is not None):
            raise ValueError("the hour meter is given by meters; take away hours and meter")
        return self

    def meter_of(self, kind: str) -> Meter | None:
        """The meter of a kind among the meters told of; None where nothing is said of it."""
        return next((meter for meter in self.meters if folded(meter.kind) == folded(kind)), None)

    @property
    def has_hour_meter(self) -> bool | None:
        """Whether the unit has an hour meter; None while that is not said."""
        told = self.meter_of(HOURS)
        return told.fitted if told else self.meter

    @property
    def hours_run(self) -> Decimal | None:
        """The hours the unit ran by its meter, those of a meter before it too; None without a reading."""
        told = self.meter_of(HOURS)
        return told.total if told else self.hours

    @property
    def hours_said(self) -> str:
        """The hours the unit ran, and what they add up from where the meter was replaced; empty without a reading."""
        told = self.meter_of(HOURS)
        return told.said if told else plain_or_none(self.hours) or ""

    @property
    def other_meters(self) -> tuple[Meter, ...]:
        """The meters but the hour meter."""
        return tuple(meter for meter in self.meters if folded(meter.kind) != HOURS)

    def serial(self, role: str) -> str:
        """The serial number of a role, or an empty text."""
        wanted = folded_often(role)
        return next((serial.value for serial in self.serials if folded_often(serial.role) == wanted), "")

    @property
    def own_serial(self) -> str:
        """The one number the machine is told by: the unit's own, else the first one; empty where there is none."""
        # a machine known by its engine alone is still told from another
        return self.serial("unit") or (self.serials[0].value if self.serials else "")


class Owner(Record):
    """Who owns the unit.

    Args:
        name: the owner's name.
        phone: the owner's phone number.
        email: the owner's mail address.
        address: the owner's postal address, on one line or more.
        first_owner: whether the unit was sold to this owner new.
    """

    name: Line = ""
    phone: Line = ""
    email: Line = ""
    address: Text = ""
    first_owner: bool | None = None
