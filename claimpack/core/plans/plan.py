"""A coverage plan: the maker's windows, conditions, rates and time limits, as they stand in a plan file."""

from __future__ import annotations

import re
from decimal import Decimal
from typing import Annotated, Any, Literal, Self

from pydantic import AfterValidator, BeforeValidator, Field, PlainSerializer, model_validator

from claimpack.core.claims.claim import HOURS, Currency, Defect, MeterKind, ModelYear, Record, Use
from claimpack.core.plans.campaign import Campaign
from claimpack.core.plans.pays import Pays
from claimpack.core.plans.picture_doubts import PictureLimits
from claimpack.core.plans.repair_time import RepairTimes
from claimpack.core.plans.required_shots import Shots
from claimpack.core.plans.serial_pattern import MOST_FORMS, checked_form
from claimpack.core.plans.serial_ranges import SerialRange
from claimpack.core.plans.shares import Shares
from claimpack.core.plans.starts import Start, start_rule
from claimpack.core.values.days import Day
from claimpack.core.values.money import NotNegative, Number, Positive, fits, plain, plain_or_none
from claimpack.core.values.periods import Duration, LastDay, MonthEnd
from claimpack.core.values.words import Line, Named, Text, folded, run_on, word_set
from claimpack.core.values.written import WrittenAs

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
        twice = sorted({kind for kind in kinds if kinds.count(kind) > 1})
        if twice:
            raise ValueError(f"more than one limit is given for: {', '.join(twice)}")
        return self

    @property
    def of_parts(self) -> Literal["", "sold", "fitted"]:
        """Whether it is for parts sold or fitted alone; empty for a window of units."""
        first = folded(self.covers[0])
        return "sold" if first == PARTS_SOLD else "fitted" if first == PARTS_FITTED else ""

    @model_validator(mode="after")
    def _parts_go_by_age_alone(self) -> Self:
        of_parts = [word for word in self.covers if folded(word) in (PARTS_SOLD, PARTS_FITTED)]
        if of_parts and len(self.covers) > 1:
            raise ValueError(f"a window that covers {of_parts[0]!r} covers nothing else; write one window for each")
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
    def _adds_only_when_registered(self) -> Self:
        if self.registered_adds and not self.registered_within:
            raise ValueError("registered_adds needs registered_within: by when must the unit be registered?")
        return self


