"""A claim that was kept elsewhere until now: what a list says of it, what that lacks, and what is odd about it."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any, Literal

from claimpack.core.claims.claim import Claim
from claimpack.core.events.standing import Standing
from claimpack.core.facts.fields import ClaimNumber, Currency
from claimpack.core.facts.keys import record_from
from claimpack.core.facts.record import Record
from claimpack.core.values.days import Day
from claimpack.core.values.money import NotNegative, in_money
from claimpack.core.values.words import Line, Named, Text, run_on

StateTaken = Literal["draft", "filed", "questioned", "accepted", "part", "refused", "paid"]
"""Where a list may say that a claim stands; of `part` the maker accepts less than was claimed."""


class TakenOver(Record):
    """One row of a list of claims; what the list does not say is None or empty, and nothing is made up for it."""

    number: ClaimNumber
    maker: Named
    model: Named
    presented: Day
    state: StateTaken | None = None
    serial: Line = ""
    engine_serial: Line = ""
    kind: Line = ""
    owner: Line = ""
    phone: Line = ""
    email: Line = ""
    complaint: Text = ""
    component: Line = ""
    purchased: Day | None = None
    failed: Day | None = None
    repaired: Day | None = None
    filed: Day | None = None
    received: Day | None = None
    answered: Day | None = None
    paid_on: Day | None = None
    claimed: NotNegative | None = None
    accepted: NotNegative | None = None
    paid: NotNegative | None = None
    currency: Currency | None = None
    reference: Line = ""
    because: Text = ""


DAYS = ("presented", "purchased", "failed", "repaired", "filed", "received", "answered", "paid_on")
AMOUNTS = ("claimed", "accepted", "paid")
_DATES = ("purchased", "failed", "presented", "repaired")


def claim_of(row: TakenOver, source: str, names: dict[str, str]) -> Claim:
    """The claim that a row tells of.

    Args:
        row: the row.
        source: the file and the row, for messages.
        names: what each of the row's keys is called there.

    Raises:
        BadInput: its days contradict each other.
    """
    # one column for each: lists know a machine's number and an engine's, and no other
    serials = [("unit", row.serial), ("engine", row.engine_serial)]
    keys: dict[str, Any] = {
        "number": row.number,
        "maker": row.maker,
        "unit": {
            "model": row.model,
            "kind": row.kind,
            "serials": [{"role": role, "value": value} for role, value in serials if value],
        },
        "owner": {"name": row.owner, "phone": row.phone, "email": row.email},
        "dates": {key: getattr(row, key) for key in _DATES if getattr(row, key)},
        "failure": {"complaint": row.complaint, "component": row.component},
    }
    called = {f"dates.{key}": names.get(key, key) for key in _DATES}
    return record_from(Claim, _without_blanks(keys), source, called)


def _without_blanks(keys: dict[str, Any]) -> dict[str, Any]:
    kept = {key: _without_blanks(value) if isinstance(value, dict) else value for key, value in keys.items()}
    return {key: value for key, value in kept.items() if value not in ("", None, {})}


def is_answered(row: TakenOver, state: StateTaken) -> bool:
    """Whether the maker answered, said or shown by what it paid."""
    # paid in full of a part that was accepted: without that answer the rest would look as if it was still owed
    cut = state == "paid" and row.accepted is not None and row.accepted != row.claimed
    return state in ("questioned", "accepted", "part", "refused") or bool(row.answered) or cut


LACKING = {
    "filed": "the day it was filed is missing",
    "answered": "the day the maker answered is missing",
    "paid_on": "the day it was paid is missing",
    "claimed": "how much was claimed is missing",
    "currency": 'the currency is not known; say it in shop.toml, as in currency = "USD", or in a column',
    "accepted": "how much the maker accepts is missing",
}


def lacking(row: TakenOver) -> tuple[tuple[str, str], ...]:
    """The keys that a claim needs to stand where its row says and that the row lacks, each with what to tell.

    Source: a rule of this tool's, no source.
    """
    state, wanted = row.state or state_told(row), list[str]()
    if state != "draft":
        wanted += ["filed", "claimed", "currency"]
    if is_answered(row, state):
        wanted += ["answered", *(["accepted"] if state == "part" else [])]
    wanted += ["paid_on"] if row.paid else []
    return tuple((key, LACKING[key]) for key in wanted if getattr(row, key) is None)


def state_told(row: TakenOver) -> StateTaken:
    """Where days and amounts alone leave a claim."""
    if row.accepted is not None and row.answered:
        return "accepted" if row.accepted == row.claimed else "part"
    return "filed" if row.filed else "draft"


def oddities(rows: Sequence[tuple[int, TakenOver, Standing, str]]) -> list[str]:
    """What is odd about claims that can be taken over all the same, in the order of their rows.

    Args:
        rows: each with its place, what it says, where that leaves the claim, and the verdict.

    Source: a rule of this tool's, no source.
    """
    by_serial: dict[str, int] = {}
    told = []
    for place, row, standing, verdict in rows:
        where, serial = f"row {place}, {row.number}", run_on(row.serial)
        if serial and serial in by_serial:
            told.append(f"{where}: the serial {row.serial} stands in row {by_serial[serial]} too.")
        by_serial.setdefault(serial, place)
        # a draft's amount follows from its plan, and an amount beside it would be a second answer
        if row.claimed and standing.state == "draft":
            told.append(f"{where}: a draft, so its amount is worked out here; the list's {row.claimed} is not taken.")
        if standing.paid and standing.outstanding:
            told.append(f"{where}: paid, and {in_money(standing.outstanding, standing.currency)} is outstanding.")
        if standing.filed and verdict == "not covered":
            told.append(f"{where}: filed, and not covered as it stands here.")
    return told
