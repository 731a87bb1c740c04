"""A coverage plan: the maker's windows, conditions, rates and time limits, as they stand in a plan file."""

from __future__ import annotations

import re
from decimal import Decimal
from typing import Annotated, Literal, Self

from pydantic import AfterValidator, Field, model_validator

from claimpack.core.claims.claim import HOURS, Currency, Defect, MeterKind, ModelYear, Record, Use
from claimpack.core.plans.pays import Pays
from claimpack.core.plans.serial_pattern import MOST_FORMS, checked_form
from claimpack.core.plans.serial_ranges import SerialRange
from claimpack.core.plans.shares import Shares
from claimpack.core.values.days import Day
from claimpack.core.values.money import NotNegative, Positive, fits, plain
from claimpack.core.values.periods import Duration, LastDay, MonthEnd
from claimpack.core.values.words import Line, Named, Text, folded, word_set

StartRole = Literal["delivered", "purchased", "in_service", "registered"]
LineKind = Literal["parts", "labour", "extras"]
EventRole = Literal["presented", "failed", "repaired"]


def _template_id(text: str) -> str:
    if not re.fullmatch(r"[a-z0-9][a-z0-9-]{0,59}", text):
        raise ValueError(f"{text!r} is no id: small letters, digits and '-', at most 60")
    return text


TemplateId = Annotated[Named, AfterValidator(_template_id)]
"""The id of a template file."""

SerialPattern = Annotated[str, AfterValidator(checked_form)]
"""A regular expression that a whole serial number must match: at most 200 characters, without look-around and without
references back, so that no number keeps it busy."""


def _in_order(years: tuple[int, int]) -> tuple[int, int]:
    if years[1] < years[0]:
        raise ValueError(f"the last model year, {years[1]}, lies before the first, {years[0]}")
    return years


ModelYears = Annotated[tuple[ModelYear, ModelYear], AfterValidator(_in_order)]
"""The first and the last model year, both in."""


class StartWithoutProof(Record):
    """Where cover starts when nothing proves the purchase: a period after the unit was built."""

    from_: Literal["built"] = Field(alias="from")
    after: Duration | None = None


class ScheduledRenewal(Record):
    """A part that the service schedule renews; cover reaches to its first renewal."""

    component: Named
    hours: Positive


class Limit(Record):
    """A reading of one meter up to which a window covers, that reading included."""

    meter: MeterKind
    at: Positive


class Window(Record):
    """One window of cover: what it covers, for whom, how long, and how much of which lines it pays.

    Args:
        pays: the kinds of line it pays; None for all of them.
        shares: how much of a line it pays, by age; none where it pays all. After the last of them it pays nothing.
        rest: who pays what it leaves.
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
    start: tuple[StartRole, ...] | None = None
    last_day: LastDay | None = None
    first_owner_only: bool = False
    registered_within: Duration | None = None
    registered_adds: Duration | None = None
    despite_exclusions: bool = False
    scheduled: tuple[ScheduledRenewal, ...] = ()
    pays: Annotated[tuple[LineKind, ...], Field(min_length=1)] | None = None
    shares: Shares = ()
    rest: Literal["owner", "shop"] = "owner"
    cites: Line = ""

    @model_validator(mode="after")
    def _one_limit_a_meter(self) -> Self:
        kinds = [folded(limit.meter) for limit in self.every_limit()]
        twice = sorted({kind for kind in kinds if kinds.count(kind) > 1})
        if twice:
            raise ValueError(f"more than one limit is given for: {', '.join(twice)}")
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
    def _adds_only_when_registered(self) -> Self:
        if self.registered_adds and not self.registered_within:
            raise ValueError("registered_adds needs registered_within: by when must the unit be registered?")
        return self


class Replaced(Record):
    """The window of a part that was put in under warranty."""

    period: Duration | None = None
    keeps_remaining: bool = True
    cites: Line = ""

    @model_validator(mode="after")
    def _lasts(self) -> Self:
        if not self.period and not self.keeps_remaining:
            raise ValueError("give a period, or keeps_remaining = true; else the part has no cover")
        return self


class Excluded(Record):
    """What the plan does not cover."""

    components: tuple[Named, ...] = ()
    defects: tuple[Defect, ...] = ()
    cites: Line = ""


class Elsewhere(Record):
    """Components that another maker covers, and why."""

    components: tuple[Named, ...] = Field(min_length=1)
    maker: Named
    because: Named


class Requires(Record):
    """What a claim under the plan must carry."""

    proof: bool = False
    serial_roles: tuple[Named, ...] = ()
    serial_patterns: dict[str, SerialPattern] = Field(default={}, max_length=MOST_FORMS)
    shots: tuple[Named, ...] = ()
    findings: tuple[Named, ...] = ()
    approval_above: NotNegative | None = None
    approval_components: tuple[Named, ...] = ()
    held_part: bool = True


class Operation(Record):
    """One line of the maker's time schedule; hours are flat-rate hours, the class is what its labour rate may go by."""

    code: Named
    name: Line = ""
    class_: Line = Field(default="", alias="class")
    hours: NotNegative
    includes: tuple[Named, ...] = ()


