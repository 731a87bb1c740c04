"""The manager report: everything a manager is told about the book, put together."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from datetime import date
from typing import NamedTuple

from claimpack.core.events.events import Event
from claimpack.core.holding.held_by_age import HeldByAge, ShelvedPart, held_by_age
from claimpack.core.payment.pending import Ageing, Pending
from claimpack.core.payment.refused_rests import RefusedRest
from claimpack.core.plans.terms import Terms
from claimpack.core.reporting.losses import Loss, LostByCause, by_cause
from claimpack.core.reporting.money_by_month import MonthOfClaims, money_by_month
from claimpack.core.reporting.outstanding import Outstanding, outstanding_by_age
from claimpack.core.reporting.payment_speed import PaymentSpeed, payment_speed
from claimpack.core.reporting.recovery import RateGap, Recovered, TechnicianTime, rate_gaps, recovery, technicians
from claimpack.core.reporting.refusals import AnswersIn, answers_in
from claimpack.core.reporting.repeat_failures import RepeatFailures, repeat_failures
from claimpack.core.reporting.reported import Days, ReportedClaim
from claimpack.core.reporting.three_amounts import ThreeAmounts, Watched, three_amounts


class About(NamedTuple):
    """What a report is about: whose, which day it is, which days it looks back on, which maker; empty for all.

    `beside` are sentences about the book itself, such as the head of its history; `currency` is the shop's; `shop_id`
    is the shop's id where it is one of several in the book.
    """

    shop: str
    today: date
    days: Days
    maker: str = ""
    ageing: Ageing = "filed"
    beside: tuple[str, ...] = ()
    currency: str = ""
    shop_id: str = ""


class ManagerReport(NamedTuple):
    """What a manager is told: what is owed and held today, and how it went within the days looked back on.

    `whose` is the shop of every claim where the report is of several shops, and None where it is of one.
    """

    about: About
    claims: int
    pending: tuple[Pending, ...]
    outstanding: tuple[Outstanding, ...]
    speed: PaymentSpeed
    months: tuple[MonthOfClaims, ...]
    answers: AnswersIn
    repeats: RepeatFailures
    held: HeldByAge
    terms: tuple[Terms, ...]
    amounts: ThreeAmounts
    lost: tuple[LostByCause, ...]
    recovered: tuple[Recovered, ...]
    rates: tuple[RateGap, ...]
    technicians: tuple[TechnicianTime, ...]
    rests: tuple[RefusedRest, ...] = ()
    whose: Mapping[str, str] | None = None


class Gathered(NamedTuple):
    """What the book says: claims, what is pending, held parts, answers in order, terms by claim, refused rests.

    `watched` is what the three amounts are worked out from, `losses` what is lost of each claim, `whose` the shop of
    each where they are of several.
    """

    claims: Sequence[ReportedClaim]
    pending: Sequence[Pending]
    held: Iterable[ShelvedPart]
    answers: Iterable[Event]
    terms: Mapping[str, Terms]
    rests: tuple[RefusedRest, ...] = ()
    watched: Watched = Watched()
    losses: Sequence[Loss] = ()
    whose: Mapping[str, str] | None = None


def manager_report(gathered: Gathered, about: About) -> ManagerReport:
    """Everything put together. Pending claims and held parts are those of today, whatever the days looked back on.

    Source: common practice, no source.
    """
    claims, days = gathered.claims, about.days
    dated = [item.claim for item in gathered.pending]
    dated += [rest.claim for rest in gathered.rests if rest.accepted_by_silence_on]
    used = {terms.id: terms for claim in dated if (terms := gathered.terms.get(claim))}
    return ManagerReport(
        about=about,
        claims=len(claims),
        pending=tuple(gathered.pending),
        outstanding=outstanding_by_age(gathered.pending, about.ageing),
        speed=payment_speed(claims, days, about.today),
        months=money_by_month(claims, days),
        answers=answers_in(gathered.answers, {claim.number: claim for claim in claims}, days),
        repeats=repeat_failures(claims, days),
        held=held_by_age(gathered.held, about.today),
        terms=tuple(terms for _, terms in sorted(used.items())),
        amounts=three_amounts(gathered.watched, about.today),
        lost=by_cause(gathered.losses, days),
        recovered=recovery(claims, days),
        rates=rate_gaps(claims, days),
        technicians=technicians(claims, days),
        rests=gathered.rests,
        whose=gathered.whose,
    )
