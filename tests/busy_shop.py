"""A shop with a year and more of claims in its book: filed, questioned, refused, paid, held on its shelves."""

from __future__ import annotations

import datetime as dt
import random
from collections.abc import Iterator
from decimal import Decimal
from pathlib import Path
from typing import Any, NamedTuple

from book_builders import an_entry
from running import claimpack

from claimpack.book.opening import open_book
from claimpack.book.tables.entries import Author, Entry
from claimpack.core.events.events import NewEvent
from claimpack.core.holding.release_rules import RELEASED
from claimpack.core.judging.claim_summary import ClaimSummary
from claimpack.template_files import Places, mark_of_plans

TODAY = dt.date(2026, 9, 7)
WRITER = Author("ann", dt.datetime(2026, 9, 7, 8, 0, tzinfo=dt.UTC))
MACHINES = {
    "Halden": (("CS-70", "short block"), ("CS-70", "ignition coil"), ("HT-20", "clutch"), ("BT-40", "battery")),
    "Orrin & Vale": (("RM-42", "transmission"), ("RM-42", "spindle"), ("G-3000", "voltage regulator")),
    "Tessaly Pumps": (("PW-26", "pump"), ("TP-80", "seal"), ("PW-26", "unloader valve")),
}
SPEED = {"Halden": 34, "Orrin & Vale": 52, "Tessaly Pumps": 24}
MARK = mark_of_plans(Places())
"""Of the plans that come with the program: drafts count as judged under them."""
REASONS = (
    ("Serial plate photo missing", True),
    ("serial plate photo missing.", True),
    ("No proof of purchase", True),
    ("Fuel contamination: not a defect", False),
    ("Outside the coverage period", False),
    ("Wear item", False),
)


class Drawn(NamedTuple):
    """A claim made up: its entry and what happened to it."""

    entry: Entry
    happened: list[NewEvent]


def drawn_claims(count: int, seed: int = 7) -> Iterator[Drawn]:
    """So many claims over 16 months, the same every time."""
    draw = random.Random(seed)
    for index in range(count):
        maker = draw.choices(tuple(MACHINES), (5, 3, 2))[0]
        model, component = draw.choice(MACHINES[maker])
        presented = TODAY - dt.timedelta(days=3 + (count - index) * 480 // count)
        repaired = presented + dt.timedelta(days=draw.randint(1, 16))
        serial = f"{model}-{draw.randint(1, count * 3):05}"
        claimed = Decimal(draw.randint(4200, 92000)) / 100
        currency = "CAD" if maker == "Tessaly Pumps" and draw.random() < 0.4 else "USD"
        changes = {
            "maker": maker,
            "unit": {"model": model, "meter": False, "serials": [{"role": "unit", "value": serial}]},
            "dates": {"purchased": "2024-12-01", "presented": presented.isoformat(), "repaired": repaired.isoformat()},
            "failure__component": component,
            "held": [{"part": component, "shelf": f"{draw.choice('ABC')}{draw.randint(1, 6)}", "since": f"{repaired}"}],
        }
        summary = ClaimSummary(
            judged_by=MARK, verdict="covered", currency=currency, claimed=claimed, hold_for="P90D", hold_of="filed"
        )
        entry = an_entry(f"{presented:%y}-{index:04}", summary=summary, **changes)
        yield Drawn(entry, list(_life(draw, maker, repaired, claimed, currency)))


def _life(draw: random.Random, maker: str, repaired: dt.date, claimed: Decimal, currency: str) -> Iterator[NewEvent]:
    """Opened, filed, answered, paid: as far as the day it is."""
    yield NewEvent(what="opened", on=repaired)
    filed = repaired + dt.timedelta(days=draw.randint(0, 12))
    if filed > TODAY:
        return
    yield _filed(filed, claimed, currency)
    answered = filed + dt.timedelta(days=draw.randint(4, 40))
    chance = draw.random()
    if chance < 0.16:
        because, form = draw.choice(REASONS)
        facts = {"answer": "refused", **({"form": "yes"} if form else {})}
        if answered < TODAY:
            yield NewEvent(what="answered", on=answered, why=because, facts=facts)
            yield from _after_refusal(draw, answered, claimed, currency, form=form)
        return
    paid_on = filed + dt.timedelta(days=max(4, int(draw.lognormvariate(0, 0.5) * SPEED[maker])))
    if paid_on > TODAY or chance > 0.97:
        if 0.3 < chance < 0.5 and answered < TODAY:
            yield NewEvent(what="answered", on=answered, facts={"answer": draw.choice(("accepted", "questioned"))})
        return
    if chance > 0.85:
        less = (claimed * 7 / 10).quantize(Decimal("0.01"))
        yield NewEvent(what="answered", on=filed, facts={"answer": "part", "amount": str(less)})
        claimed = less
    yield NewEvent(what="paid", on=paid_on, facts={"amount": str(claimed)})
    if TODAY - paid_on < dt.timedelta(days=60):
        facts = {"part": "1", "send_by": str(paid_on + dt.timedelta(days=30))}
        yield NewEvent(what="part called back", on=paid_on, facts=facts)
    elif draw.random() < 0.5:
        yield NewEvent(what="part released", on=paid_on, facts={"part": "1", "rule": RELEASED})
        if draw.random() < 0.8:
            yield NewEvent(what="part scrapped", on=paid_on, facts={"part": "1"})


def _filed(on: dt.date, claimed: Decimal, currency: str) -> NewEvent:
    facts = {"claimed": str(claimed), "currency": currency, "received": str(on + dt.timedelta(days=2)), "revision": "1"}
    return NewEvent(what="filed", on=on, facts=facts)


def _after_refusal(
    draw: random.Random, answered: dt.date, claimed: Decimal, currency: str, *, form: bool
) -> Iterator[NewEvent]:
    """Put right and paid, written off, or left lying."""
    later = answered + dt.timedelta(days=30)
    if later > TODAY:
        return
    if form and draw.random() < 0.7:
        yield _filed(answered + dt.timedelta(days=5), claimed, currency)
        yield NewEvent(what="paid", on=later, facts={"amount": str(claimed)})
    elif draw.random() < 0.6:
        yield NewEvent(what="written off", on=later, facts={"amount": str(claimed)})


def a_busy_shop(place: Path, count: int = 200, **options: Any) -> Path:
    """A shop whose book holds so many of them."""
    name = options.get("name", "Quarry Road Small Engine")
    claimpack("shop", "init", "shop", "--name", name, "--terms", "us-tx", "--currency", "USD", folder=place)
    book = open_book(str(place / "shop" / "book.sqlite"))
    for drawn in drawn_claims(count):
        book.add([drawn.entry], WRITER, *drawn.happened)
    book.engine.dispose()
    return place / "shop"
