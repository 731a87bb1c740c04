"""How much of each line the windows pay: kinds of line, shares that fall with age; what pricing goes by of them."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from collections.abc import Set as AbstractSet
from datetime import date
from decimal import Decimal
from types import MappingProxyType
from typing import NamedTuple

from claimpack.core.clauses.shares import Share, months_in
from claimpack.core.clauses.window import LineKind, Window
from claimpack.core.facts.fields import Payer
from claimpack.core.plans.plan import Plan
from claimpack.core.pricing.lines import PricedLine, PricedPayer
from claimpack.core.values.money import ZERO, percent, plain, rounded
from claimpack.core.values.periods import Period, last_day
from claimpack.core.values.wording.sentence import Sentence, days_in_words, say

ONE = Decimal(1)
BY_SELLER = "price.by-seller"


class PaidPart(NamedTuple):
    """So many parts of so many that the maker pays of a line, who pays the rest, and why.

    Where it is all there is a reason only if days in repair moved the last day it is.
    """

    maker: Decimal = ONE
    of: Decimal = ONE
    rest: Payer = "owner"
    why: Sentence | None = None

    def said(self) -> str:
        """It as a person writes it: in percent, or as so many of so many."""
        return f"{percent(self.maker)} %" if self.of == ONE else f"{plain(self.maker)} / {plain(self.of)}"


PaidParts = Mapping[str, PaidPart]
"""How much is paid of each kind of line; all of a kind that is not named."""

ALL_PAID: PaidParts = MappingProxyType({})


class WindowSpell(NamedTuple):
    """A window as it is judged: what it is called, the day its cover starts, and what moves a last day counted from it.

    `starts` is None where that is not known, and then it pays all. `ends` is its last day, however long its shares go
    on; None where it has none, or that is not known. `lacking` is a fact that is not given, and the key
    of the claim it stands under, where it may move a last day as far as `at_most` does.
    """

    title: str
    starts: date | None
    moved: Callable[[date, date], date] = lambda _, ends: ends
    at_most: Callable[[date, date], date] = lambda _, ends: ends
    lacking: tuple[str, str] | None = None
    ends: date | None = None

    def until(self, day: date) -> date:
        """The last day of a share, no later than that of the window."""
        return min(day, self.ends) if self.ends else day


def paid_by(window: Window | None, plan: Plan, kind: LineKind, spell: WindowSpell, on: date | None) -> PaidPart:
    """How much of a kind of line one window pays.

    Args:
        window: the window; None for that of a replaced part, which pays all.
        plan: its plan.
        kind: the kind of line.
        spell: the window as it is judged.
        on: the day that counts; None where it is not known.

    Source: common practice, no source.
    """
    title, starts = spell.title, spell.starts
    if window is None:
        return PaidPart()
    if window.pays is not None and kind not in window.pays:
        return PaidPart(ZERO, ONE, window.rest, say("price.not-paid", window=title, kind_word=f"line.{kind}"))
    if window.is_of_the_shop:
        return PaidPart(ZERO, ONE, "shop", say(BY_SELLER, window=title))
    if not window.shares or starts is None or on is None:
        return PaidPart(rest=window.rest, why=say("price.recourse", window=title) if window.recourse else None)
    return _as_far_as_known(_share(window, plan, spell, starts, on), window, plan, spell, starts, on)


def _as_far_as_known(
    share: PaidPart, window: Window, plan: Plan, spell: WindowSpell, starts: date, on: date
) -> PaidPart:
    """The maker's share; where a day in repair is not given that may move its last day, it is paid at least."""
    if spell.lacking is None:
        return share
    most = _share(window, plan, spell._replace(moved=spell.at_most), starts, on)
    fact, named = spell.lacking
    facts = {"window": spell.title, "share": share.said(), "fact_word": fact, "named": named}
    if most.maker * share.of != share.maker * most.of:
        return share._replace(why=say("price.share-or-more", **facts))
    until, latest = (one.why.facts.get("until", "") if one.why else "" for one in (share, most))
    if share.maker < share.of and until < latest:
        return share._replace(why=say("price.share-open", until=until, **facts))
    return share


