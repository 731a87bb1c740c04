"""Audit rules about what is asked for line by line, and what came in: limits, split jobs, prices, double pay."""

from __future__ import annotations

import itertools
import re
from collections.abc import Iterator, Sequence
from datetime import date, timedelta
from decimal import Decimal
from functools import lru_cache
from typing import NamedTuple

from claimpack.core.auditing.audited import AuditedClaim, GroupKey, Irregularity, Measures, listed
from claimpack.core.auditing.chance import at_least, stand_out
from claimpack.core.auditing.rule import OURS, PRACTICE, AcrossRule, OneClaimRule
from claimpack.core.facts.lines import Part
from claimpack.core.values.money import plain
from claimpack.core.values.wording.sentence import say
from claimpack.core.values.words import folded, run_on

# of claims from four fifths of the limit up to it, those in the last twenty-fifth lie just below
_BAND, _BELOW = Decimal("0.80"), Decimal("0.96")
_LEAST_BELOW = 5
_A_SPLIT_DAYS = timedelta(days=5)
_LEAST_PRICES = 5


class Below(NamedTuple):
    """A claim somewhat below what its plan wants an approval above."""

    technician: str
    hand: GroupKey
    claimed: Decimal
    limit: Decimal
    claim: str


def below_limits(audited: AuditedClaim) -> Iterator[tuple[GroupKey, Below]]:
    """Claims without an approval, from four fifths of the amount that needs one up to it, by plan."""
    limit = audited.plan.requires.approval_above if audited.plan else None
    claimed = audited.claimed
    if limit is None or audited.plan is None or audited.claim.approval or audited.is_withdrawn:
        return
    if _BAND * limit <= claimed <= limit:
        who = audited.technician
        yield (audited.plan.id,), Below(who, audited.hand(who), claimed, limit, audited.number)


def just_below_limit(seen: Sequence[Below], measures: Measures) -> Iterator[Irregularity]:
    """One technician's claims that end just below the amount that needs an approval, again and again.

    Compared with how often those of others do among claims of nearly that amount, and with an even spread.

    Source: a rule of this tool's, no source; the exact binomial test, with Benjamini and Hochberg's correction.
    """
    by_hand: dict[GroupKey, list[Below]] = {}
    for each in seen:
        by_hand.setdefault(each.hand, []).append(each)
    asked = list(by_hand.items())
    chances = []
    # if amounts fell evenly over the band, a fifth of them would lie just below
    even, near_in_all = float((1 - _BELOW) / (1 - _BAND)), _near(seen)
    for _, own in asked:
        others = len(seen) - len(own)
        # one in five beforehand, which is what an even spread gives, so that few others decide little
        share = (near_in_all - _near(own) + 1) / (others + 5) if others else even
        # never a certainty: the test is for chances between nothing and one
        chances.append(at_least(_near(own), len(own), min(0.95, max(even, share))))
    for (_, own), told in zip(asked, stand_out(chances, measures.false_share), strict=True):
        if told and _near(own) >= _LEAST_BELOW:
            near = [each for each in own if each.claimed >= _BELOW * each.limit]
            claims = tuple(sorted(each.claim for each in near))
            who = near[0].technician or "Nobody named"
            said = say("just-below-limit", who=who, count=len(near), limit=plain(near[0].limit))
            evidence = {"claims": listed(claims), "amounts": ", ".join(plain(each.claimed) for each in near[:8])}
            yield Irregularity((said,), claims, "look", evidence)


def _near(claims: Sequence[Below]) -> int:
    return sum(each.claimed >= _BELOW * each.limit for each in claims)


class Stay(NamedTuple):
    """The days a unit was in the shop, as one claim tells them."""

    presented: date
    repaired: date
    claim: str
    component: str
    serial: str