_OF_UNITS = (
    *("except_", "uses", "model_years", "serials", "sold_in", "hours", "limits", "start", "first_owner_only"),
    *("registered_within", "scheduled", "owners"),
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


class Excluded(Record):
    """What the plan does not cover.

    Args:
        components: what is never covered, unless a window says `despite_exclusions`, as in `["air filter", "spark
            plug"]`.
        defects: the kinds of defect that are never covered, as in `["misuse", "wear"]`.
        cites: where it is written, as in `warranty booklet p. 6`.
    """

    components: tuple[Named, ...] = ()
    defects: tuple[Defect, ...] = ()
    cites: Line = ""


class Elsewhere(Record):
    """Components that another maker covers, and why.

    Args:
        components: what another maker covers, as in `["engine"]`.
        maker: that other maker, as in `orrin-vale`.
        because: why, in words for the owner, as in `warranted by the engine's own maker`.
    """

    components: tuple[Named, ...] = Field(min_length=1)
    maker: Named
    because: Named


class RequiredPaper(Record):
    """A paper that a claim must carry.

    Args:
        kind: what kind of paper it is, as a claim names it, as in `maintenance record`.
        components: what must have failed for it to be asked for; absent for whatever failed.
    """

    kind: Named
    components: Annotated[tuple[Named, ...], Field(min_length=1)] | None = None


class RequiredFinding(Record):
    """A measurement that a claim must have; with a limit, a component counts as failed by it alone.

    Args:
        what: what is measured.
        unit: the unit the limit is in; empty where it has none.
        at_most: the highest value that counts as a failure, itself one.
        at_least: the lowest one, itself one.
        components: what must have failed for it to be asked for; absent for whatever failed.
    """

    what: Named
    unit: Line = ""
    at_most: Number | None = None
    at_least: Number | None = None
    components: Annotated[tuple[Named, ...], Field(min_length=1)] | None = None

    @model_validator(mode="after")
    def _has_one_limit(self) -> Self:
        if self.at_most is not None and self.at_least is not None:
            raise ValueError("give one limit: at_most, or at_least")
        return self

    @property
    def decides(self) -> bool:
        """Whether cover goes by it."""
        return self.at_most is not None or self.at_least is not None

    @property
    def limit(self) -> str:
        """The limit with its unit, as in `70 %`."""
        return f"{plain_or_none(self.bound) or ''} {self.unit}".strip()

    @property
    def bound(self) -> Decimal | None:
        """The limit as a number; None where it only has to be measured."""
        return self.at_most if self.at_most is not None else self.at_least

    def is_past(self, value: Decimal) -> bool:
        """Whether a value counts as a failure."""
        return value <= self.at_most if self.at_most is not None else value >= (self.at_least or Decimal(0))


def _as_findings(said: Any) -> Any:
    """Measurements of which nothing more is said may be written as what is measured alone."""
    if not isinstance(said, (list, tuple)):
        return said
    return tuple({"what": finding} if isinstance(finding, str) else finding for finding in said)


def _findings_in_short(findings: tuple[RequiredFinding, ...]) -> list[str | dict[str, Any]]:
    told = (finding.model_dump(mode="json", exclude_defaults=True) for finding in findings)
    return [finding["what"] if len(finding) == 1 else finding for finding in told]


Findings = Annotated[
    tuple[RequiredFinding, ...],
    BeforeValidator(_as_findings),
    PlainSerializer(_findings_in_short),
    WrittenAs(tuple[Named | RequiredFinding, ...]),
]
"""Measurements; one that only has to be there may be written as what is measured alone."""


class Requires(Record):
    """What a claim under the plan must carry.

    Args:
        proof: whether the day of purchase must be proved.
        serial_roles: the serial numbers a claim must give, as in `["unit", "engine"]`.
        serial_patterns: the form of each serial number, a regular expression by role, as in `{unit =
            "HC70-[0-9]{3}-[0-9]{5}"}`.
        shots: the photos a claim must have, as in `["serial plate", "whole unit"]`; one may be for certain components
            alone, as in `[{shot = "spark test", components = ["ignition coil"]}]`.
        findings: what must be measured, as in `["compression"]`; one with a limit is a condition of cover, as in
            `[{what = "capacity", unit = "%", at_most = "70", components = ["battery"]}]`.
        papers: papers it must have beside the proof of purchase, as in `[{kind = "maintenance record"}]`.
        part_returned_first: whether the maker pays only when the failed part is back with it.
        approval_above: the amount above which the maker must approve before the repair, as in `"400.00"`.
        approval_components: components whose repair the maker must always approve before, as in `["short block"]`.
        held_part: whether the failed part must be kept.
        pictures: from where on a picture is doubted, where the maker says it, as in `{long_edge = 1024}`.
    """

    proof: bool = False
    serial_roles: tuple[Named, ...] = ()
    serial_patterns: dict[str, SerialPattern] = Field(default={}, max_length=MOST_FORMS)
    shots: Shots = ()
    findings: Findings = ()
    papers: tuple[RequiredPaper, ...] = ()
    part_returned_first: bool = False
    approval_above: NotNegative | None = None
    approval_components: tuple[Named, ...] = ()
    held_part: bool = True
    pictures: PictureLimits = PictureLimits()

    def shot_words(self) -> tuple[str, ...]:
        """Every shot that it names, whatever failed."""
        return tuple(shot.shot for shot in self.shots)

    def component_words(self) -> tuple[str, ...]:
        """Every word for a component that it names."""
        of_shots, of_findings = (one.components for one in self.shots), (one.components for one in self.findings)
        asked = [*of_shots, *of_findings, *(one.components for one in self.papers)]
        return (*self.approval_components, *(word for words in asked for word in words or ()))


class Operation(Record):
    """One line of the maker's time schedule; hours are flat-rate hours, the class is what its labour rate may go by.

    Args:
        code: the maker's code of the operation, as in `short-block-replace`.
        name: what is done, in words, as in `Replace short block`.
        class_: what its labour rate may go by, as in `engine`.
        hours: what the maker pays for it, in hours, as in `"1.6"`.
        includes: codes of operations that are part of it and are not paid beside it, as in `["starter-replace"]`.
    """

    code: Named
    name: Line = ""
    class_: Line = Field(default="", alias="class")
    hours: NotNegative
    includes: tuple[Named, ...] = ()


class Kit(Record):
    """A part that is sold with others in it, which are not paid again.

    Args:
        number: the number of the kit, as in `K-70`.
        name: what it is called, as in `gasket kit`.
        includes: the numbers of the parts in it; one that is in it twice is named twice, as in `["G-1", "G-2"]`.
    """

    number: Named
    name: Line = ""
    includes: tuple[Named, ...] = Field(min_length=1)


class Filing(Record):
    """By when a claim must be filed.

    Args:
        within: how soon a claim must be filed, as in `P30D`.
        of: the day that is counted from.
        roll: whether a last day on a weekend or holiday moves to the next working day.
        holidays: days that are no working days, as in `[2026-12-25]`.
    """

    within: Duration
    of: EventRole = "repaired"
    roll: Literal["none", "next-working-day"] = "none"
    holidays: tuple[Day, ...] = ()


class Hold(Record):
    """How long a failed part is kept.

    Args:
        for_: how long a failed part is kept, as in `P90D`.
        of: the day that is counted from.
    """

    for_: Duration = Field(alias="for")
    of: Literal["filed", "repaired", "paid"] = "filed"


class WindowSet(Record):
    """Windows that law gives, which plans take in by their id.

    Args:
        format: the form of the file, always 1.
        id: what plans take it in by, under `statutes`, as in `us-ca-small-offroad`.
        name: what the law is called.
        cites: the section of law.
        read_on: the day the law was read.
        note: anything else a reader should know.
        start: the days its windows start on: the first of them that the claim has, as in `["delivered"]`.
        repair_time_extends: whether days in repair lengthen every window of a plan that takes it in, as in `{by =
            "calendar", sold_in = ["US-CA"]}`.
        window: the windows that the law gives, one `[[window]]` each.
    """

    format: Literal[1] = 1
    id: TemplateId
    name: Named
    cites: Named
    read_on: Day
    note: Text = ""
    start: Start | None = None
    repair_time_extends: RepairTimes = ()
    window: tuple[Window, ...] = ()

    @model_validator(mode="after")
    def _gives_something(self) -> Self:
        if not (self.window or self.repair_time_extends):
            raise ValueError("give a [[window]], or repair_time_extends")
        return self


class Plan(Record):
    """One coverage plan of one maker.

    Args:
        format: the form of the file, always 1.
        id: what the plan is told by; small letters, digits and '-', as in `halden-2025`.
        name: what people call the plan, as in `Halden petrol tools 2025`.
        maker: the maker in one word, as claims write it, as in `halden`.
        maker_name: the maker's name as it is printed, as in `Halden`.
        currency: what every amount of the plan is in, a code of ISO 4217, as in `USD`.
        models: the models it is for; `*` stands for any letters and digits, as in `["CS-*", "HT-*"]`.
        uses: the uses of the unit it is for; absent for every use, as in `["household", "professional"]`.
        model_years: the first and the last model year it is for, both in, as in `[2024, 2026]`.
        serials: the ranges of serial numbers it is for, both ends in, as in `["HC70-118-20000 .. HC70-118-29999"]`.
        sold_from: the first day of sale it is for, as in `2025-01-01`.
        sold_until: the last day of sale it is for, as in `2027-12-31`.
        start: the days cover starts on: the first of them that the claim has, as in `["delivered", "purchased"]`; or
            the earliest or latest of several, as in `{earliest = ["registered", {of = "purchased", plus = "P2Y"}]}`.
        start_stock: the days cover of a unit in stock starts on, which was never sold; absent where the plan does not
            say, as in `["invoiced", "built"]`.
        start_without_proof: when cover starts where nothing proves the purchase, as in `{from = "built", after =
            "P6M"}`.
        judged_on: the day that decides whether a unit is still covered.
        last_day: whether the same date a period later still counts (anniversary), or the day before it is the last.
        month_end: whether a start on the last day of a month ends on the last day of a month.
        repair_time_extends: whether days in repair lengthen every window, from the day the unit was brought in to the
            day it was ready, both in; for some units alone in a table, as in `{by = "calendar", sold_in = ["US-CA"]}`.
        statutes: ids of files with windows that law gives to these units too, as in `["us-ca-small-offroad"]`.
        window: what is covered, for whom and how long, one `[[window]]` each.
        replaced: how long a part is covered that was put in under warranty, as in `{period = "P90D"}`.
        excluded: what is not covered, as in `{components = ["air filter"], defects = ["wear"]}`.
        elsewhere: what another maker covers, one `[[elsewhere]]` each.
        requires: what a claim must carry, as in `{proof = true}`.
        pays: what the maker pays, as in `{labour_rate = "92.00"}`.
        operation: the maker's time schedule, one `[[operation]]` each.
        kit: parts that are sold with others in them.
        words: other words for components, by the word the plan uses, as in `{"connecting rod" = ["con rod",
            "conrod"]}`.
        filing: by when a claim must be filed, as in `{within = "P30D", of = "repaired"}`.
        hold: how long a failed part is kept, as in `{for = "P90D", of = "filed"}`.
        campaign: campaigns of the maker; those in files of campaigns/ that name this plan come to them.
        note: anything else a service writer should know, in the maker's words.
    """

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
    start: Start = start_rule("delivered", "purchased")
    start_stock: Start | None = None
    start_without_proof: StartWithoutProof | None = None
    judged_on: EventRole = "presented"
    last_day: LastDay = "anniversary"
    month_end: MonthEnd = "clamp"
    repair_time_extends: RepairTimes = ()
    statutes: tuple[TemplateId, ...] = ()
    window: tuple[Window, ...] = Field(min_length=1)
    replaced: Replaced | None = None
    excluded: Excluded = Excluded()
    elsewhere: tuple[Elsewhere, ...] = ()
    requires: Requires = Requires()
    pays: Pays = Pays()
    operation: tuple[Operation, ...] = ()
    kit: tuple[Kit, ...] = ()
    words: dict[Named, tuple[Named, ...]] = {}
    filing: Filing | None = None
    hold: Hold | None = None
    campaign: tuple[Campaign, ...] = ()
    note: Text = ""

    @model_validator(mode="after")
    def _means_one_thing(self) -> Self:
        for what, names in (
            ("window id", [w.id for w in self.window]),
            ("operation", [folded(o.code) for o in self.operation]),
            ("kit", [run_on(kit.number) for kit in self.kit]),
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
    def _has_no_kit_in_a_kit(self) -> Self:
        kits = {run_on(kit.number) for kit in self.kit}
        for kit in self.kit:
            inner = next((number for number in kit.includes if run_on(number) in kits), None)
            if inner:
                raise ValueError(f"kit {kit.number} includes {inner}, a kit itself; name the parts of that one instead")
        return self

    @model_validator(mode="after")
    def _can_be_paid(self) -> Self:
        fees = [(f"window {window.id}: owners.fee", window.owners.fee) for window in self.window if window.owners]
        for key, fee in fees:
            if fee is not None and not fits(fee, self.currency):
                raise ValueError(f"{key}: {plain(fee)} has more decimals than {self.currency} has")
        for key, amount in self.pays.amounts():
            if not fits(amount, self.currency):
                raise ValueError(f"pays.{key}: {plain(amount)} has more decimals than {self.currency} has")
        return self

    def goes_by_model_year(self) -> bool:
        """Whether the plan or a window of it is for some model years alone."""
        return bool(self.model_years) or any(window.model_years for window in self.window)

    @property
    def counts_time_in_repair(self) -> bool:
        """Whether days in repair lengthen a window of the plan."""
        return bool(self.repair_time_extends) or any(window.repair_time_extends for window in self.window)

    def component_words(self) -> tuple[str, ...]:
        """Every word for a component that the plan knows."""
        of_units = [window for window in self.window if not window.of_parts]
        of_windows = [word for window in of_units for word in (*window.covers, *window.except_) if word != "*"]
        of_others = [word for other in self.elsewhere for word in other.components]
        renewed = [renewal.component for window in self.window for renewal in window.scheduled]
        return (*of_windows, *renewed, *of_others, *self.excluded.components, *self.requires.component_words())

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
        """The plan with what a statute gives: its windows, and time in repair that lengthens every one, each cited."""
        added = tuple(
            window.model_copy(
                update={
                    "start": window.start or statute.start,
                    "cites": window.cites or statute.cites,
                    "read_on": window.read_on or statute.read_on,
                    "name": window.name or statute.name,
                }
            )
            for window in statute.window
        )
        cited = tuple(
            rule.model_copy(update={"cites": rule.cites or statute.cites, "read_on": statute.read_on})
            for rule in statute.repair_time_extends
        )
        extends = self.repair_time_extends + cited
        return self.model_copy(update={"window": self.window + added, "repair_time_extends": extends})
