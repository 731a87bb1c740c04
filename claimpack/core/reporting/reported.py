"""What a report goes by of each claim, and the days it is about."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from datetime import date
from decimal import Decimal
from typing import Literal, NamedTuple, Protocol, TypeVar, get_args

from claimpack.core.claims.claim import Claim
from claimpack.core.events.events import Event
from claimpack.core.events.standing import Standing
from claimpack.core.judging.claim_summary import ClaimSummary, maker_shown, maker_words
from claimpack.core.reporting.work import Work
from claimpack.core.steps.listed import is_favour
from claimpack.core.values.money import ZERO
from claimpack.core.values.words import did_you_mean, folded
from claimpack.errors import BadInput

Cause = Literal[
    "missed filing",
    "missed resubmission",
    "part not kept",
    "short pay, no letter noted",
    "short pay, chased in vain",
    "charged back",
    "refused",
    "given up unpaid",
]
CAUSES: tuple[Cause, ...] = get_args(Cause)
"""Why money is lost: what the shop might have helped first."""

OWN: tuple[Cause, ...] = CAUSES[:4]
"""Causes that the shop might have helped."""


class Loss(NamedTuple):
    """Money of one claim that is lost; on is the day that decides whether it counts in a report's days.

    That is the first filing; of what was never filed, the last day to file it.
    """

    claim: str
    maker: str
    cause: Cause
    amount: Decimal
    currency: str
    on: date


class ReportedClaim(NamedTuple):
    """A claim as reports count it; accepted is None while the maker has not said, and has not paid.

    `filed` is the day it was sent in first: who waits for money waits since then, however often it was put right.
    `maker_words` are the folded words the maker is asked for by, beside the name it is shown under.
    `is_favour`: the shop itself reads it as not covered, so that nothing is owed. `work` is its labour as its plan pays
    it, `losses` what is lost of it, `answers` every answer to it and every answer undone, in the order they were
    recorded.
    """

    number: str
    maker: str
    model: str
    component: str
    unit: str
    state: str
    presented: date
    filed: date | None
    paid_on: date | None
    currency: str
    claimed: Decimal
    accepted: Decimal | None
    paid: Decimal
    written_off: Decimal
    outstanding: Decimal
    maker_words: tuple[str, ...] = ()
    is_favour: bool = False
    work: tuple[Work, ...] = ()
    losses: tuple[Loss, ...] = ()
    answers: tuple[Event, ...] = ()

    @property
    def paid_over(self) -> Decimal:
        """What came in beyond what was claimed, by mistake or for another claim."""
        return max(self.paid - self.claimed, ZERO)


class Days(NamedTuple):
    """From a day to a day, both included; without a first day, from the beginning."""

    first: date | None
    last: date

    def hold(self, day: date | None) -> bool:
        """Whether a day is one of them."""
        return day is not None and (self.first is None or self.first <= day) and day <= self.last


class OfAMaker(Protocol):
    """Whatever has a maker."""

    @property
    def maker(self) -> str:
        """The maker."""


HasMaker = TypeVar("HasMaker", bound=OfAMaker)


def days_between(first: date | None, last: date | None, today: date) -> Days:
    """The days a report is about, up to today unless told.

    Raises:
        BadInput: the last is before the first.
    """
    days = Days(first, last or today)
    if first and days.last < first:
        raise BadInput(
            f"--from {first} is after --to {days.last}",
            "A report is about the days between the two, and there are none.",
            "Swap the two, or leave one of them out.",
        )
    return days


def reported(claim: Claim, standing: Standing, summary: ClaimSummary, work: tuple[Work, ...] = ()) -> ReportedClaim:
    """A claim of the book as reports count it."""
    # a claim paid in full was accepted by that, without a word of it
    by_paying = standing.claimed if standing.accepted_on else None
    return ReportedClaim(
        number=claim.number,
        maker=maker_shown(claim, summary),
        model=claim.unit.model,
        component=claim.component(),
        unit=claim.unit.own_serial,
        state=standing.state,
        presented=claim.dates.presented,
        filed=standing.first_filed or standing.filed,
        paid_on=standing.paid_on,
        currency=standing.currency or summary.currency,
        claimed=standing.claimed,
        accepted=by_paying if standing.accepted is None else standing.accepted,
        paid=standing.paid,
        written_off=standing.written_off,
        outstanding=standing.outstanding,
        maker_words=maker_words(claim, summary),
        is_favour=is_favour(summary.verdict),
        work=work,
    )


def of_maker(claims: Iterable[ReportedClaim], maker: str) -> Iterator[ReportedClaim]:
    """The claims on a maker, one after the other; all of them where none is named.

    Raises:
        BadInput: no claim was on a maker of that name.
    """
    others: dict[str, None] = {}
    found = False
    for claim in claims:
        if not maker or folded(maker) in (folded(claim.maker), *claim.maker_words):
            found = True
            yield claim
        else:
            others[claim.maker] = None
    if maker and not found:
        raise BadInput(
            f"--maker: no claim in the book is on {maker!r}",
            "A report about nobody would say that nothing is owed.",
            did_you_mean(maker, others),
        )


def by_maker(items: Iterable[HasMaker]) -> dict[str, list[HasMaker]]:
    """The items of each maker, in the order of the alphabet; spellings that differ only in case are one maker."""
    found: dict[str, list[HasMaker]] = {}
    names: dict[str, str] = {}
    for item in items:
        found.setdefault(names.setdefault(folded(item.maker), item.maker), []).append(item)
    return dict(sorted(found.items(), key=lambda pair: folded(pair[0])))
