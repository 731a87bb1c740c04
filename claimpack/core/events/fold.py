"""The fold: where a claim's events leave it, one by one, those that were undone left out."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from datetime import date
from decimal import Decimal

from claimpack.core.events.event_kinds import EVENT_KINDS
from claimpack.core.events.events import AFTER_A_LETTER, AGAIN, SHOP
from claimpack.core.events.part_state import PART_FOLDS, AnyEvent, StateChange, part_undone
from claimpack.core.events.standing import UNANSWERED, Answer, Payment, Standing
from claimpack.core.events.states import State
from claimpack.core.values.money import ZERO


def left_by(answers: tuple[Answer, ...], claimed: Decimal) -> dict[str, object]:
    """Where the answers since the last filing leave a claim; the last one counts, and without one it is filed.

    Source: common practice, no source.
    """
    if not answers:
        return {**UNANSWERED, "state": "filed"}
    last = answers[-1]
    # an acceptance without an amount is of all that was claimed
    amount = claimed if last.amount is None else last.amount
    return {
        "state": "accepted" if last.accepts else last.answer,
        "answers": answers,
        "answered": last.on,
        "because": last.because,
        "refused_for_form": last.answer == "refused" and last.form,
        "accepted": amount if last.accepts else None,
        "accepted_on": last.on if last.accepts else None,
    }


class Folding:
    """One claim folded event by event: where it stands, and the events that count, in the order they were recorded."""

    def __init__(self, events: Iterable[AnyEvent] = ()) -> None:
        self.standing = Standing()
        self.counting: list[AnyEvent] = []
        for event in events:
            self.take(event)

    def take(self, event: AnyEvent) -> None:
        """Fold one more event; one that undoes others drops them, and the rest is folded anew."""
        undone = _undone_by(event, self.counting)
        if undone:
            # no step is reckoned backwards: what stood before it comes from the events before it
            again = Folding(other for place, other in enumerate(self.counting) if place not in undone)
            self.standing, self.counting = again.standing, again.counting
        elif event.what in _FOLDS:
            change = _FOLDS[event.what](self.standing, event)
            if change and event.what in AFTER_A_LETTER and self.standing.chased_on:
                change = {**change, "chased_on": None, "ask_again": None}
            if change:
                self.standing = self.standing.model_copy(update=change)
                self.counting.append(event)


def stand(events: Iterable[AnyEvent]) -> Standing:
    """Where a claim stands after all its events, in the order they were recorded."""
    return Folding(events).standing


def _undone_by(event: AnyEvent, before: Sequence[AnyEvent]) -> tuple[int, ...]:
    """The places of the events that an event undoes; none for one that undoes nothing."""
    # the proof of a book reads events that nobody checked, and is to name them rather than fail
    kind = EVENT_KINDS.get(event.what, _UNKNOWN)
    if kind.of_a_part and kind.takes_back:
        return part_undone(event, before)
    last = next((place for place in range(len(before) - 1, -1, -1) if before[place].what in kind.takes_back), None)
    # a withdrawal is not undone: a claim that is taken up again after it has to be filed again
    return () if last is None or before[last].what == "withdrawn" else (last,)


_UNKNOWN = EVENT_KINDS["opened"]
"""What an event is taken for that another program wrote: the proof of the book names it."""


_NOT_WRITTEN_OFF: StateChange = {"written_off": ZERO, "rest_written_off": ZERO}


def _opened(standing: Standing, event: AnyEvent) -> StateChange:
    return {"opened": event.on, **_shop_named(standing, event)}


def _shop_named(_standing: Standing, event: AnyEvent) -> StateChange:
    """Whose claim it is from here on; events of a book of one shop name none."""
    return {"shop": event.facts[SHOP]} if event.facts.get(SHOP) else {}


def _filed(standing: Standing, event: AnyEvent) -> StateChange:
    facts = event.facts
    return {
        **UNANSWERED,
        **_NOT_WRITTEN_OFF,
        "state": "filed",
        "filed": event.on,
        "first_filed": standing.first_filed or event.on,
        # a claim sent in again with an answer to the maker's question goes on with the days of the filing it asked
        # about
        **_asked_since(standing),
        "received": date.fromisoformat(facts["received"]) if facts.get("received") else None,
        # the maker's number stays unless it gives another
        "reference": facts.get("reference", standing.reference),
        "anyway": event.why,
        "packet": facts.get("packet", ""),
        "filed_revision": int(facts.get("revision", "0")),
        "claimed": _amount(facts.get("claimed")),
        "currency": facts.get("currency", ""),
        # payments stay: money that came before the claim went out again was not given back
        "paid_before": len(standing.payments),
    }


def _asked_since(standing: Standing) -> StateChange:
    """The filing that a chain of questions began with, as a claim is filed again; none after another answer."""
    if standing.state != "questioned":
        return {"asked_filed": None, "asked_received": None}
    if standing.asked_filed:
        return {}
    return {"asked_filed": standing.filed, "asked_received": standing.received}


def _given_up(standing: Standing, change: StateChange) -> StateChange:
    """A change of answers or payments; what was written off and is owed or paid all the same was not given up."""
    after = standing.model_copy(update=change)
    # nobody gives up what is owed after all: of what was written off so much stays as is still refused, or still unpaid
    rest = min(after.rest_written_off, max(after.claimed - max(after.owed, after.paid), ZERO))
    accepted = min(after.written_off - after.rest_written_off, max(after.owed - after.paid, ZERO))
    return {**change, "written_off": rest + accepted or ZERO, "rest_written_off": rest or ZERO}


def _amount(written: str | None) -> Decimal:
    """An amount of a fact; nothing is always written alike, so that a standing kept and read again is the same."""
    return Decimal(written or "0") or ZERO


def _answered(standing: Standing, event: AnyEvent) -> StateChange:
    facts = event.facts
    answer = Answer(
        on=event.on,
        answer=facts["answer"],
        amount=Decimal(facts["amount"]) if facts.get("amount") else None,
        because=event.why,
        form=facts.get("form") == "yes",
        after=len(standing.payments),
        silent=facts.get("silence") == "yes",
    )
    change = _given_up(standing, left_by((*standing.answers, answer), standing.claimed))
    after = standing.model_copy(update=change)
    # money may come before the letter; then the answer finds the claim paid
    settled = after.state == "accepted" and standing.payments and not after.outstanding
    return {**change, "state": "paid"} if settled else change


_UNFILED: StateChange = {
    **UNANSWERED,
    **_NOT_WRITTEN_OFF,
    "state": "draft",
    "filed": None,
    "first_filed": None,
    "received": None,
    "asked_filed": None,
    "asked_received": None,
    "anyway": "",
    "packet": "",
    "filed_revision": 0,
    "currency": "",
    "claimed": ZERO,
}


def _paid(standing: Standing, event: AnyEvent) -> StateChange:
    """Money for all of a claim accepts it; money for a part of it is no answer to the rest."""
    payments = (*standing.payments, _payment(event, Decimal(event.facts["amount"])))
    state = _settled_by(standing, payments)
    # a maker that pays all of it has accepted it on that day, without a word
    accepted_on = standing.accepted_on or (event.on if state == "paid" else None)
    return _given_up(standing, {"payments": payments, "state": state, "accepted_on": accepted_on})


def _payment(event: AnyEvent, amount: Decimal) -> Payment:
    facts = event.facts
    return Payment(on=event.on, amount=amount, memo=facts.get("memo", ""), statement=facts.get("statement", ""))


def _settled_by(standing: Standing, payments: tuple[Payment, ...]) -> State:
    # looked at as if accepted, for only of such a claim is anything outstanding
    after = standing.model_copy(update={"payments": payments, "state": "accepted"})
    if not after.outstanding:
        return "paid"
    # a part of the money is no answer: a claim nobody accepted stays filed, or asked about
    return "accepted" if standing.accepted_on else standing.state


def _charged_back(standing: Standing, event: AnyEvent) -> StateChange:
    payments = (*standing.payments, _payment(event, -Decimal(event.facts["amount"])))
    return {"payments": payments, "state": _settled_by(standing, payments), "because": event.why}


def _written_off(standing: Standing, event: AnyEvent) -> StateChange:
    """At most what is there is given up, and nothing is no change.

    A claim whose refused rest alone is let go stands where it stood.
    """
    amount, rest = (_amount(event.facts.get(name)) for name in ("amount", "rest"))
    # the event holds what was meant, the fold what was there: written off twice takes off once
    let_go, given_up = min(rest, standing.refused_rest), min(amount - rest, standing.outstanding)
    if amount and not let_go + given_up:
        return {}
    change: StateChange = {
        "written_off": standing.written_off + let_go + given_up,
        "rest_written_off": standing.rest_written_off + let_go,
    }
    # what was accepted is still to be paid where the refused rest alone was let go
    return change if amount and not given_up else {**change, "state": "written off"}


def _reopened(standing: Standing, _event: AnyEvent) -> StateChange:
    """A claim that was withdrawn is as one that was never filed."""
    # a write-off that is taken back is dropped with its event; a withdrawal stays, and the claim begins anew
    return _UNFILED if standing.state == "withdrawn" else {}


def _of_a_part(standing: Standing, event: AnyEvent) -> StateChange:
    part = standing.part(int(event.facts["part"]))
    change = PART_FOLDS[event.what](part, event)
    # kept with the part, since the claim's own days may move later, and an audit asks how it stood when the part went
    if event.what == "part scrapped":
        then = {"then_filed": standing.filed, "then_received": standing.received, "then_paid": standing.paid_on}
        change = {**change, **then}
    after = part.model_copy(update=change)
    others = [other for other in standing.parts if other.index != part.index]
    return {"parts": tuple(sorted([*others, after], key=lambda part: part.index))}


def _chased(_standing: Standing, event: AnyEvent) -> StateChange:
    again = event.facts.get(AGAIN)
    return {"chased_on": event.on, "ask_again": date.fromisoformat(again) if again else None}


_FOLDS: Mapping[str, Callable[[Standing, AnyEvent], StateChange]] = {
    "opened": _opened,
    "imported": _opened,
    "filed": _filed,
    "received": lambda _standing, event: {"received": event.on},
    "answered": _answered,
    "paid": _paid,
    "charged back": _charged_back,
    "written off": _written_off,
    "withdrawn": lambda _standing, _event: {"state": "withdrawn"},
    "reopened": _reopened,
    "chased": _chased,
    "shop named": _shop_named,
    **dict.fromkeys(PART_FOLDS, _of_a_part),
}
