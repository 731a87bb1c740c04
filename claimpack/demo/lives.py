"""What became of the invented shop's claims: filed, asked about, refused, paid, short, charged back; parts let go."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable
from decimal import Decimal
from random import Random
from typing import NamedTuple

from claimpack.core.claims.claim import Claim
from claimpack.core.events.events import NewEvent
from claimpack.core.events.fold import Folding
from claimpack.core.events.standing import Standing
from claimpack.core.events.transitions import may_follow
from claimpack.core.holding.release_rules import RELEASED
from claimpack.core.judging.assessment import Assessment
from claimpack.core.shelf.part_steps import calling_back, releasing, sending
from claimpack.core.steps.filing import Sent, filed
from claimpack.core.steps.notes import chased, noting
from claimpack.core.steps.paying import charged_back, paid, withdrawn, written_off
from claimpack.core.steps.questioning import with_what_was_asked
from claimpack.core.steps.settling import Step, answered, received
from claimpack.core.values.money import plain, rounded


class Life(NamedTuple):
    """What happened to a claim, the claim with what its maker asked, and where that leaves it."""

    claim: Claim
    events: tuple[NewEvent, ...]
    standing: Standing


class _Telling:
    """A life as it is told, event after event; one that has not come yet is left out with all that follows it."""

    def __init__(self, assessment: Assessment, today: dt.date) -> None:
        self.assessment, self.today = assessment, today
        self.claim, self.number, self.folding = assessment.claim, assessment.claim.number, Folding(())
        self.events: list[NewEvent] = []
        self.over = False

    def take(self, on: dt.date, event: Callable[[Standing, Step], NewEvent], why: str = "") -> None:
        self.over = self.over or on > self.today
        if self.over:
            return
        taken = event(self.folding.standing, Step(on=on, why=why, claim=self.number))
        may_follow(self.folding.standing, taken, self.number)
        self.claim = with_what_was_asked(self.claim, self.folding.standing, taken)
        self.folding.take(taken)
        self.events.append(taken)

    def file(self, on: dt.date, reference: str) -> None:
        sent = Sent(on=on, reference=reference)
        # Without a packet, which was never drawn; and nothing spoke against it on the day it went out.
        self.take(on, lambda *_: filed(self.assessment, sent, "", 1, ()))

    def pay(self, on: dt.date, share: str = "1") -> None:
        self.take(on, lambda at, step: paid(at, step, _share(at.outstanding, share, at.currency)))

    def chase(self, on: dt.date, asks: str) -> None:
        self.take(on, lambda at, step: chased(at, step.claim, step.on, asks, step.on + _days(40)))

    def answer(self, on: dt.date, kind: str, why: str = "", share: str = "", form: bool = False) -> None:
        def event(at: Standing, step: Step) -> NewEvent:
            amount = _share(at.claimed, share, at.currency) if share else ""
            return answered(at, step, kind, amount, form)

        self.take(on, event, why)


def _share(amount: Decimal, share: str, currency: str) -> str:
    return plain(rounded(amount * Decimal(share), currency))


def life_of(assessment: Assessment, draw: Random, today: dt.date) -> Life:
    """What happened to a claim up to a day; older ones are mostly paid, the latest lie in every state.

    Args:
        assessment: the claim as it is judged.
        draw: what chance is taken from.
        today: the day.
    """
    telling = _Telling(assessment, today)
    dates = assessment.claim.dates
    telling.take(dates.presented, lambda _, step: NewEvent(what="opened", on=step.on))
    if dates.repaired and assessment.verdict == "covered" and not _forgotten(dates.repaired, draw, today):
        _filed_and_after(telling, draw, dates.repaired)
    elif dates.repaired and assessment.verdict == "not covered":
        telling.take(dates.repaired + _days(20), withdrawn, "Out of cover; the owner paid for the repair.")
    elif draw.random() < _NOTED and dates.presented > today - _days(20):
        again = today + _days(draw.randint(-1, 6))
        telling.take(max(dates.presented, today - _days(3)), lambda _, step: noting(_NOTE, step.on, again))
    return Life(telling.claim, tuple(telling.events), telling.folding.standing)


def _forgotten(repaired: dt.date, draw: Random, today: dt.date) -> bool:
    """Some claims lie on the desk until their last day to file is near, and a few for longer."""
    return draw.random() < _FORGOTTEN and today - _days(35) < repaired < today - _days(8)


def _filed_and_after(telling: _Telling, draw: Random, repaired: dt.date) -> None:
    chance, reference = draw.random(), f"W{draw.randint(10000, 99999)}"
    filed_on = repaired + _days(draw.randint(1, 12))
    if chance < _WITHDRAWN:
        telling.take(filed_on, withdrawn, "The owner sold the unit and let it be.")
        return
    answered_on, paid_on = filed_on + _days(draw.randint(6, 28)), filed_on + _days(draw.randint(30, 58))
    telling.file(filed_on, reference)
    telling.take(filed_on + _days(2), received)
    ends = next(end for most, end in _ENDS if chance < most)
    ends(telling, draw, answered_on, paid_on)


def _paid_in_full(telling: _Telling, draw: Random, answered_on: dt.date, paid_on: dt.date) -> None:
    telling.answer(answered_on, "accepted")
    wanted = draw.random() < _WANTED
    if wanted:
        _called_back(telling, draw, answered_on + _days(3), paid_on)
    else:
        telling.pay(paid_on)
    if not wanted and draw.random() < _LET_GO:
        released = paid_on + _days(draw.randint(4, 40))
        telling.take(released, lambda _, step: releasing(1, step), "Mail of the service desk.")
        if draw.random() < _SCRAPPED:
            scrapped = NewEvent(what="part scrapped", on=released + _days(9), facts={"part": "1", "rule": RELEASED})
            telling.take(scrapped.on, lambda *_: scrapped)


def _paid_in_part(telling: _Telling, draw: Random, answered_on: dt.date, paid_on: dt.date) -> None:
    telling.answer(answered_on, "part", "Labour above the time allowed.", share="0.80")
    telling.pay(paid_on)
    if draw.random() < _GIVEN_UP:
        telling.take(paid_on + _days(9), lambda at, step: written_off(at, step, rest_only=True), "Not worth a quarrel.")


def _put_right(telling: _Telling, draw: Random, answered_on: dt.date, paid_on: dt.date) -> None:
    telling.answer(answered_on, "refused", "Picture of the serial plate is missing.", form=True)
    telling.file(answered_on + _days(draw.randint(3, 20)), "")
    telling.pay(paid_on + _days(25))


def _refused(telling: _Telling, draw: Random, answered_on: dt.date, _: dt.date) -> None:
    telling.answer(answered_on, "refused", "Fuel contamination is not a defect.")
    wait = 20 if draw.random() < _GIVEN_UP else 90
    telling.take(answered_on + _days(wait), written_off, "The fuel sample bears the maker out.")


def _asked_about(telling: _Telling, _: Random, answered_on: dt.date, paid_on: dt.date) -> None:
    telling.answer(answered_on, "questioned", "The day of purchase on the receipt is cut off. Please send it again.")
    telling.answer(answered_on + _days(40), "accepted")
    telling.pay(paid_on + _days(40))


def _paid_short(telling: _Telling, draw: Random, _: dt.date, paid_on: dt.date) -> None:
    telling.pay(paid_on, share="0.85")
    if draw.random() < _GIVEN_UP:
        telling.pay(paid_on + _days(75))
    else:
        for after in (60, 100):
            telling.chase(paid_on + _days(after), "payment")
        telling.take(paid_on + _days(150), written_off, "Two letters, no answer; not worth a third.")


def _charged_back(telling: _Telling, _: Random, __: dt.date, paid_on: dt.date) -> None:
    telling.pay(paid_on)
    why = "The part was not on its shelf when the auditor came."
    telling.take(paid_on + _days(60), lambda at, step: charged_back(at, step, plain(at.paid)), why)
    telling.take(paid_on + _days(200), written_off, "The part was lost; nothing to show the maker.")


def _unanswered(telling: _Telling, draw: Random, _: dt.date, paid_on: dt.date) -> None:
    telling.pay(paid_on + _days(draw.randint(60, 160)))


def _called_back(telling: _Telling, draw: Random, on: dt.date, paid_on: dt.date) -> None:
    """The maker wants the part within twelve days, and pays; those of the last weeks are still on their shelf."""
    telling.take(on, lambda _, step: calling_back(1, step, on + _days(12)))
    sent_on = on + _days(draw.randint(3, 12)) if on < telling.today - _days(24) else None
    if sent_on is None or sent_on > paid_on:
        telling.pay(paid_on)
    if sent_on:
        telling.take(sent_on, lambda _, step: sending(1, step, "Carter Freight", f"CF-{draw.randint(1000, 9999)}"))
    if sent_on and sent_on <= paid_on:
        telling.pay(paid_on)


_WITHDRAWN, _FORGOTTEN, _NOTED, _WANTED, _LET_GO, _GIVEN_UP, _SCRAPPED = 0.02, 0.3, 0.4, 0.4, 0.9, 0.6, 0.8
_NOTE = "Ask the owner for the receipt."
_ENDS = (
    (0.62, _paid_in_full),
    (0.72, _paid_in_part),
    (0.80, _put_right),
    (0.86, _refused),
    (0.90, _asked_about),
    (0.94, _paid_short),
    (0.96, _charged_back),
    (1.0, _unanswered),
)
"""What becomes of claims that are filed, each with the share of those that end so or one of the ways before it."""


def _days(count: int) -> dt.timedelta:
    return dt.timedelta(days=count)
