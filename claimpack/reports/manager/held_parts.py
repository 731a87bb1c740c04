"""The section about held parts: how long they lie there, which may go now, which must be sent."""

from __future__ import annotations

from collections.abc import Sequence
from decimal import Decimal

from claimpack.core.holding.held_by_age import HeldByAge, ShelvedPart
from claimpack.core.reporting.findings import held_finding
from claimpack.core.reporting.manager_report import ManagerReport
from claimpack.core.values.numbers_said import how_many
from claimpack.reports.charts.bars import Bar, lying_bars
from claimpack.reports.manager.section import EN_DASH, Cell, Chart, ReportColumn, ReportTable, Section


def held_section(told: ManagerReport) -> Section:
    """Held parts by age and state, and what may go or must be sent."""
    held = told.held
    lists = (
        (_to_send, held.to_send),
        (_may_go, held.may_go),
        (_better_kept, held.better_kept),
        (_not_found, held.missing),
    )
    tables = [_states(held)] if held.parts else []
    tables += [table(parts) for table, parts in lists if parts]
    return Section(
        key="held",
        heading="Held parts",
        finding=held_finding(held),
        charts=(_held_chart(held),) if held.parts else (),
        tables=tuple(tables),
        notes=("Days since the part was put on the shelf. Before one goes: claimpack hold scrap CODE.",)
        if held.parts
        else (),
    )


def _held_chart(held: HeldByAge) -> Chart:
    bars = [
        Bar(state, tuple(Decimal(count) for count in counts), how_many(sum(counts), "part"))
        for state, counts in held.states
        if sum(counts)
    ]
    old = sum(counts[held.buckets.index("over 90")] for _, counts in held.states)
    return Chart(
        key="held-by-age",
        title=f"{how_many(old, 'part has', 'parts have')} been kept for over 90 days",
        description="Held parts by state and days on the shelf. The table has the numbers.",
        draw=lambda width: lying_bars(bars, [_days(name) for name in held.buckets], width),
    )


def _days(bucket: str) -> str:
    return f"{bucket.replace('-', EN_DASH)} days" if bucket[-1].isdigit() else bucket


def _states(held: HeldByAge) -> ReportTable:
    sums = tuple(sum(column) for column in zip(*(counts for _, counts in held.states), strict=True))
    return ReportTable(
        name="held-parts",
        caption="Held parts by state and days on the shelf",
        columns=(
            ReportColumn("State", 1.4),
            *(ReportColumn(_days(name), right=True, narrow=name == "over 90") for name in held.buckets),
            ReportColumn("All", right=True),
        ),
        rows=[(state, *counts, sum(counts)) for state, counts in held.states],
        totals=[("All", *sums, held.parts)],
    )


_WHICH = (
    ReportColumn("Code", 1.2),
    ReportColumn("Shelf", 0.7),
    ReportColumn("Part", 1.4),
    ReportColumn("Unit", 1.6, narrow=False),
    ReportColumn("Since", 1.0, narrow=False),
)


def _to_send(parts: Sequence[ShelvedPart]) -> ReportTable:
    return ReportTable(
        name="parts-to-send",
        caption="Called back: to be sent",
        columns=(*_WHICH, ReportColumn("Send by", 1.0)),
        rows=[(*_which(part), part.send_by) for part in parts],
        most=12,
        more="All of them: claimpack hold list.",
    )


def _may_go(parts: Sequence[ShelvedPart]) -> ReportTable:
    return ReportTable(
        name="parts-that-may-go",
        caption="May go now, and the rule that says so",
        columns=(*_WHICH, ReportColumn("Why", 3.5)),
        rows=[(*_which(part), part.because) for part in parts],
        most=12,
        more="All of them: claimpack hold list --may-go.",
    )


def _better_kept(parts: Sequence[ShelvedPart]) -> ReportTable:
    return ReportTable(
        name="parts-better-kept",
        caption="Better kept: the hold ran out, but the claim is not settled",
        columns=(*_WHICH, ReportColumn("Why", 3.5)),
        rows=[(*_which(part), part.doubt) for part in parts],
        most=6,
        more="All of them: claimpack hold list.",
    )


def _not_found(parts: Sequence[ShelvedPart]) -> ReportTable:
    return ReportTable(
        name="parts-not-found",
        caption="Not found at the last count: look for them",
        columns=(*_WHICH, ReportColumn("Missed on", 1.0)),
        rows=[(*_which(part), part.missing) for part in parts],
        most=12,
        more="All of them: claimpack hold list.",
    )


def _which(part: ShelvedPart) -> tuple[Cell, ...]:
    return part.code, part.shelf or "nowhere", part.part, f"{part.maker} {part.model}", part.since
