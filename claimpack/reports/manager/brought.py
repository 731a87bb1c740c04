"""The sections about what claims brought: what is lost and why, recovery, labour at both rates, technicians."""

from __future__ import annotations

from decimal import ROUND_HALF_UP, Decimal

from claimpack.core.reporting.findings import labour_finding, lost_finding, recovery_finding
from claimpack.core.reporting.manager_report import ManagerReport
from claimpack.core.values.money import coins
from claimpack.reports.manager.section import REST, ReportColumn, ReportTable, Section, in_currency


def lost_section(told: ManagerReport) -> Section:
    """Money lost by cause, what the shop might have helped first."""
    found = told.lost
    currency, alone = in_currency(found)
    table = ReportTable(
        name="lost-by-cause",
        caption=f"Lost money by cause{alone}",
        columns=(
            ReportColumn("Cause", 2.4),
            currency,
            ReportColumn("Claims", right=True),
            ReportColumn("Amount", 1.2, right=True),
        ),
        rows=[(one.cause, one.currency, one.claims, coins(one.amount, one.currency)) for one in found],
        most=30,
    )
    notes = (
        "Of claims filed in this period, and of drafts whose last day to file lies in it: a maker may take one late.",
        "Causes are read from the days and the steps on record, not from the maker's words.",
        "What was not resubmitted in time counts, though it may still be contested.",
        "A part is not kept where it was called back and not sent, or was not found at the last count.",
        "A letter is noted with: claimpack chase CLAIM --sent.",
    )
    return Section(
        "lost",
        "Lost money",
        lost_finding(found),
        tables=(table,) if found else (),
        notes=notes if found else (),
    )


def recovery_section(told: ManagerReport) -> Section:
    """What makers pay of what is claimed, by maker and operation."""
    found = told.recovered
    currency, alone = in_currency(found)
    table = ReportTable(
        name="recovery",
        caption=f"Recovery by maker and operation{alone}",
        columns=(
            ReportColumn("Maker", 1.4),
            ReportColumn("Operation", 2.0),
            currency,
            ReportColumn("Claims", 0.7, right=True, narrow=False),
            ReportColumn("Claimed", 1.1, right=True, narrow=False),
            ReportColumn("Paid", 1.1, right=True, narrow=False),
            ReportColumn("Still owed", 1.1, right=True, narrow=False),
            ReportColumn("Not paid", 1.1, right=True),
            ReportColumn("Recovered, %", 1.0, right=True, narrow=False),
        ),
        rows=[
            (
                *(one.maker, one.operation, one.currency, one.claims),
                *(coins(amount, one.currency) for amount in (one.claimed, one.paid, one.outstanding, one.lost)),
                None if one.share is None else (one.share * 100).quantize(Decimal("0.1"), ROUND_HALF_UP),
            )
            for one in found
        ],
        most=15,
        more=REST,
    )
    notes = (
        "A claim counts under its operation with most hours claimed.",
        "Recovered is what was paid, of what is not waited for any more.",
    )
    return Section(
        "recovery",
        "Recovery",
        recovery_finding(found),
        tables=(table,) if found else (),
        notes=notes if found else (),
    )


def labour_section(told: ManagerReport) -> Section:
    """Labour at the makers' rates against the shop's own, and every technician's time and income."""
    tables = (*((_rates(told),) if told.rates else ()), *((_people(told),) if told.technicians else ()))
    notes = (
        "Labour the maker is asked to pay, by the plan's hours and rate before shares and caps.",
        "Declined repairs and campaigns are left out. Income is that labour in the share of its claim that was paid.",
    )
    return Section("labour", "Labour", labour_finding(told), tables=tables, notes=notes if tables else ())


def _rates(told: ManagerReport) -> ReportTable:
    currency, alone = in_currency(told.rates)
    return ReportTable(
        name="labour-rate-against-retail",
        caption=f"Labour at the maker's rate and at the shop's own{alone}",
        columns=(
            ReportColumn("Maker", 1.8),
            currency,
            ReportColumn("Hours", right=True),
            ReportColumn("At the maker's rate", 1.4, right=True, narrow=False),
            ReportColumn("At the shop's own", 1.4, right=True, narrow=False),
            ReportColumn("Less", 1.1, right=True),
        ),
        rows=[
            (
                one.maker,
                one.currency,
                one.hours,
                *(coins(sum_, one.currency) for sum_ in (one.worth, one.retail, one.gap)),
            )
            for one in told.rates
        ],
        most=30,
        more=REST,
    )


def _people(told: ManagerReport) -> ReportTable:
    currency, alone = in_currency(told.technicians)
    return ReportTable(
        name="technicians",
        caption=f"Warranty work by technician{alone}",
        columns=(
            ReportColumn("Technician", 1.8),
            currency,
            ReportColumn("Claims", 0.8, right=True, narrow=False),
            ReportColumn("Hours worked", 1.1, right=True),
            ReportColumn("Hours claimed", 1.1, right=True, narrow=False),
            ReportColumn("Labour claimed", 1.3, right=True, narrow=False),
            ReportColumn("Income", 1.2, right=True),
        ),
        rows=[
            (
                *(one.technician, one.currency, one.claims, one.worked, one.claimed),
                *(coins(amount, one.currency) for amount in (one.worth, one.income)),
            )
            for one in told.technicians
        ],
        most=30,
        more=REST,
    )
