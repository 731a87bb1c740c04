"""The sections about how it went: days to payment, claimed against paid."""

from __future__ import annotations

from collections.abc import Sequence
from decimal import ROUND_HALF_UP, Decimal

from claimpack.core.reporting.findings import amount_said, listed, months_finding, speed_finding
from claimpack.core.reporting.manager_report import ManagerReport
from claimpack.core.reporting.money_by_month import MonthOfClaims, by_currency, whole_of
from claimpack.core.reporting.payment_speed import ENOUGH, MakerSpeed, PaymentSpeed, paid_within
from claimpack.core.values.money import coins
from claimpack.core.values.numbers_said import how_many
from claimpack.reports.charts.bars import Pillars, standing_bars
from claimpack.reports.charts.curves import curve_chart, last_day_shown, range_chart
from claimpack.reports.manager.section import REST, Cell, Chart, ReportColumn, ReportTable, Section, cell_text

_KINDS = ("claimed", "accepted", "paid")
_IN_FULL = "Paid in full: all that the maker accepted came in; a claim paid in part counts as open."
# The months with claims that a picture of them needs.
_FEWEST = 3


def speed_section(told: ManagerReport) -> Section:
    """Days from filing to payment, as a curve, and by maker where there are enough claims."""
    speed = told.speed
    charts: list[Chart] = []
    tables: list[ReportTable] = []
    if speed.enough:
        charts.append(_curve(speed))
        tables.append(_shares(speed))
    elif speed.paid:
        tables.append(_payments(speed))
    if speed.makers and speed.enough:
        charts.append(_ranges(speed.makers))
        tables.append(_makers(speed.makers))
    return Section("speed", "Days to payment", speed_finding(speed), tuple(charts), tuple(tables), _speed_notes(speed))


def _speed_notes(speed: PaymentSpeed) -> tuple[str, ...]:
    if not speed.enough:
        return (_IN_FULL, "Refused, withdrawn and written-off claims are left out.") if speed.paid else ()
    notes = [
        "Estimated after Kaplan and Meier: a claim still open counts for as long as it has waited.",
        _IN_FULL,
        "Refused, withdrawn and written-off claims are left out.",
        "The tint, and from and to in the table, are the 95 % confidence band.",
    ]
    later = sum(step.paid for step in speed.curve.steps if step.day > last_day_shown(speed.curve))
    if later:
        notes.append(f"{how_many(later, 'claim was', 'claims were')} paid later than the picture shows.")
    if speed.too_few:
        notes.append(f"Fewer than {ENOUGH} claims, so not listed alone: {listed(speed.too_few, 12)}.")
    return tuple(notes)


def _curve(speed: PaymentSpeed) -> Chart:
    reached = (("Three quarters", speed.curve.three_quarters), ("A quarter", speed.curve.quarter))
    said = (
        f"{share} of the claims are paid within {how_many(day, 'day')}" for share, day in reached if day is not None
    )
    return Chart(
        key="payment-curve",
        title=next(said, "Fewer than a quarter of the claims are paid so far"),
        description="The share of claims paid, rising by days since filing, with its band. The table has the numbers.",
        draw=lambda width: curve_chart(speed.curve, width),
    )


def _shares(speed: PaymentSpeed) -> ReportTable:
    curve = speed.curve
    marks = paid_within(curve) or paid_within(curve, (curve.steps[-1].day,))
    rows: list[tuple[Cell, ...]] = [
        (mark.days, _percent(mark.share), _percent(mark.low), _percent(mark.high), mark.waiting) for mark in marks
    ]
    return ReportTable(
        name="days-to-payment",
        caption="Claims paid within so many days of filing, per cent",
        columns=(
            ReportColumn("Days"),
            ReportColumn("Paid", right=True),
            ReportColumn("From", right=True, narrow=False),
            ReportColumn("To", right=True, narrow=False),
            ReportColumn("Still waiting then", 1.4, right=True),
        ),
        rows=rows,
    )


def _payments(speed: PaymentSpeed) -> ReportTable:
    return ReportTable(
        name="payments-so-far",
        caption="Claims paid in full so far, by days since filing",
        columns=(
            ReportColumn("Days"),
            ReportColumn("Paid in full", right=True),
            ReportColumn("Still waiting then", 1.4, right=True),
        ),
        rows=[(step.day, step.paid, step.at_risk - step.paid) for step in speed.curve.steps if step.paid],
    )


