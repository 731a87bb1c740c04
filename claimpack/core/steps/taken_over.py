"""A claim that was kept elsewhere until now: what a list says of it, and the history it comes into the book with."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from datetime import date
from decimal import Decimal
from typing import Any, Literal, NamedTuple

from claimpack.core.claims.claim import Claim
from claimpack.core.events.events import Event, NewEvent
from claimpack.core.events.fold import Folding
from claimpack.core.events.standing import Standing
from claimpack.core.events.transitions import may_follow
from claimpack.core.facts.fields import ClaimNumber, Currency, Record
from claimpack.core.facts.keys import record_from
from claimpack.core.steps.filing import IMPORT
from claimpack.core.steps.paying import answer_undone, paid, payment_undone
from claimpack.core.steps.settling import Step, answered, refuse_impossible_day
from claimpack.core.values.days import Day
from claimpack.core.values.money import ZERO, NotNegative, fits, in_money, plain
from claimpack.core.values.words import Line, Named, Text, run_on
from claimpack.errors import BadInput, ClaimpackError

StateTaken = Literal["draft", "filed", "questioned", "accepted", "part", "refused", "paid"]
"""Where a list may say that a claim stands; of `part` the maker accepts less than was claimed."""

UNDONE = "import undone"
"""The fact of the event that takes an import back: which it was."""


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


class History(NamedTuple):
    """What happened to a claim that is taken over, and where that leaves it."""

    events: tuple[NewEvent, ...]
    standing: Standing


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
    return {key: value for key, value in kept.items() if value not in ("", None, {}) or key == "unit"}


def history_of(row: TakenOver, imported: str, today: date, before: Sequence[Event] = ()) -> History:
    """What happened to a claim, each event on the day that the list says, as if it had been recorded then.

    Args:
        row: the row.
        imported: the import it comes with.
        today: the day it comes in.
        before: what happened to a claim that came in before, whose import was taken back.

    Raises:
        BadInput: a day or an amount is missing, or cannot be; or the state does not follow from them.

    Source: a rule of this tool's, no source.
    """
    telling = _Telling(row.number, today, before)
    # an import that was taken back left the claim withdrawn, and it has to be taken up before it is told anew
    if before:
        telling.take(NewEvent(what="reopened", on=today, why=f"import {imported}", facts={IMPORT: imported}))
    telling.take(NewEvent(what="imported", on=today, facts={IMPORT: imported}))
    # what the list says of the state is believed before what its days would make of it
    state = row.state or _state_told(row)
    _refuse_more_than_state(row, state)
    if state != "draft":
        telling.take(_filed(row, imported))
    if _is_answered(row, state):
        _answer(telling, row, state)
    if row.paid:
        on = _needed(row.paid_on, "paid_on")
        telling.follow(on, row.because, lambda standing, step: paid(standing, step, plain(row.paid or ZERO)), "paid")
    if state == "paid" and telling.standing.state != "paid" and row.accepted is None:
        raise BadInput(
            f"paid: it is said to be paid, and {plain(telling.standing.outstanding)} of it is not: write what the "
            "maker accepted and the day it answered, or the state accepted if it still owes that",
            "What is outstanding would be chased.",
        )
    return History(tuple(telling.events), telling.standing)


def _is_answered(row: TakenOver, state: StateTaken) -> bool:
    # paid in full of a part that was accepted: without that answer the rest would look as if it was still owed
    cut = state == "paid" and row.accepted is not None and row.accepted != row.claimed
    return state in ("questioned", "accepted", "part", "refused") or bool(row.answered) or cut


_LACKING = {
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
    state, wanted = row.state or _state_told(row), list[str]()
    if state != "draft":
        wanted += ["filed", "claimed", "currency"]
    if _is_answered(row, state):
        wanted += ["answered", *(["accepted"] if state == "part" else [])]
    wanted += ["paid_on"] if row.paid else []
    return tuple((key, _LACKING[key]) for key in wanted if getattr(row, key) is None)


class _Telling:
    """A claim's history as it is told, event after event."""

    def __init__(self, number: str, today: date, before: Sequence[Event]) -> None:
        self.number, self.today = number, today
        self.folding = Folding(before)
        self.events: list[NewEvent] = []

    @property
    def standing(self) -> Standing:
        return self.folding.standing

    def take(self, event: NewEvent) -> None:
        may_follow(self.standing, event, self.number)
        refuse_impossible_day(self.standing, event, self.today)
        self.folding.take(event)
        self.events.append(event)

    def follow(self, on: date, why: str, step: Callable[[Standing, Step], NewEvent], key: str) -> None:
        """Take a step as its command would; a refusal names the key that it comes from."""
        try:
            self.take(step(self.standing, Step(on=on, why=why, claim=self.number)))
        except ClaimpackError as error:
            # refusals name options of commands; somebody with a list has columns
            what = error.what.removeprefix("--on: ").removeprefix("AMOUNT: ").removeprefix("--amount: ")
            raise BadInput(f"{key}: {what}", error.why, "Correct the list.") from None


