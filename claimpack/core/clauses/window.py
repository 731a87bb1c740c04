"""A window of cover: for what, for whom, how long, and what it pays."""

from __future__ import annotations

from decimal import Decimal
from typing import Annotated, Literal, Self

from claimpack.core.clauses.repair_time import RepairTimes
from claimpack.core.clauses.serial_ranges import SerialRange
from claimpack.core.clauses.shares import Shares
from claimpack.core.clauses.starts import Start
from claimpack.core.facts.fields import MeterKind, ModelYear, TemplateId, Use
from claimpack.core.facts.record import Record
from claimpack.core.facts.unit import HOURS
from claimpack.core.values.days import Day
from claimpack.core.values.marks import AfterValidator, Field, model_validator
from claimpack.core.values.money import NotNegative, Positive
from claimpack.core.values.periods import Duration, LastDay
from claimpack.core.values.words import Line, Named, folded, folded_often

LineKind = Literal["parts", "labour", "extras"]


EventRole = Literal["presented", "failed", "repaired"]


def _in_order(years: tuple[int, int]) -> tuple[int, int]:
    if years[1] < years[0]:
        raise ValueError(f"the last model year, {years[1]}, is before the first, {years[0]}")
    return years


ModelYears = Annotated[tuple[ModelYear, ModelYear], AfterValidator(_in_order)]
"""The first and the last model year, both in."""


class StartWithoutProof(Record):
    """Where cover starts when nothing proves the purchase: a period after the unit was built.

    Args:
        from_: the day that is known without proof of purchase, which is the day the unit was built.
        after: how long after that day cover starts; absent for that day itself, as in `P6M`.
    """

    from_: Literal["built"] = Field(alias="from")
    after: Duration | None = None


class ScheduledRenewal(Record):
    """A part that the service schedule renews; cover reaches to its first renewal.

    Args:
        component: the part that the service schedule renews, as in `spark plug`.
        hours: the hours by the meter at which it is renewed for the first time, as in `100`.
    """

    component: Named
    hours: Positive


class Limit(Record):
    """A reading of one meter up to which a window covers, that reading included.

    Args:
        meter: what the meter counts, as in `cycles`.
        at: the last reading that is covered, in the meter's own unit, as in `5000`.
    """

    meter: MeterKind
    at: Positive


class Owners(Record):
    """What a window gives a second owner.

    Args:
        transfer_within: how soon after the second sale the maker must be told; absent where it need not be, as in
            `P30D`.
        fee: what the maker asks for it, as in `25.00`.
        then: the second owner's own period, from the day the unit was sold again; it ends no later than the window
            would have for the first owner. Absent for all that is left of the window, as in `P6M`.
    """

    transfer_within: Duration | None = None
    fee: NotNegative | None = None
    then: Duration | None = None

    @model_validator(mode="after")
    def _says_something(self) -> Self:
        if self == Owners.model_construct():
            raise ValueError("give transfer_within, fee or then; without them every owner has the whole window")
        return self


PARTS_SOLD, PARTS_FITTED = "parts sold", "parts fitted"
"""What a window covers that is for parts alone: from the day one was sold, or from the day the shop fitted it."""