def _percent(share: Decimal | None) -> Decimal | None:
    return None if share is None else (share * 100).quantize(Decimal("0.1"), ROUND_HALF_UP)


def _ranges(makers: Sequence[MakerSpeed]) -> Chart:
    fast = makers[0]
    title = f"{fast.maker} pays half of its claims within {how_many(fast.median or 0, 'day')}"
    slow = [maker for maker in makers if maker.median is not None]
    if fast.median is None:
        title = "No maker has paid half of its claims so far"
    elif len(slow) > 1:
        title += f", {slow[-1].maker} within {slow[-1].median}"
    return Chart(
        key="payment-makers",
        title=title,
        description="A line a maker, from a quarter paid to three quarters paid; the dot is where half is paid.",
        draw=lambda width: range_chart(makers, width),
    )


def _makers(makers: Sequence[MakerSpeed]) -> ReportTable:
    return ReportTable(
        name="days-to-payment-by-maker",
        caption="Days until a quarter, half and three quarters of a maker's claims are paid; empty where not that far",
        columns=(
            ReportColumn("Maker", 1.8),
            ReportColumn("Paid", right=True),
            ReportColumn("Open", right=True, narrow=False),
            ReportColumn("Quarter", right=True),
            ReportColumn("Half", right=True),
            ReportColumn("Three quarters", 1.3, right=True),
        ),
        rows=[tuple(maker) for maker in makers],
        most=30,
    )


def months_section(told: ManagerReport) -> Section:
    """Claimed against accepted and paid by month of filing, a picture a currency."""
    months = told.months
    found = by_currency(months)
    notes = (
        "By month of filing; claims withdrawn are left out. The latest months are still being paid.",
        "Claimed is the sum of paid, owed, written off and not accepted; refused claims count as owed until given up."
        + (" What came in beyond what was claimed is part of none." if any(month.over for month in months) else ""),
    )
    return Section(
        key="months",
        heading="Claimed against paid",
        finding=months_finding(months),
        charts=tuple(_pillars(currency, some) for currency, some in found.items() if _with_claims(some) >= _FEWEST),
        tables=tuple(_months(currency, some, only=len(found) == 1) for currency, some in found.items()),
        notes=notes if months else (),
    )


def _with_claims(months: Sequence[MonthOfClaims]) -> int:
    return sum(month.claims > 0 for month in months)


def _pillars(currency: str, months: Sequence[MonthOfClaims]) -> Chart:
    groups = [Pillars(f"{month.month:%Y-%m}", (month.claimed, month.accepted, month.paid)) for month in months]
    best = max(months, key=lambda month: month.claimed)
    in_currency = f" in {currency}" if currency else ""
    return Chart(
        key=f"months-{currency.lower() or 'none'}",
        title=f"Most was claimed in {best.month:%B %Y}: {amount_said(best.claimed, currency)}",
        description=f"Claimed, accepted and paid{in_currency}, the latest months. The table has every month.",
        draw=lambda width: standing_bars(groups, _KINDS, width, lambda tick: cell_text(_bare(tick))),
    )


def _bare(tick: Decimal) -> Decimal:
    return tick.quantize(Decimal(1)) if tick == tick.to_integral_value() else tick.normalize()


def _months(currency: str, months: Sequence[MonthOfClaims], *, only: bool) -> ReportTable:
    heads = ("Claimed", "Accepted", "Paid", "Owed", "Written off", "Not accepted")
    over = ReportColumn("Paid over", 1.1, right=True, narrow=False, shown=any(month.over for month in months))
    return ReportTable(
        name="claimed-and-paid" if only else f"claimed-and-paid-{currency.lower() or 'none'}",
        caption=f"Claimed against paid by month of filing{f', {currency}' if currency else ''}, latest first",
        columns=(
            ReportColumn("Month", 1.1),
            ReportColumn("Currency", shown=False),
            ReportColumn("Claims", 0.8, right=True, narrow=False),
            *(ReportColumn(head, 1.2, right=True, narrow=head in ("Claimed", "Paid", "Owed")) for head in heads),
            over,
        ),
        rows=[(f"{month.month:%Y-%m}", *_money(month)) for month in reversed(months) if month.claims],
        totals=[("All months", *_money(whole_of(months)))],
        most=24,
        more=REST,
    )


def _money(month: MonthOfClaims) -> tuple[Cell, ...]:
    amounts = (month.claimed, month.accepted, month.paid, month.outstanding, month.written_off, month.short, month.over)
    return (month.currency, month.claims, *(coins(amount, month.currency) for amount in amounts))
