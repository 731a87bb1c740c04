"""The sections about what is owed today: outstanding by age and maker, and what to do first."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from decimal import Decimal

from claimpack.core.payment.payment_dates import CHECK
from claimpack.core.payment.pending import Pending, next_date
from claimpack.core.payment.remarks import first_said, rests_said
from claimpack.core.plans.terms import unread_said
from claimpack.core.reporting.findings import amount_said, foremost, outstanding_finding
from claimpack.core.reporting.manager_report import About, ManagerReport
from claimpack.core.reporting.outstanding import Outstanding
from claimpack.core.values.ageing import AGED
from claimpack.core.values.money import coins
from claimpack.core.values.numbers_said import how_many
from claimpack.core.values.words import some_of
from claimpack.reports.charts.bars import Bar, lying_bars
from claimpack.reports.manager.section import (
    EN_DASH,
    REST,
    Cell,
    Chart,
    ReportColumn,
    ReportTable,
    Section,
    in_currency,
)

# More bars than these are not compared any more; the smallest are shown as one.
MOST_BARS = 12
_BELOW = "The table below has the numbers."


def outstanding_section(told: ManagerReport) -> Section:
    """What is outstanding by age and maker, a picture a currency."""
    found = told.outstanding
    aged = AGED[told.about.ageing]
    return Section(
        key="outstanding",
        heading="Outstanding",
        finding=outstanding_finding(found, told.about.ageing),
        charts=tuple(_bars(one, aged) for one in found),
        tables=(_by_maker(found, aged),) if found else (),
        notes=("A claim refused but not written off still counts as outstanding.",) if found else (),
    )


def _bucket(name: str) -> str:
    return name if name == "current" else f"{name.replace('-', EN_DASH)} days"


def _bars(one: Outstanding, aged: str) -> Chart:
    bars = [Bar(maker.maker, maker.amounts, amount_said(maker.total, one.currency)) for maker in one.makers]
    if len(bars) > MOST_BARS:
        rest = bars[MOST_BARS - 1 :]
        sums = tuple(sum(column, Decimal(0)) for column in zip(*(bar.amounts for bar in rest), strict=True))
        whole = amount_said(sum(sums, Decimal(0)), one.currency)
        bars = [*bars[: MOST_BARS - 1], Bar(how_many(len(rest), "other maker"), sums, whole)]
    most = foremost(one.makers, lambda maker: maker.total)
    total, names = amount_said(most[0].total, one.currency), some_of([maker.maker for maker in most], 3, " and ")
    title = f"{names} owe most, {total} each" if len(most) > 1 else f"{names} owes most, {total}"
    if len(one.makers) == 1:
        title = f"{names} owes {total}"
    kinds = [_bucket(name) for name in one.buckets]
    return Chart(
        key=f"outstanding-{one.currency.lower() or 'none'}",
        title=title,
        description=f"Outstanding {f'in {one.currency} ' if one.currency else ''}a maker, by days {aged}. {_BELOW}",
        draw=lambda width: lying_bars(bars, kinds, width),
    )


def _by_maker(found: Sequence[Outstanding], aged: str) -> ReportTable:
    currency, alone = in_currency(found)
    buckets = found[0].buckets
    rows: list[Sequence[Cell]] = []
    totals: list[Sequence[Cell]] = []
    for one in found:
        for maker in one.makers:
            amounts = [coins(amount, one.currency) for amount in (*maker.amounts, maker.total)]
            rows.append((maker.maker, one.currency, maker.claims, *amounts))
        whole = [coins(amount, one.currency) for amount in (*one.amounts, one.total)]
        totals.append(
            (f"All makers, {one.currency}" if currency.shown else "All makers", one.currency, one.claims, *whole)
        )
    oldest = buckets[-1]
    money = [ReportColumn(_bucket(name), 1.1, right=True, narrow=name == oldest) for name in buckets]
    return ReportTable(
        name="outstanding",
        caption=f"Outstanding{alone}, by days {aged}",
        columns=(
            ReportColumn("Maker", 1.7),
            currency,
            ReportColumn("Claims", 0.8, right=True, narrow=False),
            *money,
            ReportColumn("Total", 1.2, right=True),
        ),
        rows=rows,
        totals=totals,
        most=30,
        more=REST,
    )


def first_section(told: ManagerReport) -> Section:
    """What to do first, with the dates and the section of the law they come from."""
    items = told.pending
    notes = [
        f"{terms.id}: {terms.section}{f', read on {terms.read_on}' if terms.read_on else ''}." for terms in told.terms
    ]
    if told.terms:
        notes.append(CHECK)
    if any(item.dates.answer_estimated for item in items):
        notes.append("* The day of receipt is not noted, so the answer is counted from filing.")
    if any(not item.terms and item.dates.terms_known for item in items):
        notes.append("Some claims have no payment terms, and so no dates: name them in shop.toml.")
    notes += unread_said(told.amounts.unread)
    return Section(
        key="first",
        heading="What to do first",
        finding=" ".join([first_said(items, told.about.today), *(f"{rests}." for rests in rests_said(told.rests))]),
        tables=(_first(items, told.about),) if items else (),
        notes=tuple(notes),
    )


def _first(items: Sequence[Pending], about: About) -> ReportTable:
    currency, alone = in_currency(items)
    return ReportTable(
        name="what-to-do-first",
        caption=f"Filed and not settled, what to do first at the top{alone}; age: days {_counted(about)}",
        columns=(
            ReportColumn("Claim", 0.9),
            ReportColumn("Maker", 1.35, narrow=False),
            ReportColumn("What to do", 2.9),
            ReportColumn("By", 1.2),
            ReportColumn("Terms", shown=False),
            ReportColumn("Days late", 0.65, right=True, narrow=False),
            ReportColumn("First filed", 1.2, narrow=False),
            ReportColumn("Filed", 1.2, narrow=False),
            ReportColumn("Age", 0.55, right=True, narrow=False),
            ReportColumn("Outstanding", 1.15, right=True),
            currency,
            ReportColumn("Section", shown=False),
            ReportColumn("State", shown=False),
            ReportColumn("Answer by", shown=False),
            ReportColumn("Accepted by silence on", shown=False),
            ReportColumn("Refused by silence on", shown=False),
            ReportColumn("Audit reached to", shown=False),
            ReportColumn("Pay by", shown=False),
            ReportColumn("Send again by", shown=False),
            ReportColumn("Day of receipt not noted", shown=False),
        ),
        rows=[_line(item, about.today) for item in items],
        most=12,
        more="All of them: claimpack pending.",
    )


def _counted(about: About) -> str:
    return AGED["filed" if about.ageing == "due" else about.ageing]


def _by(item: Pending, today: date) -> date | None:
    """The date that was missed, else the next one to keep; one gone by only where none is to come."""
    dates = item.dates
    if item.days_overdue:
        return dates.pay_due or dates.answer_due
    to_come = [day for day in (dates.answer_due, dates.pay_due, dates.resubmit_by) if day and day >= today]
    return min(to_come, default=next_date(dates))


def _line(item: Pending, today: date) -> tuple[Cell, ...]:
    dates = item.dates
    return (
        item.claim,
        item.maker,
        f"{item.step}{' *' if dates.answer_estimated else ''}",
        _by(item, today),
        item.terms,
        item.days_overdue or None,
        item.first_filed,
        item.filed,
        item.age_days,
        coins(item.outstanding, item.currency),
        item.currency,
        item.cites,
        item.state,
        dates.answer_due,
        dates.accepted_by_silence_on,
        dates.refused_by_silence_on,
        dates.audit_reached_to,
        dates.pay_due,
        dates.resubmit_by,
        "yes" if dates.answer_estimated else "",
    )