def _share(window: Window, plan: Plan, spell: WindowSpell, starts: date, on: date) -> PaidPart:
    """The maker's share on a day.

    By months it is the whole months left on that day, of all of them: in month 13 of 36 they are 23.

    Source: common practice, no source.
    """
    title = spell.title

    def unmoved(age: Period) -> date:
        return last_day(starts, age, window.last_day or plan.last_day, plan.month_end)

    def ends(age: Period) -> date:
        return spell.moved(starts, unmoved(age))

    def until(age: Period) -> date:
        return spell.until(ends(age))

    def days_moved(age: Period) -> int:
        return (until(age) - unmoved(age)).days

    def full(age: Period) -> PaidPart:
        added = days_moved(age)
        facts = {"window": title, "until": until(age), "days_period": days_in_words(added)}
        return PaidPart(rest=window.rest, why=say("price.share-full-moved", **facts) if added > 0 else None)

    step = next((share for share in window.shares if on <= ends(share.last)), None)
    if step is None:
        return PaidPart(ZERO, ONE, window.rest, say("price.share-over", window=title, event=on))
    if step.of is None and step.maker is not None:
        if step.maker == ONE:
            return full(step.last)
        facts = {"window": title, "percent": percent(step.maker), "until": until(step.last)}
        return PaidPart(step.maker, ONE, window.rest, _told("price.share", days_moved(step.last), facts))
    if step.full_until and on <= ends(step.full_until):
        return full(step.full_until)
    months, left = _months_left(step, on, ends)
    facts = {"window": title, "left": left, "months": months, "event": on}
    why = _told("price.share-months", days_moved(Period(months=months - left)), facts)
    return PaidPart(Decimal(left), Decimal(months), window.rest, why)


def _told(key: str, days: int, facts: Mapping[str, object]) -> Sentence:
    """A share told, with the days in repair that moved its last day where any did."""
    return say(f"{key}-moved", **facts, days_period=days_in_words(days)) if days > 0 else say(key, **facts)


def _months_left(share: Share, on: date, ends: Callable[[Period], date]) -> tuple[int, int]:
    months = months_in(share.of or Period())
    begun = next(month for month in range(1, months + 1) if on <= ends(Period(months=month)))
    return months, months - begun


def shared(
    payer: Payer, paid: PaidPart | None, made: Callable[[PricedPayer], Sequence[PricedLine]], plan: Plan
) -> list[PricedLine]:
    """The lines of one entry of a claim, the maker's split between it and who pays the rest.

    Of what the windows pay nothing of, the line is as if the claim gave it to who pays the rest. Amount and handling
    are each rounded to the maker's share of them; the rest has what is left of both.

    Args:
        payer: who pays by the claim.
        paid: how much the windows pay; None for all.
        made: makes the lines of the entry for a payer.
        plan: the plan, for its currency.

    Source: common practice, no source.
    """
    if payer != "maker" or paid is None or paid.why is None:
        return list(made(payer))
    if paid.maker == paid.of:
        return [line.noted(paid.why) if line.payer == "maker" else line for line in made(payer)]
    if not paid.maker:
        return [line._replace(notes=(*line.notes, paid.why)) for line in made(paid.rest)]
    found: list[PricedLine] = []
    for line in made("maker"):
        if line.payer != "maker":
            found.append(line)
            continue
        amount, handling = (rounded(one * paid.maker / paid.of, plan.currency) for one in (line.amount, line.handling))
        own, *rest = line.cut(amount, handling, paid.rest, paid.why)
        found += [own._replace(notes=(*own.notes, paid.why)), *rest]
    return found


class LeftTo(NamedTuple):
    """Who pays the lines of a failure that is not covered where another one is, and why."""

    payer: PricedPayer
    why: Sentence


class Cover(NamedTuple):
    """The verdict, as far as amounts go by it; failures are counted from 1.

    Args:
        paid: how much of each kind of line the windows pay, by failure; all where a failure has none.
        starts: the day the years of the unit's cover are counted from; None where that is not known.
        closed: the failures that are not covered, whose diagnosis may be paid otherwise.
        left: who pays the lines of a failure that is not covered where another one is.
    """

    paid: tuple[PaidParts, ...] = ()
    starts: date | None = None
    closed: AbstractSet[int] = frozenset()
    left: Mapping[int, LeftTo] = MappingProxyType({})

    def paid_of(self, failure: int) -> PaidParts:
        """How much of each kind of line the windows pay of one failure."""
        return self.paid[failure - 1] if failure <= len(self.paid) else ALL_PAID

    def pays_none(self, failure: int, kind: str) -> bool:
        """Whether the windows pay nothing of a kind of line for one of several failures."""
        part = self.paid_of(failure).get(kind)
        return len(self.paid) > 1 and part is not None and not part.maker


ALL_COVERED = Cover()
"""A claim that is paid in full."""
