"""What tests of the manager report start from: claims as it counts them, and a whole report over them."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date
from decimal import Decimal
from typing import Any

from filed import FiledClaim

from claimpack.core.events.events import Event
from claimpack.core.holding.held_by_age import ShelvedPart
from claimpack.core.holding.release_rules import RAN_OUT
from claimpack.core.payment.pending import pending
from claimpack.core.plans.terms import Terms
from claimpack.core.reporting.manager_report import About, Gathered, ManagerReport, manager_report
from claimpack.core.reporting.reported import Days, Loss, ReportedClaim
from claimpack.core.reporting.three_amounts import Watched
from claimpack.core.reporting.work import Work
from claimpack.reports.manager.section import Report, ReportTable
from claimpack.reports.manager.sections import report_of

TODAY = date(2026, 3, 1)
EVER = Days(None, TODAY)

PAID = ReportedClaim(
    number="26-0001",
    maker="Halden",
    model="CS-70",
    component="short block",
    unit="HC70-1",
    state="paid",
    presented=date(2026, 1, 2),
    filed=date(2026, 1, 10),
    paid_on=date(2026, 2, 9),
    currency="USD",
    claimed=Decimal("100.00"),
    accepted=Decimal("100.00"),
    paid=Decimal("100.00"),
    written_off=Decimal(0),
    outstanding=Decimal(0),
)


def paid(number: str = "26-0001", **changes: Any) -> ReportedClaim:
    """A claim of 100.00 USD filed on 2026-01-10 and paid 30 days later, changed."""
    return PAID._replace(number=number, **changes)


def waiting(number: str = "26-0002", **changes: Any) -> ReportedClaim:
    """A claim of 100.00 USD filed on 2026-01-10 and not answered, changed."""
    still = {"state": "filed", "paid_on": None, "accepted": None, "paid": Decimal(0), "outstanding": Decimal("100.00")}
    return PAID._replace(number=number, **{**still, **changes})


def shelved(code: str = "26-0001/1", **changes: Any) -> ShelvedPart:
    """A part held since 2026-02-10 that must be kept, changed."""
    part = ShelvedPart(code, "short block", "Halden", "CS-70", "B3", "held", date(2026, 2, 10), None, None, None)
    return part._replace(**changes)


TERMS = Terms.model_validate(
    {
        "id": "us-tx",
        "name": "Texas",
        "cites": "Tex. Bus. & Com. Code 57.253",
        "answer_within": "P45D",
        "answer_from": "filed",
        "silence": "accepted",
        "pay_within": "P30D",
    }
)


def counted(fold: Any, claims: Iterable[ReportedClaim]) -> Any:
    """What is told of claims once each was counted."""
    for claim in claims:
        fold.add(claim)
    return fold.told()


def answered(claims: Iterable[ReportedClaim], answers: Iterable[Event]) -> list[ReportedClaim]:
    """Claims with the answers among these that are about them."""
    told = list(answers)
    return [one._replace(answers=tuple(each for each in told if each.claim == one.number)) for one in claims]


def told(
    claims: tuple[ReportedClaim, ...] = (), owed: tuple[FiledClaim, ...] = (), shop: str = "Quarry Road", **more: Any
) -> ManagerReport:
    """A Monday over these claims, these filed ones under Texan terms, and what else is gathered."""
    terms = {claim.number: more.get("terms", TERMS) for claim in owed}
    gathered = Gathered(
        claims=answered(claims, more.get("answers", ())),
        pending=pending(owed, terms, TODAY),
        held=more.get("held", ()),
        terms=terms,
        rests=more.get("rests", ()),
        watched=more.get("watched", Watched()),
    )
    return manager_report(gathered, About(shop, TODAY, more.get("days", EVER), more.get("maker", "")))


def a_report(**changes: Any) -> Report:
    """A report with something in every section, changed as `told` is."""
    claims = tuple(paid(f"26-{index:04}", unit=f"HC70-{index}") for index in range(1, 12))
    owed = (FiledClaim(maker="Halden", filed=date(2025, 12, 1), received=date(2025, 12, 1)), FiledClaim("26-0050"))
    filled = {
        "claims": (*claims, waiting("26-0050", unit="HC70-1")),
        "owed": owed,
        "held": (shelved(rule=RAN_OUT, because="the plan's hold ended on 2026-02-20"),),
    }
    return report_of(told(**{**filled, **changes}))


def refused(number: str = "1", why: str = "No plate", form: str = "yes") -> Event:
    """The answer of 2026-02-01 that refuses a claim, for form unless told."""
    facts = {"answer": "refused", "form": form}
    return Event.model_construct(claim=number, what="answered", on=date(2026, 2, 1), why=why, facts=facts)


def every_table() -> dict[str, ReportTable]:
    """Every table that a report of one shop in one currency has, by name."""
    work = Work("Replace seal", "Jory", Decimal("1.5"), Decimal("1.0"), Decimal("90.00"), Decimal("100.00"))
    loss = Loss("26-0001", "Halden", "refused", Decimal("5.00"), "USD", date(2026, 1, 10))
    held = (
        shelved(rule=RAN_OUT, because="the plan's hold ended on 2026-02-20"),
        shelved(state="called back", send_by=date(2026, 3, 4)),
        shelved(rule=RAN_OUT, doubt="the claim is filed"),
        shelved(missing=date(2026, 2, 28)),
    )
    claims = tuple(paid(f"26-{index:04}", work=(work,), losses=(loss,)) for index in range(1, 12))
    waits = (waiting("26-0050", unit="HC70-2"), waiting("26-0051", unit="HC70-2"))
    few = report_of(told((paid(), paid("2"))))
    full = a_report(claims=(*claims, *waits), held=held, answers=(refused("26-0050"),))
    return {table.name: table for report in (few, full) for section in report.sections for table in section.tables}
