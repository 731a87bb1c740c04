"""What is doubtful in what a plan says of money."""

from __future__ import annotations

from collections.abc import Callable, Iterable

from claimpack.core.plans.plan import Plan
from claimpack.core.values.money import fits, plain
from claimpack.core.values.words import did_you_mean, is_said, nearest

_NEAR = 0.75
"""How alike the diagnosis and an operation are written that may be one."""


def amounts_beyond_currency(plan: Plan) -> Iterable[str]:
    """Caps and limits must be payable in the plan's currency.

    Source: ISO 4217 minor units.
    """
    amounts = {"requires.approval_above": plan.requires.approval_above, "pays.extras_cap": plan.pays.extras_cap}
    for key, amount in amounts.items():
        if amount is not None and not fits(amount, plan.currency):
            yield f"{key}: {plain(amount)} has more decimals than {plan.currency} has"


def pays_nothing(plan: Plan) -> Iterable[str]:
    """A plan without a labour rate prices hours at nothing, unless one of its rates is for every hour.

    Source: a rule of this tool's, no source.
    """
    if not plan.pays.labour_rate and not any(rate.of() == ("", "", None) for rate in plan.pays.labour_rates):
        yield "pays.labour_rate is 0, so labour would be claimed at nothing"


def rates_for_nobody(plan: Plan) -> Iterable[str]:
    """A labour rate for a class that no operation of the schedule is of may be misspelt.

    Where there is no schedule, each labour line of a claim says its own class.

    Source: a rule of this tool's, no source.
    """
    if not plan.operation:
        return
    classes = [operation.class_ for operation in plan.operation if operation.class_]
    for rate in plan.pays.labour_rates:
        if rate.class_ and not is_said(rate.class_, classes):
            hint = did_you_mean(rate.class_, classes)
            yield f"pays.labour_rates: no operation is of class {rate.class_!r}. {hint}".rstrip()


def rates_that_compete(plan: Plan) -> Iterable[str]:
    """A rate for a class and one for a level both fit some labour; that of the class counts, which may not be meant.

    Source: a rule of this tool's, no source.
    """
    said = [(rate.class_, rate.level) for rate in plan.pays.labour_rates]
    for group in sorted({group for group, level in said if group and not level}):
        for level in sorted({level for of, level in said if level and not of}):
            if (group, level) not in said:
                yield (
                    f"pays.labour_rates: {group} labour at level {level} is paid the rate of its class; "
                    "write one with both if the agreement says otherwise"
                )


def costs_above_the_bands(plan: Plan) -> Iterable[str]:
    """Parts above the last band of handling have none added.

    Source: a rule of this tool's, no source.
    """
    highest = plan.pays.parts_handling[-1].up_to
    if highest is not None:
        yield f"pays.parts_handling: parts above {plain(highest)} have no handling; write a last band without up_to"


def diagnosis_of_nothing(plan: Plan) -> Iterable[str]:
    """A diagnosis that the schedule has under nearly the same code or name is most likely that one mistyped.

    Source: a rule of this tool's, no source.
    """
    diagnosis, codes = plan.pays.diagnosis, [operation.code for operation in plan.operation]
    by_name = {
        name: operation.code for operation in plan.operation for name in (operation.name, operation.code) if name
    }
    # one that resembles nothing is free text, which a plan may pay as well
    if diagnosis and not is_said(diagnosis.operation, codes) and (near := nearest(diagnosis.operation, by_name, _NEAR)):
        yield f"pays.diagnosis: {diagnosis.operation!r} is not in the schedule. Did you mean {by_name[near]!r}?"


def cap_below_the_deductible(plan: Plan) -> Iterable[str]:
    """A unit is paid nothing where the cap for it is not above what each claim leaves to somebody else.

    Source: a rule of this tool's, no source.
    """
    cap, deductible = plan.pays.unit_cap, plan.pays.deductible
    if cap and deductible and cap.amount <= deductible.amount:
        yield "pays.unit_cap: the deductible takes all of it, so no claim would be paid"


def claims_never_paid(plan: Plan) -> Iterable[str]:
    """No claim is paid where the least that is paid is above what the cap and the deductible leave.

    Source: a rule of this tool's, no source.
    """
    cap, least, deductible = plan.pays.claim_cap, plan.pays.claim_least, plan.pays.deductible
    # the order of pricing: the cap, less the deductible, is held against the least
    if cap is not None and cap - (deductible.amount if deductible else 0) < (least or 0):
        yield "pays.claim_least: no claim reaches it, by the cap and the deductible, so none would be paid"


MONEY_RULES: tuple[Callable[[Plan], Iterable[str]], ...] = (
    amounts_beyond_currency,
    pays_nothing,
    rates_for_nobody,
    rates_that_compete,
    costs_above_the_bands,
    diagnosis_of_nothing,
    cap_below_the_deductible,
    claims_never_paid,
)
"""Every rule about money, in the order it is told."""
