"""What an audit measures with: the shop as its settings and the makers' parts lists tell it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from claimpack.errors import ClaimpackError

if TYPE_CHECKING:
    from decimal import Decimal

    from claimpack.commands.desk.desk import Desk
    from claimpack.commands.desk.say import Say
    from claimpack.core.auditing.audited import Measures


def measures_of(desk: Desk, say: Say) -> Measures:
    """What the audit of a shop measures with; a parts list that cannot be read is told of and left out."""
    from claimpack.core.auditing.audited import Measures
    from claimpack.core.auditing.house import House, Person
    from claimpack.core.values.opening_hours import opening

    told, several = desk.shop.settings, desk.world.all_shops
    house = House(
        # a day on which one shop is shut is no question to another: hours are asked about in each shop alone
        hours=opening({} if several else told.opening_hours),
        holidays=frozenset(() if several else told.holidays),
        staff=tuple(Person(each.name, each.phone) for one in desk.shops.desks for each in one.shop.settings.staff),
        phone=told.phone,
        email=told.email,
        address=told.address,
        price=_Costs(desk, say).of,
    )
    return Measures(desk.day, house=house)


class _Costs:
    """What parts cost a shop by the makers' lists in its folder, each read once; nothing where that is not known."""

    def __init__(self, desk: Desk, say: Say) -> None:
        self._desk, self._say = desk, say
        self._of_maker: dict[tuple[str, str], dict[str, Decimal]] = {}

    def of(self, shop: str, maker: str, number: str) -> Decimal | None:
        from claimpack.core.values.words import run_on

        if (shop, maker) not in self._of_maker:
            desk = self._desk.shops.desk_of(shop)
            self._of_maker[shop, maker] = self._read(desk, maker) if desk else {}
        return self._of_maker[shop, maker].get(run_on(number))

    def _read(self, desk: Desk, maker: str) -> dict[str, Decimal]:
        from claimpack.lists.parts_lists import costs_in, parts_list_of

        path = parts_list_of(desk.home, desk.spellings(maker))
        try:
            return costs_in(path, desk.shop.settings.currency or "") if path else {}
        except ClaimpackError as error:
            self._say.note_once(f"Part costs are not compared: {error.what}")
            return {}
