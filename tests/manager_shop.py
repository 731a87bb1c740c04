"""A shop as its manager finds it: claims filed, answered and paid on given days, parts on its shelves."""

from __future__ import annotations

import datetime as dt
from pathlib import Path
from typing import Any

from builders import CLAIM, changed
from made_once import made_once
from running import NOW, Ran, claimpack
from shop_builders import the_desk

from claimpack.core.claims.claim import Claim
from claimpack.core.events.events import NewEvent

PART = {"part": "short block", "shelf": "B3", "since": "2025-12-01"}
EARLY = {
    "dates__failed": "2025-11-20",
    "dates__presented": "2025-11-24",
    "dates__repaired": "2025-12-01",
}


@made_once
def a_managed_shop(place: Path, terms: str = "us-tx") -> Path:
    """A shop under these terms, its book empty."""
    claimpack("shop", "init", "shop", "--terms", terms, "--currency", "USD", "--name", "Quarry Road", folder=place)
    return place / "shop"


def open_in(shop: Path, number: str = "26-0001", **changes: Any) -> None:
    """Take a claim in, repaired on the first of December."""
    claim = Claim.model_validate(changed(CLAIM, {"number": number, **EARLY, "held": [PART], **changes}))
    the_desk(shop).add(claim, NewEvent(what="opened", on=NOW.date()))


def took_place(shop: Path, number: str, what: str, on: str, **facts: str) -> None:
    """Let something happen to a claim on a day."""
    new_event = NewEvent(what=what, on=dt.date.fromisoformat(on), facts=facts)
    with the_desk(shop).changing(number) as changing:
        changing.keep(changing.claim, new_event)


def filed_in(shop: Path, number: str = "26-0001", on: str = "2026-01-02", received: str = "", **changes: Any) -> None:
    """A claim of 150.00 USD, taken in and filed on a day."""
    open_in(shop, number, **changes)
    facts = {"claimed": "150.00", "currency": "USD", "received": received, "revision": "1"}
    took_place(shop, number, "filed", on, **{name: fact for name, fact in facts.items() if fact})


def on(day: str, *arguments: object, shop: Path, **how: Any) -> Ran:
    """Run a command in the shop on a day."""
    now = dt.datetime.combine(dt.date.fromisoformat(day), dt.time(8), NOW.tzinfo)
    return claimpack(*arguments, folder=shop, now=now, **how)
