"""The manager report before it is drawn: its sections in their order, and what stands around them."""

from __future__ import annotations

from collections.abc import Mapping

from claimpack.core.reporting.findings import days_said
from claimpack.core.reporting.manager_report import ManagerReport
from claimpack.core.values.numbers_said import how_many
from claimpack.reports.manager.amounts import amounts_section
from claimpack.reports.manager.brought import labour_section, lost_section, recovery_section
from claimpack.reports.manager.held_parts import held_section
from claimpack.reports.manager.owed import first_section, outstanding_section
from claimpack.reports.manager.payment import months_section, speed_section
from claimpack.reports.manager.section import Report, ReportColumn, ReportTable, Section
from claimpack.reports.manager.trouble import refusals_section, repeats_section

# What is to be done this week first, what there is to learn from last.
_SECTIONS = (
    amounts_section,
    first_section,
    outstanding_section,
    held_section,
    speed_section,
    months_section,
    lost_section,
    recovery_section,
    labour_section,
    refusals_section,
    repeats_section,
)


def report_of(told: ManagerReport) -> Report:
    """Everything told, as sections."""
    about = told.about
    whose = f"claims on {about.maker}" if about.maker else "all makers"
    where = f"that are {about.shop_id}'s" if about.shop_id else "in the book"
    facts = (
        f"As of {about.today}; {whose}; {how_many(told.claims, 'claim')} {where}.",
        f"What to do, what is outstanding and what is held: as of that day. Everything else: {days_said(told)}.",
        *about.beside,
    )
    return Report(
        title="Monday report",
        shop=about.shop,
        today=about.today,
        about=facts,
        sections=tuple(_with_shops(section(told), told.whose) for section in _SECTIONS),
    )


def _with_shops(section: Section, whose: Mapping[str, str] | None) -> Section:
    """A section of a report of several shops, with whose each claim is in every table of claims."""
    if whose is None:
        return section
    return section._replace(tables=tuple(_with_shop(table, whose) for table in section.tables))


def _with_shop(table: ReportTable, whose: Mapping[str, str]) -> ReportTable:
    first, *more = table.columns
    if first.heading not in ("Claim", "Code"):
        return table
    # a held part's code begins with its claim's number
    rows = [(cell, whose.get(str(cell).partition("/")[0], ""), *rest) for cell, *rest in table.rows]
    totals = [(cell, "", *rest) for cell, *rest in table.totals]
    # a list of one shop's claims alone would not have them all
    rest = table.more.replace(".", " --all-shops.") if "claimpack" in table.more else table.more
    return table._replace(columns=(first, ReportColumn("Shop", 0.9), *more), rows=rows, totals=totals, more=rest)
