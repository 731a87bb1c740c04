"""What the shop may hold against a late answer, a refusal without grounds, or a charge-back no audit could reach."""

from __future__ import annotations

from decimal import Decimal

from claimpack.core.events.standing import Standing
from claimpack.core.payment.payment_dates import DatedFrom, PaymentDates, audit_reached_to
from claimpack.core.plans.terms import Terms
from claimpack.core.values.money import ZERO


def contested(standing: DatedFrom, dates: PaymentDates, *, part_awaited: bool = False) -> Decimal:
    """What the shop may hold against a late answer: all that silence accepted and the answer does not.

    Against a refusal without grounds that the terms count as acceptance: all of it, but nothing while the maker, that
    pays when the part is there, waits for it. Zero where the answer came in time with its grounds, where the terms
    give silence no such meaning, or where nothing is left.

    Source: the section the terms cite; that a late answer does not undo an acceptance is the shop's reading to check.
    """
    if dates.answered_late is None and (dates.no_grounds_on is None or part_awaited):
        return ZERO
    # nothing of the answer counts where silence had accepted all of it
    if standing.state in ("refused", "questioned"):
        return standing.outstanding
    return standing.outstanding + standing.refused_rest if standing.refused_rest else ZERO


def charged_back_late(standing: Standing, terms: Terms | None) -> Decimal:
    """What the shop may hold against charge-backs that came after an audit of what was paid could reach.

    Zero where they came in time, where the terms set no such time, or where nothing is outstanding.

    Source: the section the terms cite; that a charge-back after that time does not stand is a reading to check.
    """
    taken = ZERO
    for payment, paid_on in standing.with_their_payments():
        reached_to = audit_reached_to(paid_on, terms)
        # each charge-back against the payment before it, from which an audit reaches; no payment is beyond its own
        if reached_to and payment.on > reached_to:
            taken -= payment.amount
    # what the maker has paid again since is no matter for a letter
    return min(taken, standing.outstanding) if standing.state == "accepted" else ZERO