class Filing(Record):
    """By when a claim must be filed."""

    within: Duration
    of: EventRole = "repaired"
    roll: Literal["none", "next-working-day"] = "none"
    holidays: tuple[Day, ...] = ()


class Hold(Record):
    """How long a failed part is kept."""

    for_: Duration = Field(alias="for")
    of: Literal["filed", "repaired", "paid"] = "filed"


class WindowSet(Record):
    """Windows that law gives, which plans take in by their id."""

    format: Literal[1] = 1
    id: TemplateId
    name: Named
    cites: Named
    read_on: Day
    note: Text = ""
    start: tuple[StartRole, ...] | None = None
    window: tuple[Window, ...] = Field(min_length=1)


class Plan(Record):
    """One coverage plan of one maker."""

    format: Literal[1] = 1
    id: TemplateId
    name: Line = ""
    maker: Named
    maker_name: Line = ""
    currency: Currency
    models: tuple[Named, ...] = ("*",)
    uses: tuple[Use, ...] | None = None
    model_years: ModelYears | None = None
    serials: tuple[SerialRange, ...] | None = None
    sold_from: Day | None = None
    sold_until: Day | None = None
    start: tuple[StartRole, ...] = Field(default=("delivered", "purchased"), min_length=1)
    start_without_proof: StartWithoutProof | None = None
    judged_on: EventRole = "presented"
    last_day: LastDay = "anniversary"
    month_end: MonthEnd = "clamp"
    statutes: tuple[TemplateId, ...] = ()
    window: tuple[Window, ...] = Field(min_length=1)
    replaced: Replaced | None = None
    excluded: Excluded = Excluded()
    elsewhere: tuple[Elsewhere, ...] = ()
    requires: Requires = Requires()
    pays: Pays = Pays()
    operation: tuple[Operation, ...] = ()
    words: dict[Named, tuple[Named, ...]] = {}
    filing: Filing | None = None
    hold: Hold | None = None
    note: Text = ""

    @model_validator(mode="after")
    def _means_one_thing(self) -> Self:
        for what, names in (
            ("window id", [w.id for w in self.window]),
            ("operation", [folded(o.code) for o in self.operation]),
        ):
            twice = sorted({name for name in names if names.count(name) > 1})
            if twice:
                raise ValueError(f"{what} given twice: {', '.join(twice)}")
        own: dict[tuple[str, ...], str] = {}
        for word, others in self.words.items():
            for other in others:
                if own.setdefault(word_set(other), word) != word:
                    raise ValueError(f"words: {other!r} stands for both {own[word_set(other)]!r} and {word!r}")
        if self.sold_from and self.sold_until and self.sold_until < self.sold_from:
            raise ValueError(f"sold_until {self.sold_until} lies before sold_from {self.sold_from}")
        return self

    @model_validator(mode="after")
    def _can_be_paid(self) -> Self:
        for key, amount in self.pays.amounts():
            if not fits(amount, self.currency):
                raise ValueError(f"pays.{key}: {plain(amount)} has more decimals than {self.currency} has")
        return self

    def goes_by_model_year(self) -> bool:
        """Whether the plan or a window of it is for some model years alone."""
        return bool(self.model_years) or any(window.model_years for window in self.window)

    def component_words(self) -> tuple[str, ...]:
        """Every word for a component that the plan knows."""
        of_windows = [word for window in self.window for word in (*window.covers, *window.except_) if word != "*"]
        of_others = [word for other in self.elsewhere for word in other.components]
        renewed = [renewal.component for window in self.window for renewal in window.scheduled]
        return (*of_windows, *renewed, *of_others, *self.excluded.components, *self.requires.approval_components)

    def scheduled_operation(self, code: str) -> Operation | None:
        """The operation of the time schedule with that code, however it is spelled."""
        return next((operation for operation in self.operation if folded(operation.code) == folded(code)), None)

    def _own_code(self, said: str) -> str:
        operation = self.scheduled_operation(said)
        return operation.code if operation else said

    def included_in(self, code: str) -> frozenset[str]:
        """The codes of every operation that one includes, and that those include."""
        found: set[str] = set()
        waiting = [code]
        while waiting:
            operation = self.scheduled_operation(waiting.pop())
            new = {self._own_code(said) for said in operation.includes} - found if operation else set()
            found |= new
            waiting += new
        return frozenset(found)

    def with_windows_of(self, statute: WindowSet) -> Plan:
        """The plan with the windows of a statute added, each citing its section."""
        added = tuple(
            window.model_copy(
                update={
                    "start": window.start or statute.start,
                    "cites": window.cites or statute.cites,
                    "name": window.name or statute.name,
                }
            )
            for window in statute.window
        )
        return self.model_copy(update={"window": self.window + added})
