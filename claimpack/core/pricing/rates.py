"""What an hour of labour and the handling of a part are paid, and which of a plan's rates says so."""

from __future__ import annotations

from datetime import date
from decimal import Decimal
from typing import NamedTuple

from claimpack.core.claims.claim import Claim
from claimpack.core.clauses.pays import LabourRate
from claimpack.core.facts.lines import Labour, Part
from claimpack.core.plans.plan import Plan
from claimpack.core.values.money import percent, plain, rounded
from claimpack.core.values.wording.sentence import Sentence, say
from claimpack.core.values.words import folded


class Rate(NamedTuple):
    """A rate, and the notes that tell why it is this one; none where the plan has no other."""

    rate: Decimal
    notes: tuple[Sentence, ...] = ()


def labour_rate(entry: Labour, claim: Claim, plan: Plan, level: str) -> Rate:
    """What the maker pays for an hour of one entry.

    Of the rates that fit its class, the dealer's level and the day, one for a class is narrower than one for a level,
    which is narrower than one for neither; of those alike, the one from the latest day counts. Where none fits it is
    the plan's plain rate.

    Args:
        entry: the labour.
        claim: its claim; the day is that of the repair, else the one it was presented on.
        plan: the plan.
        level: the dealer's level with the maker; empty where it is not known.

    Source: common practice, no source.
    """
    said, on = folded(class_of(entry, plan)), claim.dates.repaired or claim.dates.presented
    fitting = [rate for rate in plan.pays.labour_rates if _fits(rate, said, folded(level), on)]
    if not fitting:
        return Rate(plan.pays.labour_rate)
    found = max(fitting, key=lambda rate: (bool(rate.class_), bool(rate.level), rate.from_ or date.min))
    return Rate(found.rate, tuple(_told(found)))


def class_of(entry: Labour, plan: Plan) -> str:
    """The class of an entry of labour: its own, else that of its operation; empty where there is none."""
    operation = plan.scheduled_operation(entry.operation)
    return entry.class_ or (operation.class_ if operation else "")


def _fits(rate: LabourRate, said: str, level: str, on: date) -> bool:
    own, of_level, since = rate.of()
    return own in ("", said) and of_level in ("", level) and (since is None or since <= on)


def _told(rate: LabourRate) -> list[Sentence]:
    paid, told = plain(rate.rate), []
    if rate.class_ and rate.level:
        told.append(say("price.rate-class-level", group=rate.class_, level=rate.level, rate=paid))
    elif rate.class_:
        told.append(say("price.rate-class", group=rate.class_, rate=paid))
    elif rate.level:
        told.append(say("price.rate-level", level=rate.level, rate=paid))
    return [*told, say("price.rate-from", since=rate.from_, rate=paid)] if rate.from_ else told


def handling(part: Part, plan: Plan) -> Rate:
    """What the maker adds for a part that it pays for, in money: a fraction of its cost by the band of its unit cost.

    For a part that the maker sent it is a fraction of its list price, where the plan says so; nothing without one.

    Source: common practice, no source.
    """
    if part.source == "maker":
        return _on_supplied(part, plan)
    rate = plan.pays.handling_rate(part.unit_cost)
    amount = rounded(rounded(part.quantity * part.unit_cost, plan.currency) * rate, plan.currency)
    if len(plan.pays.parts_handling) == 1:
        return Rate(amount)
    facts = {"percent": percent(rate), "cost": plain(part.unit_cost)}
    return Rate(amount, (say("price.handling-band", **facts),))


def _on_supplied(part: Part, plan: Plan) -> Rate:
    rate = plan.pays.handling_on_supplied
    if rate is None:
        return Rate(rounded(Decimal(0), plan.currency))
    if part.list_price is None:
        return Rate(rounded(Decimal(0), plan.currency), (say("price.no-list-price"),))
    amount = rounded(rounded(part.quantity * part.list_price, plan.currency) * rate, plan.currency)
    return Rate(amount, (say("price.handling-supplied", percent=percent(rate), list=plain(part.list_price)),))
