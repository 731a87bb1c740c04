"""Warranty booklets as somebody answers the questions about them: an answer for each question, Enter for all others."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date

from claimpack.commands.plans.booklet.session import BookletSession

HANDHELD = {
    "maker": "Brandt Ridge",
    "name": "Brandt Ridge handheld 2026",
    "models": "BR-*",
    "sold_from": "2026-01-01",
    "household": "2 years",
    "professional": "12 months",
    "professional.hours": "300 hours",
    "rental": "90 days",
    "parts1": "ignition coil, flywheel",
    "parts1.period": "3 years",
    "registered_within": "30 days",
    "registered_adds": "12 months",
    "registered_for": "unit-household",
    "second_owner": "no",
    "start_stock": "invoiced, built",
    "replaced": "90 days",
    "counter_part": "90 days",
    "fitted_part": "12 months",
    "excluded": "air filter, spark plug, starter rope",
    "words": "engine, carburettor",
    "labour_rate": "92.00",
    "handling": "30 % up to 50.00, 20 % up to 500.00, 10 % above",
    "extras": "freight 50.00, outside work 200.00 with approval",
    "claim_least": "10.00",
    "proof": "yes",
    "serial_roles": "unit",
    "shots": "serial plate, failed part",
    "filing": "30 days",
    "hold": "90 days",
}
BATTERY_TOOL = {
    "maker": "Copperfield",
    "name": "Battery tools",
    "household": "3 years",
    "professional": "2 years",
    "rental": "none",
    "parts1": "battery",
    "parts1.period": "3 years",
    "parts1.hours": "500 cycles",
    "parts1.alone": "yes",
    "shares": "by month, full until 12 months, of 36 months",
    "shares_for": "battery",
    "second_owner": "yes",
    "elsewhere": "charger",
    "elsewhere_maker": "Lumen Works",
    "words": "motor, switch",
    "labour_rate": "80",
    "handling": "15 %",
    "findings": "capacity 70 % or less for battery",
    "filing": "30 days",
    "hold": "60 days",
}
TRACTOR = {
    "maker": "Farrow",
    "name": "Compact tractors",
    "models": "FT-*",
    "model_years": "2024 to 2026",
    "household": "2 years",
    "household.hours": "1,500",
    "professional": "2 years",
    "professional.hours": "1,500",
    "rental": "12 months",
    "rental.hours": "1000 hours",
    "parts1": "engine, transmission",
    "parts1.period": "5 years",
    "parts1.hours": "3000 hours, whichever comes first",
    "shares": "100 % until 24 months, 50 % until 60 months",
    "shares_for": "engine",
    "pays": "parts, labour",
    "pays_for": "unit-rental",
    "rest": "shop",
    "second_owner": "yes",
    "transfer_within": "30 days",
    "transfer_fee": "25.00",
    "second_owner_period": "6 months",
    "repair_time": "yes",
    "excluded": "battery, tyres",
    "words": "hydraulic pump",
    "labour_rate": "98.00",
    "labour_rates": "level gold 110.00",
    "diagnosis": "0.5",
    "handling": "20 %",
    "handling_on_supplied": "10 %",
    "travel": "0.65 a mile, up to 100 miles, at most 65.00",
    "claim_cap": "6,000.00",
    "unit_cap": "4000.00 a year",
    "deductible": "50.00",
    "papers": "maintenance record for engine, transmission",
    "approval_above": "400.00",
    "filing": "45 days",
    "hold": "90 days",
}
MARINE_ENGINE = {
    "maker": "Saltmarsh",
    "currency": "EUR",
    "serials": "SM25-00100 to SM25-09999",
    "household": "3 years",
    "professional": "12 months",
    "professional.hours": "500 hours, 300 trips, whichever is last",
    "start": "in_service, delivered",
    "repair_adds": "12 months",
    "unproved": "6 months",
    "replaced": "rest",
    "words": "gearcase, propeller",
    "excluded": "propeller, anode",
    "labour_rate": "95",
    "claim_time": "lower",
    "handling": "20 %",
    "core": "yes",
    "travel": "40.00 a visit",
    "tax": "19 %",
    "part_returned_first": "yes",
    "filing": "2 months",
    "hold": "90 days",
}


def lines_typed(answers: Mapping[str, str]) -> str:
    """What is typed to the questions that these answers meet, a line each, and Enter where there is none.

    Raises:
        AssertionError: a question is never asked.
    """
    session, lines, left = BookletSession("own", date(2026, 3, 1), currency="USD"), [], dict(answers)
    for question in session.questions:
        if not session.is_open(question):
            continue
        typed = left.pop(question.key, "")
        lines.append(typed)
        meant = typed or question.suggestion(session)
        session.answer(question, meant) if meant else session.skip(question)
    if left:
        raise AssertionError(f"never asked: {', '.join(left)}")
    return "".join(f"{line}\n" for line in lines)
