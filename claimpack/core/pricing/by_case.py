"""What is claimed by the kind of case: of a campaign its own operation and parts, of a declined repair nothing."""

from __future__ import annotations

from typing import Any

from claimpack.core.claims.claim import Claim
from claimpack.core.clauses.operations import Operation
from claimpack.core.facts.fields import Payer
from claimpack.core.facts.lines import Labour
from claimpack.core.plans.campaign import Campaign
from claimpack.core.plans.plan import Plan
from claimpack.core.pricing.labour import is_diagnosis
from claimpack.core.pricing.rates import class_of
from claimpack.core.values.words import folded, run_on


def under_campaign(claim: Claim, plan: Plan, campaign: Campaign) -> tuple[Claim, Plan]:
    """A claim with what its campaign pays left to the maker, the rest to the shop, and the plan with its operation.

    Deductible, least and caps of the plan are of repairs under warranty: a campaign is paid by its own schedule.

    Source: a campaign is paid by a fixed schedule: common practice, no source.
    """
    own = campaign.operation
    operation = Operation.model_validate({"code": own.code, "name": own.name, "hours": own.hours, "class": own.class_})
    others = tuple(one for one in plan.operation if folded(one.code) != folded(own.code))
    pays = plan.pays.model_copy(update={"deductible": None, "claim_least": None, "claim_cap": None, "unit_cap": None})
    paid = {run_on(number) for number in campaign.parts}
    left = {
        "labour": tuple(_left(line, folded(line.operation) == folded(own.code), "shop") for line in claim.labour),
        "parts": tuple(_left(line, run_on(line.number) in paid, "shop") for line in claim.parts),
        "extras": tuple(_left(line, paid=False, to="shop") for line in claim.extras),
    }
    return claim.model_copy(update=left), plan.model_copy(update={"operation": (*others, operation), "pays": pays})


def when_declined(claim: Claim, plan: Plan) -> tuple[Claim, Plan]:
    """A claim from which the diagnosis alone is asked of the maker, where its plan pays one; the rest is the owner's.

    The schedule is of repairs that were made: of one that was not, the time that was clocked or stated counts.

    Source: common practice, no source.
    """
    left = {
        "parts": tuple(_left(line, paid=False, to="owner") for line in claim.parts),
        "labour": tuple(
            line if is_diagnosis(line.operation, plan) else _as_worked(line, plan) for line in claim.labour
        ),
        "extras": tuple(_left(line, paid=False, to="owner") for line in claim.extras),
    }
    diagnosis = tuple(one for one in plan.operation if is_diagnosis(one.code, plan))
    return claim.model_copy(update=left), plan.model_copy(update={"operation": diagnosis})


def _as_worked(line: Labour, plan: Plan) -> Labour:
    """Labour under its name in words, which no schedule knows, at its own class; left to the owner."""
    scheduled = plan.scheduled_operation(line.operation)
    name = (scheduled.name or scheduled.code) if scheduled else line.operation
    payer = "owner" if line.payer == "maker" else line.payer
    return line.model_copy(update={"operation": name, "class_": class_of(line, plan), "payer": payer})


def _left(line: Any, paid: bool, to: Payer) -> Any:
    return line if paid or line.payer != "maker" else line.model_copy(update={"payer": to})
