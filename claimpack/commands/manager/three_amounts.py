"""What can be lost this week, what makers are late with, what only the shop can move: gathered, and told first."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Sequence
    from decimal import Decimal

    from claimpack.commands.desk.desk import Desk
    from claimpack.commands.desk.say import Say
    from claimpack.commands.desk.terms_in_force import TermsInForce
    from claimpack.core.reporting.three_amounts import OfShop, ThreeAmounts, Watched

_MOST = 5
"""So many claims of each amount are told; the rest is counted."""


def watched_now(desk: Desk, in_force: TermsInForce, maker: str) -> Watched:
    """What the three amounts are worked out from, of the claims on one maker or on all."""
    from claimpack.book.held import HeldWanted
    from claimpack.book.tables.entries import Wanted
    from claimpack.core.events.states import OPEN
    from claimpack.core.reporting.three_amounts import Watched

    claims = desk.claims(Wanted(states=OPEN, refused_rest=True, maker=maker))
    parts = desk.held(HeldWanted(states=("called back",), maker=maker))
    terms = in_force.by_claim((claim.number, claim) for claim in claims)
    return Watched(claims, parts, terms)


def tell_amounts(say: Say, found: ThreeAmounts, desk: Desk) -> None:
    """The three amounts, each with the claims that most of it hangs on; by shop too where several are told."""
    from claimpack.commands.screen.columns import ScreenColumn, Under, tell_columns
    from claimpack.core.reporting.three_amounts import TITLES, by_shop, left_out, on_claims, sum_said
    from claimpack.core.values.money import in_money
    from claimpack.core.values.numbers_said import how_many
    from claimpack.core.values.words import more_than

    currency = desk.shop.settings.currency or ""
    for name, title in TITLES.items():
        some = getattr(found, name)
        until = f", up to {found.until}" if name == "can_be_lost" else ""
        without = left_out(name, found, desk.shops.undated)
        say.heading(f"{title}{until}: {sum_said(some, currency)}{on_claims(some)}{without}")
        shown = some[:_MOST]
        columns = (
            ScreenColumn("Claim", [one.claim for one in shown], most=24),
            ScreenColumn("Shop", [desk.shops.shown(one.claim) for one in shown], most=16),
            ScreenColumn("Maker", [one.maker for one in shown], lesser=1, most=16),
            ScreenColumn("Amount", [in_money(one.amount, one.currency) for one in shown], right=True),
            ScreenColumn("By", [str(one.by or "") for one in shown]),
        )
        if shown:
            under = [Under("fail" if found.is_missed(one) else "", one.what) for one in shown]
            tell_columns(say, columns, under, indent=1)
        if len(some) > len(shown):
            say.item("·", f"{more_than(some, _MOST)}, {sum_said(some[_MOST:], currency)}")
    if found.in_two:
        say.item("·", f"{how_many(found.in_two, 'claim stands', 'claims stand')} in more than one of the three.")
    if desk.shops.told is not None:
        _tell_by_shop(say, by_shop(found, desk.shops.told, desk.shops.undated))


def _tell_by_shop(say: Say, sums: Sequence[OfShop]) -> None:
    from claimpack.commands.screen.columns import ScreenColumn, tell_columns
    from claimpack.core.reporting.three_amounts import TITLES
    from claimpack.core.values.money import in_money

    def told(amount: Decimal | None, currency: str) -> str:
        return "not known" if amount is None else in_money(amount, currency)

    say.heading("By shop")
    columns = [
        ScreenColumn(title, [told(getattr(one, name), one.currency) for one in sums], right=True)
        for name, title in TITLES.items()
    ]
    tell_columns(say, [ScreenColumn("Shop", [one.shop_shown for one in sums]), *columns], indent=1)
