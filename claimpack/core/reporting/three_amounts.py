"""Three amounts before all else: what can be lost this week, what makers are late with, what only the shop can move."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Collection, Iterable, Mapping, Sequence
from datetime import date
from decimal import Decimal
from types import MappingProxyType
from typing import Any, NamedTuple

from claimpack.core.events.states import PENDING
from claimpack.core.payment import due_dates
from claimpack.core.payment.due_dates import DueItem, due
from claimpack.core.payment.late_answers import contested
from claimpack.core.payment.next_step import letter_sent, step_of_a_rest, waits_for, waits_for_part
from claimpack.core.payment.payment_dates import PaymentDates, days_overdue, payment_dates, turn
from claimpack.core.payment.silence import as_of
from claimpack.core.plans.terms import Terms, claims_by_terms, unread_of
from claimpack.core.steps.listed import ListedClaim, ListedPart
from claimpack.core.values.money import ZERO, coins, in_money, plain, summed
from claimpack.core.values.numbers_said import how_many
from claimpack.core.values.periods import Period, moved
from claimpack.core.values.words import some_of

A_WEEK = Period(days=7)
"""How far the first amount looks ahead: up to the same day of the week, on which the list is made again."""


class AtStake(NamedTuple):
    """Money on one claim, what is to be done for it, and the day it is or was to be done by, where one is known."""

    claim: str
    maker: str
    amount: Decimal
    currency: str
    what: str
    by: date | None = None


class ThreeAmounts(NamedTuple):
    """What can be lost up to a day, what makers are late with, and what waits for the shop alone; most money first.

    Each answers its own question, so that a claim may stand in two of them. `unread` tells the claims whose terms are
    named and cannot be read, by number: nobody can say whether makers are late with them.
    """

    today: date
    until: date
    can_be_lost: tuple[AtStake, ...] = ()
    late: tuple[AtStake, ...] = ()
    only_the_shop: tuple[AtStake, ...] = ()
    unread: Mapping[str, str] = MappingProxyType({})

    def is_missed(self, one: AtStake) -> bool:
        """Whether the day that something was to be done by is over."""
        return one.by is not None and one.by < self.today

    @property
    def in_two(self) -> int:
        """How many claims stand in more than one."""
        lists = (self.can_be_lost, self.late, self.only_the_shop)
        return sum(times > 1 for times in Counter(one.claim for some in lists for one in some).values())


class Watched(NamedTuple):
    """What the amounts are worked out from: claims that are not settled, drafts among them, and parts called back.

    A claim that was paid is among the claims where the maker refused a rest of it.
    """

    claims: Sequence[ListedClaim] = ()
    parts: Sequence[ListedPart] = ()
    terms: Mapping[str, Terms] = MappingProxyType({})


def three_amounts(watched: Watched, today: date) -> ThreeAmounts:
    """The three amounts as they stand on a day.

    Source: a rule of this tool's, no source; the dates are those of the plans, the approvals and the terms.
    """
    until = moved(today, A_WEEK)
    found = ThreeAmounts(today, until, can_be_lost=_in_order(_can_be_lost(watched, today, until)))
    late, ours = list[AtStake](), list[AtStake]()
    # terms give a draft no day
    dated = [claim for claim in watched.claims if claim.state != "draft"]
    for claim in watched.claims:
        terms = watched.terms.get(claim.number)
        counts = as_of(claim, terms, today)
        dates = payment_dates(counts, terms)
        is_late = _late(counts, dates, today)
        late += [is_late] if is_late else []
        ours += _only_the_shop(claim, counts, dates, terms, today, late=is_late)
    unread = unread_of({claim.number: watched.terms[claim.number] for claim in dated if claim.number in watched.terms})
    return found._replace(late=_in_order(late), only_the_shop=_in_order(ours), unread=unread)


def _in_order(some: Iterable[AtStake]) -> tuple[AtStake, ...]:
    """Most money first, the currency of most claims before the others; nothing that no money hangs on."""
    told = [one for one in some if one.amount > 0]
    often = Counter(one.currency for one in told)
    return tuple(sorted(told, key=lambda one: (-often[one.currency], one.currency, -one.amount, one.claim)))


_COSTS = (due_dates.FILE_BY, due_dates.APPROVAL_EXPIRES, due_dates.RESUBMIT_BY)


def _can_be_lost(watched: Watched, today: date, until: date) -> list[AtStake]:
    """Claims with a day that may cost the money when it is missed, and parts called back, those overdue included."""
    claims = {claim.number: claim for claim in watched.claims}
    called = [part for part in watched.parts if part.state == "called back"]
    dated = due(claims.values(), (), watched.terms, (today, until))
    found: dict[str, AtStake] = {}
    for item in dated:
        # what is missed is lost already, and no week can save it
        if item.what in _COSTS and not item.missed(today):
            found.setdefault(item.claim, _of_a_day(claims[item.claim], item))
    for part in called:
        if part.send_by is None or part.send_by <= until:
            before = found.get(part.claim)
            found[part.claim] = _with_part(part, before, today)
    return list(found.values())


_DO = {
    due_dates.FILE_BY: "file it",
    due_dates.APPROVAL_EXPIRES: "repair it: the approval expires",
    due_dates.RESUBMIT_BY: "resubmit it",
}


def _of_a_day(claim: ListedClaim, item: DueItem) -> AtStake:
    amount = claim.claimed if claim.state == "draft" else claim.outstanding
    return AtStake(claim.number, claim.maker, amount, claim.currency, _DO[item.what], item.on)


def _with_part(part: ListedPart, before: AtStake | None, today: date) -> AtStake:
    """What a part called back puts at stake: all that its claim brought, and all that is to come."""
    last = part.send_by
    late = f", {how_many((today - last).days, 'day')} late" if last and last < today else ""
    what = f"send {part.part} ({part.code}) back{late}{'' if last else ': no day is noted'}"
    if before is None:
        return AtStake(part.claim, part.maker, part.paid + part.outstanding, part.currency, what, last)
    # one claim at stake by two days is at stake once, by the earlier of them
    days = [day for day in (before.by, last) if day]
    amount = max(before.amount, part.paid + part.outstanding)
    return before._replace(amount=amount, what=f"{before.what}; {what}", by=min(days, default=None))


def _late(claim: ListedClaim, dates: PaymentDates, today: date) -> AtStake | None:
    """What the maker is late with; a charge-back or a late answer that is contested counts as owed, once it is due."""
    what, by, amount = "", dates.pay_due, claim.outstanding
    against = contested(claim, dates, part_awaited=claim.part_awaited)
    if dates.audit_reached_to:
        what, by = "charged back after an audit could reach: contest it", claim.charged_back_on
    elif dates.is_owed_again(today):
        what, by = "charged back, and owed again", dates.owed_again
    elif against and (by is None or today > by):
        why = ", no grounds on record" if dates.no_grounds_on else " after silence had accepted it"
        what, amount = f"refused{why}: contest it", against
    elif days_overdue(claim, dates, today) and not waits_for_part(claim, dates, today):
        by = dates.pay_due or dates.answer_due
        estimated = ", counted from filing: ask when it was received" if dates.answer_estimated else ""
        what = "payment is late" if dates.pay_due else f"answer is late{estimated}"
    if not what:
        return None
    sent = letter_sent(claim, today)
    return AtStake(claim.number, claim.maker, amount, claim.currency, f"{what}; {sent}" if sent else what, by)


def _only_the_shop(
    claim: ListedClaim,
    counts: ListedClaim,
    dates: PaymentDates,
    terms: Terms | None,
    today: date,
    *,
    late: AtStake | None,
) -> Iterable[AtStake]:
    """What waits for the shop: to be filed, answered, resubmitted or contested, or the part to be sent.

    Nothing that the maker is late with is among it; a rest that it refused is, beside what it accepted and owes.
    """
    what = waits_for(claim, terms, today)
    if claim.state == "draft":
        if claim.approval_state not in _WITH_THE_MAKER:
            yield AtStake(claim.number, claim.maker, claim.claimed, claim.currency, what, claim.file_by)
        return
    ours = turn(counts, dates) == "shop" or waits_for_part(counts, dates, today)
    if counts.state in PENDING and ours and not late:
        yield AtStake(claim.number, claim.maker, counts.outstanding, claim.currency, what, dates.resubmit_by)
    # a rest that silence had accepted is late with all else, once it is
    if claim.refused_rest and (late is None or late.amount == counts.outstanding):
        rest = step_of_a_rest(claim, terms, today)
        yield AtStake(claim.number, claim.maker, claim.refused_rest, claim.currency, rest)


_WITH_THE_MAKER = ("asked", "refused")
"""States of an approval in which the shop can do nothing for the money but wait, or tell the owner."""


EVERY_SHOP = "all"
"""What all shops together are told under; no shop is called so."""


class OfShop(NamedTuple):
    """What the three amounts come to on the claims of one shop, in one currency; None where nobody knows its terms.

    An empty shop stands for the claims that are no shop's, `all` for all of them together.
    """

    shop: str
    currency: str
    can_be_lost: Decimal
    late: Decimal | None
    only_the_shop: Decimal

    @property
    def shop_shown(self) -> str:
        """The shop, in words."""
        return self.shop or "no shop's"


def by_shop(found: ThreeAmounts, whose: Mapping[str, str], undated: Collection[str] = ()) -> list[OfShop]:
    """The three amounts of every shop of a book, by its id, and of all together last; by currency where several are.

    Args:
        found: the amounts.
        whose: the id of the shop of every claim; a claim of no shop is told under an empty one.
        undated: shops whose terms are not known, so that nobody can say what makers are late with, there or in all.
    """
    lists = [getattr(found, name) for name in TITLES]
    codes = dict.fromkeys(one.currency for some in lists for one in some) or {"": None}

    def told(shop: str, code: str, wanted: Callable[[str], bool]) -> OfShop:
        sums = (sums_of(one for one in some if wanted(whose.get(one.claim, ""))) for some in lists)
        return OfShop(shop, code, *(coins(each.get(code, ZERO), code) for each in sums))

    shops = sorted({*whose.values(), *(whose.get(one.claim, "") for some in lists for one in some)})
    each = [told(shop, code, shop.__eq__) for shop in shops for code in codes]
    each += [told(EVERY_SHOP, code, lambda _: True) for code in codes]
    not_dated = {*undated, *(whose.get(claim, "") for claim in found.unread)}
    unknown = {*not_dated, *([EVERY_SHOP] if not_dated else ())}
    return [one._replace(late=None) if one.shop in unknown else one for one in each]


TITLES: Mapping[str, str] = {
    "can_be_lost": "Can be lost this week",
    "late": "Makers are late with",
    "only_the_shop": "Only the shop can move",
}
"""What each amount is called, by its field."""


def left_out(name: str, found: ThreeAmounts, undated: Collection[str]) -> str:
    """Whose claims an amount leaves out, as it follows the sum: without terms nobody can say who is late."""
    whose = [shop or "those of no shop" for shop in undated]
    whose += [f"those under {terms}" for terms in claims_by_terms(found.unread)]
    return f", without {some_of(whose, 6)}" if name == "late" and whose else ""


def sums_of(some: Iterable[AtStake]) -> dict[str, Decimal]:
    """What a list comes to in each currency."""
    return summed((one.currency, one.amount) for one in some)


def on_claims(some: Sequence[AtStake]) -> str:
    """On how many claims an amount hangs; empty where on none."""
    return f" on {how_many(len(some), 'claim')}" if some else ""


def sum_said(some: Sequence[AtStake], currency: str) -> str:
    """What a list comes to, in words; nothing in the shop's currency where it is empty."""
    return " and ".join(in_money(amount, code) for code, amount in sums_of(some).items()) or in_money(
        Decimal(0), currency
    )