def visits(audited: AuditedClaim) -> Iterator[tuple[GroupKey, Stay]]:
    """The visits of units that money is asked for."""
    dates = audited.claim.dates
    component = folded(audited.claim.component())
    is_told = audited.unit_serial and component
    if is_told and dates.repaired and audited.asks_for_money and audited.claim.case == "repair":
        visit = Stay(dates.presented, dates.repaired, audited.number, component, audited.unit_serial)
        yield (audited.maker, audited.unit_key), visit


def job_split(seen: Sequence[Stay], _measures: Measures) -> Iterator[Irregularity]:
    """Two claims about one unit in one stay in the shop, or nearly: what could be done at once is asked for twice.

    Source: common practice, no source.
    """
    ordered = sorted(seen)
    # in order of the days; only visits next to each other can be one
    for first, later in itertools.pairwise(ordered):
        if (
            first.claim != later.claim
            and first.component != later.component
            and later.presented <= first.repaired + _A_SPLIT_DAYS
        ):
            claims = tuple(sorted((first.claim, later.claim)))
            key = "job-split.one-stay" if later.presented <= first.repaired else "job-split.two-stays"
            said = say(key, serial=first.serial, first=first.component, later=later.component)
            evidence = {each.claim: f"{each.presented} to {each.repaired}" for each in (first, later)}
            yield Irregularity((said,), claims, "look", evidence)


def part_over_list(audited: AuditedClaim, measures: Measures) -> Iterator[Irregularity]:
    """A part that costs far more than the maker's price list says.

    Source: common practice, no source; the list is the maker's.
    """
    for part in _bought(audited):
        listed_at = audited.price_list.cost_of(part.number)
        if listed_at and part.unit_cost > listed_at * measures.beyond_list:
            prices = {"cost": plain(part.unit_cost), "list": plain(listed_at)}
            said = say("part-over-list", name=part.name, part=part.number, **prices)
            yield audited.irregular(said, {"part": part.number}, "look")


class Priced(NamedTuple):
    """What one claim says a part cost."""

    cost: Decimal
    claim: str
    number: str


def prices(audited: AuditedClaim) -> Iterator[tuple[GroupKey, Priced]]:
    """The dearest costs of parts, by part number; those in another currency are compared with one another alone."""
    dearest = {run_on(part.number): part for part in sorted(_bought(audited), key=lambda part: part.unit_cost)}
    for part in dearest.values():
        key = audited.maker, run_on(part.number), audited.currency
        yield key, Priced(part.unit_cost, audited.number, part.number)


