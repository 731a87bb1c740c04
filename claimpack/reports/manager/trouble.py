"""The sections about trouble: why makers refuse, and which failures come again."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from decimal import Decimal

from claimpack.core.reporting.findings import (
    amounts_said,
    failures_said,
    foremost,
    listed,
    refusals_finding,
    repeats_finding,
)
from claimpack.core.reporting.manager_report import ManagerReport
from claimpack.core.reporting.refusals import AnswersIn, RefusalReason, refusals_by_reason
from claimpack.core.reporting.repeat_failures import CameBack, ModelFailure
from claimpack.core.values.numbers_said import how_many
from claimpack.reports.charts.bars import Bar, lying_bars
from claimpack.reports.manager.section import REST, Cell, Chart, ReportColumn, ReportTable, Section

_MOST_BARS = 8


def refusals_section(told: ManagerReport) -> Section:
    """Refusals by the maker's reason, for form or for substance."""
    reasons = refusals_by_reason(told.answers.refusals)
    return Section(
        key="refusals",
        heading="Refusals",
        finding=refusals_finding(told.answers),
        charts=(_reasons_chart(reasons),) if reasons else (),
        tables=(_reasons(reasons),) if reasons else (),
        notes=tuple(_notes(told.answers, reasons)),
    )


def _notes(answers: AnswersIn, reasons: Sequence[RefusalReason]) -> Iterator[str]:
    if reasons:
        yield "Every refusal of a claim counts, also of claims put right and paid since."
    if answers.to_favours:
        yield f"{how_many(answers.to_favours, 'answer')} to requests for goodwill not counted: a favour is not owed."


def _reasons_chart(reasons: Sequence[RefusalReason]) -> Chart:
    bars = [
        Bar(reason.said, (Decimal(reason.form), Decimal(reason.substance)), str(reason.times))
        for reason in reasons[:_MOST_BARS]
    ]
    form, substance = (sum(getattr(reason, kind) for reason in reasons) for kind in ("form", "substance"))
    return Chart(
        key="refusals-by-reason",
        title=_for_what(form, substance),
        description=f"Refusals by reason, {_the_first(len(bars), len(reasons))}. The table has the numbers.",
        draw=lambda width: lying_bars(bars, ("form", "substance"), width),
    )


def _for_what(form: int, substance: int) -> str:
    if not form:
        return f"{how_many(substance, 'refusal')} for substance, none for form"
    others = f"{substance:,}" if substance else "none"
    return f"{how_many(form, 'refusal')} for form, which can be put right; {others} for substance"


def _the_first(shown: int, all_of: int) -> str:
    return "all of them" if shown == all_of else f"the first {shown} of {all_of}"


def _reasons(reasons: Sequence[RefusalReason]) -> ReportTable:
    rows: list[tuple[Cell, ...]] = [
        (
            reason.said,
            listed(reason.makers),
            reason.form,
            reason.substance,
            reason.times,
            reason.claims,
            amounts_said(reason.amounts),
        )
        for reason in reasons
    ]
    return ReportTable(
        name="refusals",
        caption="Refusals by reason, in the makers' words",
        columns=(
            ReportColumn("Reason", 2.7),
            ReportColumn("Makers", 2.2, narrow=False),
            ReportColumn("Form", 0.7, right=True, narrow=False),
            ReportColumn("Substance", 1.05, right=True, narrow=False),
            ReportColumn("All", 0.6, right=True),
            ReportColumn("Claims", 0.8, right=True, narrow=False),
            ReportColumn("Claimed", 1.4, right=True),
        ),
        rows=rows,
        most=10,
        more=REST,
    )


def repeats_section(told: ManagerReport) -> Section:
    """Components that failed on several units of a model, and units that came back."""
    found = told.repeats
    tables = [*([_models(found.models)] if found.models else []), *([_units(found.units)] if found.units else [])]
    return Section(
        key="repeats",
        heading="Repeat failures",
        finding=repeats_finding(found),
        charts=(_models_chart(found.models),) if found.models else (),
        tables=tuple(tables),
        notes=("Claims withdrawn are left out. Many failures of one part are worth a word with the maker.",)
        if tables
        else (),
    )


def _models_chart(models: Sequence[ModelFailure]) -> Chart:
    bars = [
        Bar(
            f"{failure.model}, {failure.component}",
            (Decimal(failure.units - failure.came_back), Decimal(failure.came_back)),
            how_many(failure.units, "unit"),
        )
        for failure in models[:_MOST_BARS]
    ]
    top = foremost(models, lambda failure: failure.units)
    units = f"{how_many(top[0].units, 'unit')}{' each' if len(top) > 1 else ''}"
    return Chart(
        key="repeats-by-model",
        title=f"Most often: {failures_said(top)}, on {units}",
        description=f"Units by model and component, {_the_first(len(bars), len(models))}. The table has the numbers.",
        draw=lambda width: lying_bars(bars, ("failed once", "failed again"), width),
    )


def _models(models: Sequence[ModelFailure]) -> ReportTable:
    return ReportTable(
        name="repeats-by-model",
        caption="The same component on different units of a model",
        columns=(
            ReportColumn("Maker", 1.3),
            ReportColumn("Model", 1.2),
            ReportColumn("Component", 1.7),
            ReportColumn("First", 1.1, narrow=False),
            ReportColumn("Last", 1.1, narrow=False),
            ReportColumn("Units", 0.7, right=True),
            ReportColumn("Claims", 0.8, right=True, narrow=False),
            ReportColumn("Failed again", 1.2, right=True, narrow=False),
        ),
        rows=[(*failure[:3], failure.first, failure.last, *failure[3:6]) for failure in models],
        most=10,
        more=REST,
    )


def _units(units: Sequence[CameBack]) -> ReportTable:
    rows: list[tuple[Cell, ...]] = [
        (unit.maker, unit.model, unit.unit, unit.component, listed(unit.claims), unit.last, unit.days) for unit in units
    ]
    return ReportTable(
        name="units-that-came-back",
        caption="The same component on the same unit again, the latest first",
        columns=(
            ReportColumn("Maker", 1.1),
            ReportColumn("Model", 1.0, narrow=False),
            ReportColumn("Serial", 1.6),
            ReportColumn("Component", 1.3),
            ReportColumn("Claims", 1.8, narrow=False),
            ReportColumn("Last", 1.1, narrow=False),
            ReportColumn("Days between", 1.2, right=True),
        ),
        rows=rows,
        most=10,
        more=REST,
    )
