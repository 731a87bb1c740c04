"""What an audit knows of each shop: what its settings and the makers' parts lists in its folder tell."""

from __future__ import annotations

from typing import TYPE_CHECKING

from claimpack.errors import ClaimpackError

if TYPE_CHECKING:
    from decimal import Decimal

    from claimpack.commands.desk.desk import Desk
    from claimpack.commands.desk.say import Say
    from claimpack.core.auditing.house import House


class Houses:
    """The shops whose claims are looked at, each read once; nothing is known of one whose folder nobody named."""

    def __init__(self, desk: Desk, say: Say) -> None:
        self._desk, self._say = desk, say
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
            return House()
        told = desk.shop.settings
        return House(
            hours=opening(told.opening_hours),
            holidays=frozenset(told.holidays),
            staff=tuple(Person(each.name, each.phone) for each in told.staff),
            phone=told.phone,
            email=told.email,
            address=told.address,
            price=_Costs(desk, self._say).of,
        )


class _Costs:
    """What parts cost a shop by the makers' lists in its folder, each read once; one that cannot be read is told of."""

    def __init__(self, desk: Desk, say: Say) -> None:
        self._desk, self._say = desk, say
        self._of_maker: dict[str, dict[str, Decimal]] = {}

    def of(self, maker: str, number: str) -> Decimal | None:
        from claimpack.core.values.words import run_on

        if maker not in self._of_maker:
            self._of_maker[maker] = self._read(maker)
        return self._of_maker[maker].get(run_on(number))

    def _read(self, maker: str) -> dict[str, Decimal]:
        from claimpack.lists.parts_lists import costs_in, parts_list_of

        path = parts_list_of(self._desk.home, self._desk.spellings(maker))
        try:
            return costs_in(path, self._desk.shop.settings.currency or "") if path else {}
        except ClaimpackError as error:
            self._say.note_once(f"Part costs are not compared: {error.what}")
            return {}