def part_dearer_than_usual(seen: Sequence[Priced], measures: Measures) -> Iterator[Irregularity]:
    """A part that costs far more in one claim than in most others.

    Source: common practice, no source.
    """
    if len(seen) < _LEAST_PRICES:
        return
    # the middle one, which a single dear claim does not move
    usual = sorted(each.cost for each in seen)[len(seen) // 2]
    for each in seen:
        if each.cost > usual * measures.beyond_list:
            said = say("part-dearer-than-usual", part=each.number, cost=plain(each.cost), usual=plain(usual))
            evidence = {"part": each.number, "claims with it": str(len(seen))}
            yield Irregularity((said,), (each.claim,), "look", evidence)


def _bought(audited: AuditedClaim) -> list[Part]:
    if not audited.asks_for_money:
        return []
    bought = (part for part in audited.claim.parts if part.number and part.payer == "maker" and part.source == "stock")
    return [part for part in bought if part.unit_cost]


def paid_beyond(audited: AuditedClaim, _measures: Measures) -> Iterator[Irregularity]:
    """More came in than was claimed: a payment booked twice, or one for another claim.

    Source: common practice, no source.
    """
    standing = audited.standing
    if standing.claimed and standing.paid > standing.claimed:
        amounts, count = {"claimed": plain(standing.claimed), "paid": plain(standing.paid)}, len(standing.payments)
        # money that was taken back is in no payment
        several = count > 1 and standing.charged_back_on is None
        said = say("paid-beyond.payments", count=count, **amounts) if several else say("paid-beyond", **amounts)
        evidence = {"payments": ", ".join(f"{each.on} {plain(each.amount)}" for each in standing.payments[:6])}
        yield audited.irregular(said, evidence, "serious")


def owner_pays_this(audited: AuditedClaim, _measures: Measures) -> Iterator[Irregularity]:
    """A part that the plan leaves to the owner stands on a line of the maker's, and is not what failed.

    Source: common practice, no source; what is left out is the plan's.
    """
    if audited.plan is None or not audited.asks_for_money:
        return
    # an air filter and air filters are one
    left_out = {each: _singulars(each) for each in audited.plan.excluded.components}
    failed = [set(_singulars(each)) for each in audited.claim.components()]
    for part in audited.claim.parts:
        words = _singulars(part.name)
        named = (
            # the last word says what a thing is: a filter housing is no filter
            name
            for name, wanted in left_out.items()
            if set(wanted) <= set(words) and wanted[-1] == _head(part.name)
        )
        # what failed itself is judged by the plan's windows, and not here
        found = next((name for name in named if set(left_out[name]) not in failed), None)
        if found and part.payer == "maker" and part.source == "stock":
            said = say("owner-pays-this", name=part.name, excluded=found)
            yield audited.irregular(said, {"part": part.number, "cost": plain(part.unit_cost)}, "look")


@lru_cache(maxsize=2000)
def _singulars(phrase: str) -> Sequence[str]:
    return [word.removesuffix("s") for word in re.findall(r"\w+", folded(phrase))]


def _head(phrase: str) -> str:
    """The word that says what a thing is: the last one, or the one before the first comma, as parts lists write it."""
    return (_singulars(phrase.partition(",")[0]) or [""])[-1]


class Billed(NamedTuple):
    """Something bought outside, as one claim names it."""

    claim: str
    what: str
    amount: Decimal


def bills(audited: AuditedClaim) -> Iterator[tuple[GroupKey, Billed]]:
    """Freight and outside work under the number of a bill, by what it says and costs."""
    for extra in audited.claim.extras if audited.asks_for_money else ():
        # words alone, as in "freight", are no bill that could be known again
        if extra.amount and extra.payer == "maker" and sum(mark.isdigit() for mark in extra.what) >= _DIGITS_OF_A_BILL:
            key = run_on(extra.what), extra.amount, audited.currency
            yield key, Billed(audited.number, extra.what, extra.amount)


_DIGITS_OF_A_BILL = 4


def bill_twice(seen: Sequence[Billed], _measures: Measures) -> Iterator[Irregularity]:
    """One bill for freight or outside work in two claims, each time at its whole amount.

    Source: common practice, no source.
    """
    claims = tuple(sorted({each.claim for each in seen}))
    if len(claims) > 1:
        amount = plain(seen[0].amount)
        said = say("bill-twice", bill=seen[0].what, amount=amount, claims=listed(claims))
        yield Irregularity((said,), claims, "look", {"amount": amount})


MONEY_LINE_RULES = (
    AcrossRule(
        "just-below-limit",
        f"A technician's claims end just below what needs an approval, {_LEAST_BELOW} of them or more.",
        OURS,
        below_limits,
        just_below_limit,
    ),
    AcrossRule("job-split", "One stay of a unit is split into two claims.", PRACTICE, visits, job_split),
    OneClaimRule("part-over-list", "A part is far dearer than the price list says.", PRACTICE, part_over_list),
    AcrossRule(
        "part-dearer-than-usual",
        "A part is far dearer in one claim than in most.",
        PRACTICE,
        prices,
        part_dearer_than_usual,
    ),
    OneClaimRule("paid-beyond", "More came in than was claimed.", PRACTICE, paid_beyond),
    OneClaimRule("owner-pays-this", "The maker is asked for a part that is the owner's.", PRACTICE, owner_pays_this),
    AcrossRule("bill-twice", "One bill is in two claims.", PRACTICE, bills, bill_twice),
)
"""The rules about what is asked for line by line, and what came in."""
