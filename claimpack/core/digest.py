"""The few facts of an assessed claim that lists are drawn from."""

from __future__ import annotations

from datetime import date

from claimpack.core.assessment import Assessment
from claimpack.core.claim import Record
from claimpack.core.deadlines import file_by
from claimpack.core.money import ZERO, Number


class Digest(Record):
    """What a list of claims shows of one, without reading the whole claim again."""

    plan: str = ""
    verdict: str = "undecided"
    complete: bool = False
    covered_until: date | None = None
    file_by: date | None = None
    currency: str = ""
    claimed: Number = ZERO
    hold_for: str = ""
    hold_of: str = ""


def digest(assessment: Assessment) -> Digest:
    """The facts of an assessment that lists are drawn from."""
    plan, amounts, window = assessment.plan, assessment.amounts, assessment.window
    filing = plan.filing if plan else None
    event = getattr(assessment.claim.dates, filing.of) if filing else None
    return Digest(
        plan=plan.id if plan else "",
        verdict=assessment.verdict,
        complete=assessment.complete,
        covered_until=window.ends if window else None,
        file_by=file_by(filing, event) if filing and event else None,
        currency=amounts.currency if amounts else "",
        claimed=amounts.claimed if amounts else ZERO,
        hold_for=str(plan.hold.for_) if plan and plan.hold else "",
        hold_of=plan.hold.of if plan and plan.hold else "",
    )
