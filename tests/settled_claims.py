"""A claim filed for 159.70 and what happened to it since, for tests of the steps that settle it."""

from __future__ import annotations

from datetime import date

from claimpack.core.events.events import NewEvent
from claimpack.core.events.fold import stand
from claimpack.core.steps.settling import Step

FILED, TODAY = date(2026, 3, 2), date(2026, 3, 20)
STEP = Step(on=TODAY, why="As agreed.")
SILENT = Step(on=TODAY)


def happened(what, why="", **facts):
    return NewEvent(what=what, on=FILED, why=why, facts=facts)


def standing(*more, currency="USD"):
    """Where the claim stands after more has happened."""
    filed = happened("filed", claimed="159.70", currency=currency, packet="ab", revision="1")
    return stand([happened("opened"), filed, *more])


ACCEPTED = happened("answered", answer="accepted")
PAID = happened("paid", amount="100.00")
