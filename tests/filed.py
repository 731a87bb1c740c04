"""Filed claims for tests of what is owed."""

from __future__ import annotations

from datetime import date
from decimal import Decimal
from typing import NamedTuple


class FiledClaim(NamedTuple):
    """A filed claim as lists know it."""

    number: str = "26-0001"
    maker: str = "halden"
    state: str = "filed"
    filed: date | None = date(2026, 1, 2)
    received: date | None = date(2026, 1, 2)
    first_filed: date | None = None
    asked_filed: date | None = None
    asked_received: date | None = None
    answered: date | None = None
    heard: date | None = None
    decided: date | None = None
    accepted_on: date | None = None
    refused_for_form: bool = False
    paid_on: date | None = None
    owed_again: date | None = None
    charged_back_on: date | None = None
    charged_from: date | None = None
    refused_rest: Decimal = Decimal(0)
    currency: str = "USD"
    claimed: Decimal = Decimal("100.00")
    paid: Decimal = Decimal(0)
    outstanding: Decimal = Decimal("100.00")
    part_awaited: bool = False
    verdict: str = "covered"
    gave_no_grounds: bool = False
    chased_on: date | None = None
    ask_again: date | None = None
