"""Serial numbers that have not the form the plan gives."""

from __future__ import annotations

from collections.abc import Sequence

from claimpack.core.claims.claim import Claim
from claimpack.core.clauses.serial_pattern import has_form
from claimpack.core.facts.unit import Serial, Unit
from claimpack.core.plans.plan import Plan
from claimpack.core.values.wording.sentence import say
from claimpack.core.verdict.matching import may_fall_under


def of_another_form(unit: Unit, plan: Plan) -> list[Serial]:
    """The serial numbers of a unit that do not have the form its plan gives, in the order of the plan's forms.

    Source: common practice, no source.
    """
    numbers = ((role, pattern, unit.serial(role)) for role, pattern in plan.requires.serial_patterns.items())
    return [
        Serial(role=role, value=value) for role, pattern, value in numbers if value and not has_form(pattern, value)
    ]


def odd_serials(claim: Claim, plans: Sequence[Plan]) -> list[str]:
    """A sentence a serial number that has the form of none of the plans the claim may fall under; none without a plan.

    Source: common practice, no source.
    """
    odd = [of_another_form(claim.unit, plan) for plan in may_fall_under(claim, plans)]
    shared = [serial for serial in odd[0] if all(serial in others for others in odd)] if odd else []
    return [str(say("why.serial-form", value=serial.value, role=serial.role)) for serial in shared]
