"""What findings put at risk: the money that a maker paid or is asked for on the claims they name."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from decimal import Decimal
from typing import NamedTuple

from claimpack.core.auditing.audited import Irregularity
from claimpack.core.events.standing import Standing
from claimpack.core.values.money import ZERO, summed

_NOTHING_TO_LOSE = ("below-floor", "evidence-missing.elsewhere")
"""Sentences that tell what the maker owes the shop, or that something is not known here."""


class AtRisk(NamedTuple):
    """Money on one claim that its maker paid, or is asked for."""

    currency: str
    amount: Decimal


def on_claim(standing: Standing) -> AtRisk:
    """What a maker could charge back or refuse of a claim; nothing of a draft, or of one refused or given up unpaid."""
    # what was refused is lost already, unless it is sent in again
    asked = ZERO if standing.state == "refused" else standing.outstanding
    return AtRisk(standing.currency, max(standing.paid, ZERO) + asked)


def claims_at_risk(found: Iterable[Irregularity]) -> set[str]:
    """The claims whose money findings put at risk."""
    return {claim for each in found if each.says[0].key not in _NOTHING_TO_LOSE for claim in each.claims}


def at_risk(found: Iterable[Irregularity], claims: Mapping[str, AtRisk]) -> dict[str, Decimal]:
    """What findings put at risk, by currency, each claim's money once; empty where there is none.

    Args:
        found: the findings.
        claims: the money on every claim they name, by its number.

    Source: a rule of this tool's, no source; an auditor strikes a claim as a whole.
    """
    sums = summed(claims[number] for number in claims_at_risk(found) if number in claims)
    return {currency: amount for currency, amount in sums.items() if amount}
