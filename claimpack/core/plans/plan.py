"""A coverage plan: the maker's windows, conditions, rates and time limits, as they stand in a plan file."""

from __future__ import annotations

from typing import Literal, Self

from claimpack.core.clauses.operations import Elsewhere, Excluded, Filing, Hold, Kit, Operation
from claimpack.core.clauses.pays import Pays
from claimpack.core.clauses.repair_time import RepairTimes
from claimpack.core.clauses.requires import Requires
from claimpack.core.clauses.serial_ranges import SerialRange
from claimpack.core.clauses.starts import Start, start_rule
from claimpack.core.clauses.window import EventRole, ModelYears, Replaced, StartWithoutProof, Window
from claimpack.core.facts.fields import Currency, TemplateId, Use
from claimpack.core.facts.record import Record
from claimpack.core.plans.campaign import Campaign
from claimpack.core.values.days import Day
from claimpack.core.values.marks import Field, model_validator
from claimpack.core.values.money import fits, plain
from claimpack.core.values.periods import LastDay, MonthEnd
from claimpack.core.values.words import Line, Named, Text, folded, folded_often, run_on, word_set


class WindowSet(Record):
    """Statutory coverage, which plans take in by their id.

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
        statutes: ids of files with statutory coverage to these units too, as in `["us-ca-small-offroad"]`.
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
    excluded: Excluded = Excluded.model_construct()
    elsewhere: tuple[Elsewhere, ...] = ()
    requires: Requires = Requires.model_construct()
    pays: Pays = Pays.model_construct()
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
            raise ValueError(f"sold_until {self.sold_until} is before sold_from {self.sold_from}")
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
        wanted = folded_often(code)
        return next((operation for operation in self.operation if folded_often(operation.code) == wanted), None)

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