class Window(Record):
    """One window of cover: what it covers, for whom, how long, and how much of which lines it pays.

    Args:
        id: what the window is told by in reasons and reports, as in `engine-professional`.
        name: what the window is called on paper, as in `engine warranty for professional use`.
        covers: the components it covers, in the words claims use; `*` for every component, as in `["engine", "short
            block"]`.
        except_: components it leaves out of what it covers, as in `["battery"]`.
        uses: the uses of the unit it is for; absent for every use, as in `["professional", "rental"]`.
        model_years: the first and the last model year it is for, both in, as in `[2024, 2026]`.
        serials: the ranges of serial numbers it is for, both ends in, as in `["HC70-118-20000 .. HC70-118-29999"]`.
        sold_in: where the unit must have been sold, as in `["US-CA"]`.
        period: how long it lasts from the start of cover: years, months, weeks and days, as in `P24M`.
        hours: the last reading of the hour meter that is covered; a unit without a meter goes by age alone, as in
            `300`.
        limits: the last readings of other meters that are covered, as in `[{meter = "cycles", at = "5000"}]`.
        whichever: whether it ends with the first or the last of its period and its limits.
        start: the days it starts on, if not those of the plan: the first of them that the claim has, as in
            `["in_service"]`, or the earliest or latest of several, as in `{latest = ["purchased", "registered"]}`.
        last_day: whether the same date a period later still counts, if not as in the plan.
        repair_time_extends: whether days in repair lengthen it, from the day the unit was brought in to the day it was
            ready, both in; for some units alone in a table, as in `{by = "calendar", sold_in = ["US-CA"]}`.
        repair_adds: how much longer it lasts, once, for a unit that was repaired while it was open, by every
            earlier repair that a claim names; leave out there what the owner paid for, as in `P12M`.
        presumed_within: how long after its start what failed is presumed to have been faulty from the start, so that
            the kind of defect need not be told, as in `P1Y`.
        owed_by: who owes it to the owner; what the seller owes is the shop's, unless there is recourse.
        recourse: whether the seller may claim what it owes from the maker.
        first_owner_only: whether it is for the first owner alone.
        owners: what a second owner has of it; absent for as much as the first, as in `{transfer_within = "P30D", fee =
            "25.00", then = "P6M"}`.
        registered_within: how soon after the sale the unit must be registered, as in `P30D`.
        registered_adds: how much longer it lasts for a unit registered in time; absent where only a registered unit is
            covered at all, as in `P12M`.
        despite_exclusions: whether excluded components are covered all the same, as windows of law may say; excluded
            defects never are.
        scheduled: parts that are covered only up to their first renewal by the service schedule, as in `[{component =
            "spark plug", hours = 100}]`.
        pays: the kinds of line it pays; absent for all of them, as in `["parts", "labour"]`.
        shares: how much of a line it pays, by age; absent where it pays all; after the last step it pays nothing, as in
            `[{until = "P12M", maker = "1"}, {until = "P24M", maker = "0.50"}]`.
        rest: who pays what it leaves.
        cites: where it is written, as in `owner's manual p. 4`.
        read_on: the day the law was read that gives it; absent for a window of the maker's own, as in `2026-11-25`.
    """

    id: TemplateId
    name: Line = ""
    covers: tuple[Named, ...] = Field(min_length=1)
    except_: tuple[Named, ...] = Field(default=(), alias="except")
    uses: tuple[Use, ...] | None = None
    model_years: ModelYears | None = None
    serials: tuple[SerialRange, ...] | None = None
    sold_in: tuple[Named, ...] | None = None
    period: Duration
    hours: Positive | None = None
    limits: tuple[Limit, ...] = ()
    whichever: Literal["first", "last"] = "first"
    start: Start | None = None
    last_day: LastDay | None = None
    repair_time_extends: RepairTimes = ()
    repair_adds: Duration | None = None
    presumed_within: Duration | None = None
    owed_by: Literal["maker", "seller"] = "maker"
    recourse: bool = False
    first_owner_only: bool = False
    owners: Owners | None = None
    registered_within: Duration | None = None
    registered_adds: Duration | None = None
    despite_exclusions: bool = False
    scheduled: tuple[ScheduledRenewal, ...] = ()
    pays: Annotated[tuple[LineKind, ...], Field(min_length=1)] | None = None
    shares: Shares = ()
    rest: Literal["owner", "shop"] = "owner"
    cites: Line = ""
    read_on: Day | None = None

    @model_validator(mode="after")
    def _one_limit_a_meter(self) -> Self:
        kinds = [folded(limit.meter) for limit in self.every_limit()]
        # hours may be written as a key of their own or among the limits: in both they would be two limits of one meter
        twice = sorted({kind for kind in kinds if kinds.count(kind) > 1})
        if twice:
            raise ValueError(f"more than one limit is given for: {', '.join(twice)}")
        return self

    @property
    def of_parts(self) -> Literal["", "sold", "fitted"]:
        """Whether it is for parts sold or fitted alone; empty for a window of units."""
        first = folded_often(self.covers[0])
        return "sold" if first == PARTS_SOLD else "fitted" if first == PARTS_FITTED else ""

    @model_validator(mode="after")
    def _parts_go_by_age_alone(self) -> Self:
        of_parts = [word for word in self.covers if folded(word) in (PARTS_SOLD, PARTS_FITTED)]
        if of_parts and len(self.covers) > 1:
            raise ValueError(f"a window that covers {of_parts[0]!r} covers nothing else; write one window for each")
        # what is sold over the counter has no use, no owner and no meter to go by
        if of_parts:
            given = [key for key in _OF_UNITS if getattr(self, key)]
            if given:
                raise ValueError(
                    f"a window that covers {of_parts[0]!r} goes by age alone; take away {', '.join(given)}"
                )
        return self

    def every_limit(self) -> tuple[Limit, ...]:
        """The limits of every meter, that of the hour meter first."""
        of_hours = () if self.hours is None else (Limit(meter=HOURS, at=self.hours),)
        return (*of_hours, *sorted(self.limits, key=lambda limit: folded(limit.meter) != HOURS))

    @property
    def hour_limit(self) -> Decimal | None:
        """The limit of the hour meter, however it is written."""
        return next((limit.at for limit in self.every_limit() if folded(limit.meter) == HOURS), None)

    @property
    def other_limits(self) -> tuple[Limit, ...]:
        """The limits of every meter but the hour meter."""
        return tuple(limit for limit in self.limits if folded(limit.meter) != HOURS)

    @model_validator(mode="after")
    def _knows_its_owners(self) -> Self:
        if self.owners and self.first_owner_only:
            raise ValueError("first_owner_only leaves nothing to a second owner; take it away, or owners")
        return self

    @model_validator(mode="after")
    def _has_recourse_for_what_the_seller_owes(self) -> Self:
        if self.recourse and self.owed_by != "seller":
            raise ValueError('recourse needs owed_by = "seller"; what the maker owes is claimed from it anyway')
        if self.shares and self.is_of_the_shop:
            raise ValueError("shares say how much the maker pays, and without recourse it pays nothing; take them away")
        return self

    @property
    def is_of_the_shop(self) -> bool:
        """Whether the shop bears what it pays, as the seller without recourse."""
        return self.owed_by == "seller" and not self.recourse

    @model_validator(mode="after")
    def _adds_only_when_registered(self) -> Self:
        if self.registered_adds and not self.registered_within:
            raise ValueError("registered_adds needs registered_within: by when must the unit be registered?")
        return self


_OF_UNITS = (
    *("except_", "uses", "model_years", "serials", "sold_in", "hours", "limits", "start", "first_owner_only"),
    *("registered_within", "scheduled", "owners", "repair_adds", "presumed_within"),
)
"""What a window of units may go by, and a window of parts does not."""


class Replaced(Record):
    """The window of a part that was put in under warranty.

    Args:
        period: how long a part put in under warranty is covered from that repair; absent for what is left of the
            window, as in `P90D`.
        keeps_remaining: whether it stays covered at least as long as the window it was first put in under.
        cites: where it is written, as in `warranty booklet p. 7`.
    """

    period: Duration | None = None
    keeps_remaining: bool = True
    cites: Line = ""

    @model_validator(mode="after")
    def _lasts(self) -> Self:
        if not self.period and not self.keeps_remaining:
            raise ValueError("give a period, or keeps_remaining = true; else the part has no cover")
        return self
