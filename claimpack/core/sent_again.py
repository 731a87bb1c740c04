"""A claim that is sent again: what was paid for it before, and what is asked for now."""

from __future__ import annotations

from decimal import Decimal

from claimpack.core.money import ZERO, in_money
from claimpack.core.pricing import Amounts
from claimpack.core.wording import Sentence, say


def sent_again(amounts: Amounts, paid_before: Decimal | None) -> Sentence | None:
    """That a claim is sent again, so that nobody takes its whole amount for what is asked for.

    Args:
        amounts: what it claims in all.
        paid_before: what was paid for it before; None where it is sent for the first time.

    Source: common practice, no source.
    """
    if paid_before is None:
        return None
    if not paid_before:
        return say("again.unpaid")
    asked = max(amounts.claimed - paid_before, ZERO)
    return say("again.paid", paid=in_money(paid_before, amounts.currency), asked=in_money(asked, amounts.currency))
