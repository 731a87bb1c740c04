"""The findings of a manager report, each in a sentence worked out from the numbers."""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterable, Mapping, Sequence
from decimal import ROUND_HALF_UP, Decimal
from typing import TypeVar

from claimpack.core.holding.held_by_age import HeldByAge
from claimpack.core.payment.pending import Ageing
from claimpack.core.reporting.losses import LostByCause
from claimpack.core.reporting.manager_report import ManagerReport
from claimpack.core.reporting.money_by_month import MonthOfClaims, by_currency, whole_of
from claimpack.core.reporting.outstanding import Outstanding
from claimpack.core.reporting.payment_speed import PaymentSpeed
from claimpack.core.reporting.recovery import Recovered
from claimpack.core.reporting.refusals import NO_REASON, AnswersIn, refusals_by_reason
from claimpack.core.reporting.repeat_failures import ModelFailure, RepeatFailures
from claimpack.core.reporting.reported import OWN
from claimpack.core.reporting.three_amounts import TITLES, ThreeAmounts, left_out, on_claims, sum_said
from claimpack.core.values.ageing import AGED
from claimpack.core.values.money import in_money, summed
from claimpack.core.values.numbers_said import hours_said, how_many
from claimpack.core.values.words import some_of


def amount_said(amount: Decimal, currency: str) -> str:
    """An amount as a report says it, as in `1,204.50 USD`."""
    return in_money(amount, currency)


def amounts_said(amounts: Mapping[str, Decimal]) -> str:
    """Amounts in several currencies, side by side."""
    return " and ".join(amount_said(amount, currency) for currency, amount in amounts.items())


def listed(names: Sequence[str], most: int = 6) -> str:
    """Names side by side; of many, the first and how many more there are."""
    return some_of(names, most if len(names) <= most else most - 1)


_One = TypeVar("_One")


def foremost(ordered: Sequence[_One], measure: Callable[[_One], object]) -> list[_One]:
    """The first of things in the order of a measure, and those that are as much: of a tie none alone is the most."""
    return [one for one in ordered if measure(one) == measure(ordered[0])]


def percent(share: Decimal) -> str:
    """A share as whole per cent; a little is never said to be nothing, nor nearly all to be all."""
    whole = (share * 100).quantize(Decimal(1), ROUND_HALF_UP)
    # a share that rounds to nothing, or to all, is told as being near it
    if share and not whole:
        return "under 1 %"
    return "over 99 %" if whole == 100 and share < 1 else f"{whole} %"


def amounts_finding(found: ThreeAmounts, currency: str, undated: Collection[str] = ()) -> str:
    """The three amounts, on how many claims each hangs, and what is left out of them."""
    told = ((name, title, getattr(found, name)) for name, title in TITLES.items())
    return " ".join(
        f"{title}: {sum_said(some, currency)}{on_claims(some)}{left_out(name, found, undated)}."
        for name, title, some in told
    )


def outstanding_finding(found: Iterable[Outstanding], ageing: Ageing) -> str:
    """What is unpaid, and how much of it is old."""
    said = [_outstanding(one, ageing) for one in found]
    return " ".join(said) or "Nothing is filed and unpaid."


def _outstanding(one: Outstanding, ageing: Ageing) -> str:
    unpaid = f"{how_many(one.claims, 'claim')} for {amount_said(one.total, one.currency)} {_is(one.claims)} unpaid"
    if not one.older:
        return f"{unpaid}, none {_older(ageing)}."
    old = f"{how_many(one.older, 'claim')} for {amount_said(one.older_amount, one.currency)} {_is(one.older)}"
    return f"{old} {_older(ageing)}; {unpaid} in all."


def _older(ageing: Ageing) -> str:
    return "more than 60 days past due" if ageing == "due" else f"older than 60 days {AGED[ageing]}"


def _is(count: int) -> str:
    return "is" if count == 1 else "are"


