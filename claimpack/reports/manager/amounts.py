"""The section before all others: what can be lost this week, what makers are late with, what only the shop can move."""

from __future__ import annotations

from collections.abc import Sequence
from decimal import Decimal

from claimpack.core.reporting.findings import amounts_finding
from claimpack.core.reporting.manager_report import ManagerReport
from claimpack.core.reporting.three_amounts import EVERY_SHOP, TITLES, AtStake, by_shop, left_out, on_claims, sum_said
from claimpack.core.values.money import coins
from claimpack.core.values.numbers_said import how_many
from claimpack.reports.manager.section import REST, Figure, ReportColumn, ReportTable, Section, in_currency

_MOST = 5


def amounts_section(told: ManagerReport) -> Section:
    """The three amounts, each with the claims that most of it hangs on."""
    found = told.amounts
    lists = {name: getattr(found, name) for name in TITLES}
    tables = tuple(_table(name, some) for name, some in lists.items() if some)
    notes = [f"This week: up to {found.until}. Most money first; parts called back that are overdue count."]
    if found.in_two:
        notes.append(f"{how_many(found.in_two, 'claim stands', 'claims stand')} in more than one of the three.")
    return Section(
        key="amounts",
        heading="Money first",
        finding=amounts_finding(found, told.about.currency, told.undated),
        tables=(*_by_shop(told), *tables),
        notes=tuple(notes) if tables else (),
        figures=tuple(
            Figure(title, sum_said(lists[name], told.about.currency), _under(name, told))
            for name, title in TITLES.items()
        ),
    )


def _under(name: str, told: ManagerReport) -> str:
    return f"{on_claims(getattr(told.amounts, name))}{left_out(name, told.amounts, told.undated)}".lstrip(" ,")


def _by_shop(told: ManagerReport) -> tuple[ReportTable, ...]:
    """The three amounts of every shop, where the report is of several."""
    if told.whose is None:
        return ()
    sums = by_shop(told.amounts, told.whose, told.undated)
    currency, alone = in_currency(sums)
    rows = [(one.shop_shown, one.can_be_lost, _known(one.late), one.only_the_shop, one.currency) for one in sums]
    count = sum(one.shop == EVERY_SHOP for one in sums)
    return (
        ReportTable(
            name="by-shop",
            caption=f"By shop{alone}",
            columns=(
                ReportColumn("Shop", 1.4),
                *(ReportColumn(title, 1.6, right=True) for title in TITLES.values()),
                currency,
            ),
            rows=rows[:-count],
            totals=rows[-count:],
            most=len(rows),
        ),
    )


def _known(amount: Decimal | None) -> Decimal | str:
    return "not known" if amount is None else amount


def _table(name: str, some: Sequence[AtStake]) -> ReportTable:
    currency, alone = in_currency(some)
    return ReportTable(
        name=TITLES[name].lower().replace(" ", "-"),
        caption=f"{TITLES[name]}{alone}",
        columns=(
            ReportColumn("Claim", 0.9),
            ReportColumn("Amount", 1.0, right=True),
            currency,
            ReportColumn("What", 4.2),
            ReportColumn("By", 1.0),
            ReportColumn("Maker", 1.4, narrow=False),
        ),
        rows=[(one.claim, coins(one.amount, one.currency), one.currency, one.what, one.by, one.maker) for one in some],
        most=_MOST,
        more=REST,
    )