def _state_told(row: TakenOver) -> StateTaken:
    """Where days and amounts alone leave a claim."""
    if row.accepted is not None and row.answered:
        return "accepted" if row.accepted == row.claimed else "part"
    return "filed" if row.filed else "draft"


def _refuse_more_than_state(row: TakenOver, state: StateTaken) -> None:
    """Refuse money or an answer of a claim that the maker does not have."""
    told = next((key for key in ("filed", "received", "answered", "paid_on", "paid") if getattr(row, key)), "")
    if state == "draft" and told:
        raise BadInput(
            f"{told}: it is said of a draft",
            "The maker cannot act on a claim it does not have.",
            "Say when it was filed, or leave it out.",
        )


def _filed(row: TakenOver, imported: str) -> NewEvent:
    on = _needed(row.filed, "filed")
    if row.claimed is None:
        raise _lacks("claimed", "What is outstanding goes by it.")
    if row.currency is None:
        raise _lacks("currency", "An amount without one says nothing.")
    # all three, before the first of them is recorded in a currency that cannot hold it
    for key in AMOUNTS:
        amount: Decimal | None = getattr(row, key)
        if amount is not None and not fits(amount, row.currency):
            raise BadInput(f"{key}: {plain(amount)} has more decimals than {row.currency}", do="Correct it.")
    if row.received and row.received < on:
        raise BadInput(f"received: {row.received} lies before {on}, the day of filing", do="Correct one of them.")
    facts = {
        "claimed": plain(row.claimed),
        "currency": row.currency,
        "received": row.received.isoformat() if row.received else "",
        "reference": row.reference,
        IMPORT: imported,
    }
    return NewEvent(what="filed", on=on, facts={name: fact for name, fact in facts.items() if fact})


def _answer(telling: _Telling, row: TakenOver, state: StateTaken) -> None:
    """The maker's answer; a claim that is paid may have been accepted before, whole or in part."""
    on = _needed(row.answered, "answered")
    kind = state
    if state in ("filed", "paid"):
        kind = "part" if row.accepted is not None and row.accepted != row.claimed else "accepted"
    if kind == "part" and row.accepted is None:
        raise _lacks("accepted", "The rest is not outstanding.")
    amount = plain(row.accepted) if kind == "part" and row.accepted is not None else ""
    telling.follow(
        on, row.because, lambda standing, step: answered(standing, step, kind, amount, form=False), "answered"
    )


def _needed(day: date | None, key: str) -> date:
    if day is None:
        raise _lacks(key, "Dates to keep and reports go by it, and nobody may make it up.")
    return day


def _lacks(key: str, why: str) -> BadInput:
    return BadInput(f"{key}: {_LACKING[key]}", why, "Add it to the list, or leave the claim out.")


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


def undoing(events: Sequence[Event], imported: str, today: date, why: str) -> tuple[NewEvent, ...]:
    """What takes the import of a claim back: its payments and answers undone, the last first, then the claim withdrawn.

    Args:
        events: everything that happened to the claim, the import last.
        imported: the import.
        today: the day it is taken back.
        why: the reason.

    Raises:
        ClaimpackError: it does not follow from where the claim stands.

    Source: a rule of this tool's, no source.
    """
    folding, number = Folding(events), events[-1].claim
    step, back = Step(on=today, why=why, claim=number), list[NewEvent]()
    since = max(place for place, event in enumerate(events) if event.what == "imported")
    undo = {"paid": payment_undone, "answered": answer_undone}
    # the last first, as each must be the last of its kind when it is taken back
    for event in reversed(events[since:]):
        if event.what in undo:
            back.append(undo[event.what](folding.standing, step))
            folding.take(back[-1])
    withdrawn = NewEvent(what="withdrawn", on=today, why=why, facts={UNDONE: imported})
    may_follow(folding.standing, withdrawn, number)
    return (*back, withdrawn)