def speed_finding(speed: PaymentSpeed) -> str:
    """The median time to payment, or why none can be told."""
    watched = speed.paid + speed.still_open
    if speed.left_out and not watched:
        gone = f"{how_many(speed.left_out, 'claim')} filed in this period {_is(speed.left_out)} {_GONE}"
        paid = f"; {speed.left_paid:,} of them had brought money" if speed.left_paid else ""
        return f"{gone}, so no time to payment can be told{paid}."
    if not watched:
        return "No claim was filed in this period, so nothing can be said about payment."
    # without a payment there is no time to payment; how many wait can be told all the same
    if not speed.paid:
        return (
            f"No claim is paid in full yet, so no time to payment can be told: {_still_open(speed)}{_left_out(speed)}."
        )
    in_part = f", {speed.in_part:,} of them paid in part" if speed.in_part else ""
    open_ones = f"{speed.still_open:,} still open{in_part} and counted as open"
    counts = f"{speed.paid:,} paid in full, {open_ones}{_left_out(speed)}"
    if not speed.enough:
        waiting = f"; {_still_open(speed)}" if speed.still_open else ""
        return f"{_payments(speed)}: too few to draw a curve{waiting}{_left_out(speed)}."
    if speed.curve.median is None:
        return f"Fewer than half of the claims are paid in full so far, so no median can be told ({counts})."
    return f"Half of the claims are paid in full within {how_many(speed.curve.median, 'day')} of filing ({counts})."


def _payments(speed: PaymentSpeed) -> str:
    days = [f"{step.day:,}" for step in speed.curve.steps for _ in range(step.paid)]
    after = f"{', '.join(days[:-1])} and {days[-1]}" if len(days) > 1 else days[0]
    paid = how_many(speed.paid, "claim is", "claims are")
    return f"{paid} paid in full, {after} {'day' if days == ['1'] else 'days'} after filing"


_GONE = "refused, withdrawn or written off"


def _left_out(speed: PaymentSpeed) -> str:
    return f"; {speed.left_out:,} more {_is(speed.left_out)} {_GONE}" if speed.left_out else ""


def _still_open(speed: PaymentSpeed) -> str:
    said = f"{how_many(speed.still_open, 'claim is', 'claims are')} still open"
    if not speed.in_part:
        return said
    return f"{said}, {'and' if speed.in_part == speed.still_open == 1 else f'{speed.in_part:,} of them'} paid in part"


def months_finding(months: Iterable[MonthOfClaims]) -> str:
    """How much of what was claimed came in, and how much will not."""
    said = [_money(whole_of(some)) for some in by_currency(months).values()]
    return " ".join(said) or "No claim was filed in this period."


def _money(whole: MonthOfClaims) -> str:
    def amount(number: Decimal) -> str:
        return amount_said(number, whole.currency)

    share = f" ({percent(whole.paid / whole.claimed)})" if whole.claimed > 0 else ""
    said = [f"{amount(whole.paid)}{share} is paid"]
    if whole.outstanding:
        said.append(f"{amount(whole.outstanding)} is still outstanding")
    if whole.short:
        said.append(f"{amount(whole.short)} was not accepted")
    if whole.written_off:
        said.append(f"{amount(whole.written_off)} was written off")
    *others, last = said
    listed = f"{', '.join(others)} and {last}" if others else last
    over = f" {amount(whole.over)} more came in than was claimed." if whole.over else ""
    return f"Of {amount(whole.claimed)} claimed, {listed}.{over}"


def lost_finding(found: Sequence[LostByCause]) -> str:
    """What counts as lost, and how much of it the shop might have saved."""
    if not found:
        return "Nothing was lost on the claims of this period."
    own = summed((one.currency, one.amount) for one in found if one.cause in OWN)
    whole = amounts_said(summed((one.currency, one.amount) for one in found))
    return f"{whole} counts as lost; {amounts_said(own) or 'none'} of it the shop might have saved."


def recovery_finding(found: Sequence[Recovered]) -> str:
    """Where most money is not recovered."""
    worst = next((one for one in found if one.lost), None)
    if worst is None:
        if any(one.share is not None for one in found):
            return "All that is settled was paid."
        return "No claim is settled yet." if found else "No claim was filed in this period."
    lost = amount_said(worst.lost, worst.currency)
    return f"Recovery is lowest from {worst.maker} for {worst.operation}: {lost} of what was claimed is not paid."


