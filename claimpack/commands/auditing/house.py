"""What an audit knows of each shop: what its settings and the makers' parts lists in its folder tell."""

from __future__ import annotations

from typing import TYPE_CHECKING

from claimpack.errors import ClaimpackError

if TYPE_CHECKING:
    from claimpack.commands.desk.desk import Desk
    from claimpack.core.auditing.house import House, PriceList


class Houses:
    """The shops whose claims are looked at, each read once; nothing is known of one whose folder nobody named."""

    def __init__(self, desk: Desk) -> None:
        self._desk = desk
        self._known: dict[str, House] = {}

    def of(self, shop: str) -> House:
        """The shop that the book calls so."""
        if shop not in self._known:
            self._known[shop] = self._house(self._desk.shops.desk_of(shop))
        return self._known[shop]

    def _house(self, desk: Desk | None) -> House:
        from claimpack.core.auditing.house import House, Person
        from claimpack.core.values.opening_hours import opening

        if desk is None:
            return House(is_known=False)
        told = desk.shop.settings
        return House(
            hours=opening(told.opening_hours),
            holidays=frozenset(told.holidays),
            staff=tuple(Person(each.name, each.phone) for each in told.staff),
            phone=told.phone,
            email=told.email,
            address=told.address,
            price_list=_PriceLists(desk).of,
            vault_gone="" if desk.vault.is_elsewhere or desk.vault.folder.is_dir() else desk.vault.name,
        )


class _PriceLists:
    """What parts cost a shop by the makers' lists in its folder, each read once."""

    def __init__(self, desk: Desk) -> None:
        self._desk = desk
        self._of_maker: dict[str, PriceList] = {}

    def of(self, maker: str) -> PriceList:
        if maker not in self._of_maker:
            self._of_maker[maker] = self._read(maker)
        return self._of_maker[maker]

    def _read(self, maker: str) -> PriceList:
        from claimpack.core.auditing.house import PriceList
        from claimpack.core.plans.makers import is_maker_of
        from claimpack.lists.parts_lists import PARTS, costs_in, parts_list_of

        path = parts_list_of(self._desk.home, self._desk.spellings(maker))
        # by the plans' own word, so that a maker spelt two ways is one that has no list
        own = next((plan.maker for plan in self._desk.plans if is_maker_of(plan, maker)), maker)
        file = f"{PARTS}/{path.name if path else f'{own}.csv'}"
        currency = self._desk.shop.settings.currency or ""
        try:
            return PriceList(costs_in(path, currency) if path else None, file, currency=currency)
        except ClaimpackError as error:
            return PriceList(file=file, wrong=error.what)
