"""The manager report: everything a manager is told about the book, put together."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from datetime import date
from typing import NamedTuple

from claimpack.core.auditing.report.traces import KeptTraces, Traces
from claimpack.core.holding.held_by_age import HeldByAge, ShelvedPart, held_by_age
from claimpack.core.payment.pending import Ageing, Pending
from claimpack.core.payment.refused_rests import RefusedRest
from claimpack.core.plans.terms import Terms
from claimpack.core.reporting.losses import Losses, LostByCause
from claimpack.core.reporting.money_by_month import MoneyByMonth, MonthOfClaims
from claimpack.core.reporting.outstanding import Outstanding, outstanding_by_age
from claimpack.core.reporting.payment_speed import PaymentSpeed, PaymentSpeeds
from claimpack.core.reporting.recovery import RateGap, RateGaps, Recovered, Recovery, Technicians, TechnicianTime
from claimpack.core.reporting.refusals import Answers, AnswersIn
from claimpack.core.reporting.repeat_failures import RepeatFailures, Repeats
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

    `whose` is the shop of every claim where the report is of several shops, and None where it is of one; `undated` are
    those whose terms are not known.
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
    undated: tuple[str, ...] = ()


class Gathered(NamedTuple):
    """What the book says: claims one after the other, what is pending, held parts, terms by claim, refused rests.

    `watched` is what the three amounts are worked out from, `whose` the shop of each claim where they are of several,
    `undated` the shops whose terms are not known.
    """

    claims: Iterable[ReportedClaim]
    pending: Sequence[Pending]
    held: Iterable[ShelvedPart]
    terms: Mapping[str, Terms]
    rests: tuple[RefusedRest, ...] = ()
    watched: Watched = Watched()
    whose: Mapping[str, str] | None = None
    undated: tuple[str, ...] = ()


def manager_report(gathered: Gathered, about: About, kept: Traces | None = None) -> ManagerReport:
    """Everything put together. Pending claims and held parts are those of today, whatever the days looked back on.

    The claims are gone through once and not kept.

    Args:
        gathered: what the book says.
        about: what the report is about.
        kept: where the visits of units are kept until all are there; None for in memory.

    Source: common practice, no source.
    """
    days = about.days
    speed, months, answers, lost = PaymentSpeeds(days, about.today), MoneyByMonth(days), Answers(days), Losses(days)
    recovered, rates, people = Recovery(days), RateGaps(days), Technicians(days)
    repeats, count = Repeats(days, KeptTraces() if kept is None else kept), 0
    for claim in gathered.claims:
        count += 1
        for fold in (speed, months, answers, lost, recovered, rates, people, repeats):
            fold.add(claim)
    dated = [item.claim for item in gathered.pending]
    dated += [rest.claim for rest in gathered.rests if rest.accepted_by_silence_on]
    used = {terms.id: terms for claim in dated if (terms := gathered.terms.get(claim)) and terms.is_known}
    return ManagerReport(
        about=about,
        claims=count,
        pending=tuple(gathered.pending),
        outstanding=outstanding_by_age(gathered.pending, about.ageing),
        speed=speed.told(),
        months=months.told(),
        answers=answers.told(),
        repeats=repeats.told(),
        held=held_by_age(gathered.held, about.today),
        terms=tuple(terms for _, terms in sorted(used.items())),
        amounts=three_amounts(gathered.watched, about.today),
        lost=lost.told(),
        recovered=recovered.told(),
        rates=rates.told(),
        technicians=people.told(),
        rests=gathered.rests,
        whose=gathered.whose,
        undated=gathered.undated,
    )