def labour_finding(told: ManagerReport) -> str:
    """How much less makers' rates bring than the shop's, and how many hours were worked and claimed."""
    people = told.technicians
    if not people:
        return "No labour was claimed in this period."
    worked, claimed = (sum((getattr(one, name) for one in people), Decimal(0)) for name in ("worked", "claimed"))
    said = f"{hours_said(worked)} were written down on warranty work, {hours_said(claimed)} were claimed"
    gap = summed((one.currency, one.gap) for one in told.rates)
    if not told.rates:
        return f"{said}. The shop's own rate is not known: name it in shop.toml (labour_rates)."
    more = (f"{amount_said(abs(sum_), code)} {'less' if sum_ < 0 else 'more'}" for code, sum_ in gap.items())
    # of work on days without a known rate nothing can be said
    known = sum((one.hours for one in told.rates), Decimal(0))
    they = "they" if known == claimed else f"{hours_said(known)} of them"
    return f"{said}; at the shop's own rate {they} would bring {' and '.join(more)}."


def refusals_finding(answers: AnswersIn) -> str:
    """How often makers refused, and the reason given most, or the reasons."""
    if not answers.refusals:
        came = f"{how_many(answers.came, 'answer')} came in, no refusal among them." if answers.came else ""
        none = "No maker answered a claim in this period"
        return came or f"{none}{'; requests for goodwill are counted apart' if answers.to_favours else ''}."
    reasons = refusals_by_reason(answers.refusals)
    refused = len(answers.refusals)
    said = f"{refused:,} of {how_many(answers.came, 'answer')} {'was a refusal' if refused == 1 else 'were refusals'}"
    form = sum(reason.form for reason in reasons)
    put_right = f", {form:,} of them for form alone" if form else ""
    if form == refused:
        put_right = ", for form alone" if form == 1 else ", all of them for form alone"
    times, most = reasons[0].times, foremost(reasons, lambda reason: reason.times)
    # no reason is none to name
    top = [f"“{reason.said}”" for reason in most if reason.said != NO_REASON]
    # "given most, once" says nothing
    if not top or times == 1:
        return f"{said}{put_right}."
    each = " each" if len(top) > 1 else ""
    return f"{said}{put_right}; given most, {how_many(times, 'time')}{each}: {listed(top, 3)}."


def repeats_finding(found: RepeatFailures) -> str:
    """The failure seen on most units, or the failures, and how many units came back."""
    if not found.models and not found.units:
        return "No component failed on two units of a model, and no unit came back with the same failure."
    said = []
    if found.models:
        top, *others = foremost(found.models, lambda failure: failure.units)
        one = f"The {top.component} failed on {top.units:,} different units of {top.maker} {top.model}"
        each = f"{failures_said([top, *others])} failed on {top.units:,} different units each"
        said.append(each[0].upper() + each[1:] if others else one)
    if found.units:
        back = how_many(len(found.units), "unit")
        said.append(f"{back} came back with the component that had failed before")
    return "; ".join(said) + "."


def failures_said(failures: Sequence[ModelFailure]) -> str:
    """Failures side by side, each with its model, as in `the short block of Halden CS-70`."""
    return some_of([f"the {one.component} of {one.maker} {one.model}" for one in failures], 3, " and ")


def held_finding(held: HeldByAge) -> str:
    """How many parts are held, what may go and what must be sent."""
    if not held.parts:
        return "No part is held."
    said = [f"{how_many(held.parts, 'part')} {_is(held.parts)} in the shop"]
    go, send, missing = len(held.may_go), len(held.to_send), len(held.missing)
    unknown = len(held.may_be_free)
    if go or not unknown:
        said.append(f"{go:,} may go now" if go else "none may go yet")
    if unknown:
        whose = "its terms" if unknown == 1 else "their terms"
        said.append(f"whether {unknown:,}{' more' if go else ''} may go nobody can say, as {whose} cannot be read")
    if held.better_kept:
        kept = len(held.better_kept)
        said.append(f"{kept:,} {_is(kept)} better kept until the claim is settled")
    if send:
        days = [part.send_by for part in held.to_send if part.send_by]
        by = f", the first by {min(days)}" if days else ""
        said.append(f"{send:,} called back and to be sent{by}")
    if missing:
        said.append(f"{missing:,} not found at the last count")
    return "; ".join(said) + "."


def days_said(told: ManagerReport) -> str:
    """Which days the report looks back on, in words."""
    days = told.about.days
    return f"{days.first} to {days.last}" if days.first else f"up to {days.last}"