def as_json(
    found: ThreeAmounts, whose: Mapping[str, str] | None = None, undated: Collection[str] = ()
) -> dict[str, Any]:
    """The amounts as scripts read them, by shop too where several are told; dates are ISO 8601, money decimal text."""
    lists = {name: _list_as_json(getattr(found, name)) for name in TITLES}
    told = {"until": found.until.isoformat(), **lists, "claims_in_two": found.in_two}
    told["terms_unread"] = claims_by_terms(found.unread)
    if whose is None:
        return told
    for some in lists.values():
        for one in some["claims"]:
            one["shop"] = whose.get(one["claim"], "")
    shops = [one._asdict() | _sums_as_json(one) for one in by_shop(found, whose, undated)]
    return {**told, "by_shop": shops, "late_without": list(undated)}


def _sums_as_json(one: OfShop) -> dict[str, str | None]:
    sums = {name: getattr(one, name) for name in TITLES}
    return {name: None if amount is None else plain(amount) for name, amount in sums.items()}


def _list_as_json(some: Sequence[AtStake]) -> dict[str, Any]:
    sums = {code: plain(coins(amount, code)) for code, amount in sums_of(some).items()}
    return {"amounts": sums, "claims": [_claim_as_json(one) for one in some]}


def _claim_as_json(one: AtStake) -> dict[str, Any]:
    amount, by = plain(coins(one.amount, one.currency)), one.by.isoformat() if one.by else None
    return {**one._asdict(), "amount": amount, "by": by}
