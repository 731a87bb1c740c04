"""Whose the claims of a book of several shops are, as the desk of one of them sees it."""

from __future__ import annotations

from functools import cached_property
from typing import TYPE_CHECKING, Generic, Protocol, Self, TypeVar

from claimpack.errors import BadInput, NotFound, WrongState

if TYPE_CHECKING:
    from claimpack.book.book import Book
    from claimpack.commands.desk.world import World
    from claimpack.shop import Shop, ShopSettings

_MUCH_ALIKE = 0.8
"""How like two ids are of which one is likely the other mistyped, up to 1."""


class OfShop(Protocol):
    """What a desk has of the shop it stands in."""

    world: World
    shop: Shop

    @property
    def shop_id(self) -> str:
        """What the book calls the shop."""

    @property
    def book(self) -> Book:
        """The shop's book."""

    def of_world(self, world: World) -> Self:
        """The same desk as another world has it."""


Desk = TypeVar("Desk", bound=OfShop)


class Shops(Generic[Desk]):
    """The shops of the book: this one, and those whose folders its settings name. A claim is judged by its own."""

    def __init__(self, desk: Desk) -> None:
        self._desk = desk
        self._others: dict[str, Desk | None] = {}

    @cached_property
    def told(self) -> dict[str, str] | None:
        """The shop of every claim that is of one, by number; None where one shop's claims alone are looked at."""
        return self._desk.book.whose() if self._desk.world.all_shops else None

    def whose(self, number: str) -> str:
        """The id of the shop that a claim in a list is of."""
        return self._desk.shop_id if self.told is None else self.told.get(number, "")

    def with_shop(self, number: str) -> dict[str, str]:
        """What scripts are told of whose a claim is: nothing where a list is of one shop's claims."""
        return {} if self.told is None else {"shop": self.whose(number)}

    def shown(self, number: str) -> str:
        """Whose a claim of a list is, for its column; empty, and so no column, in a list of one shop's claims."""
        return "" if self.told is None else self.whose(number)

    @property
    def name_shown(self) -> str:
        """The shop's name, or those of every shop that is looked at."""
        if self.told is None:
            return self._desk.shop.settings.name
        return f"All shops: {', '.join(sorted(set(self.told.values())))}"

    @property
    def undated(self) -> tuple[str, ...]:
        """The shops that are looked at and whose terms are not known here, since nobody named their folders.

        An empty one stands for the claims that are no shop's.
        """
        looked_at = set((self.told or {}).values()) | (
            {""} if self.told and self._desk.book.without_a_shop() else set()
        )
        return tuple(shop for shop in sorted(looked_at) if self.desk_of(shop) is None)

    @cached_property
    def desks(self) -> tuple[Desk, ...]:
        """The desk of every shop that is looked at and known here: this one's first, or alone."""
        named = self._desk.shop.settings.shops if self._desk.world.all_shops else ()
        every = dict.fromkeys((self._desk.shop_id, *named))
        return tuple(desk for shop in every if (desk := self.desk_of(shop)))

    def desk_of(self, shop: str) -> Desk | None:
        """The desk of one of the book's shops: this one, one whose folder the settings name, or None.

        Raises:
            NotFound: the folder that the settings name is no shop's.
            BadInput: it is another shop's.
        """
        if shop == self._desk.shop_id:
            return self._desk
        if shop not in self._others:
            world = world_of(self._desk.world, self._desk.shop, shop)
            self._others[shop] = self._desk.of_world(world) if world else None
        return self._others[shop]

    def settings_of(self, shop: str) -> ShopSettings:
        """What a shop of the book says of itself; nothing, where nobody said which folder is its own."""
        from claimpack.shop import ShopSettings

        desk = self.desk_of(shop)
        return desk.shop.settings if desk else ShopSettings.model_construct()

    def other(self, shop: str) -> str:
        """Whose a claim is, in words, where it is not this shop's; empty where it is."""
        return "" if shop == self._desk.shop_id else shop_said(shop)

    def told_of(self, number: str) -> str:
        """That a claim of the book is another shop's, as it follows a sentence about its number; empty if it is not."""
        entry = next(self._desk.book.entries([number]), None)
        said = self.other(entry.standing.shop) if entry else ""
        return f", and {said}" if said else ""

    def must_be_ours(self, number: str, shop: str) -> None:
        """Refuse a claim of another shop, before it is judged, priced or printed by this one's settings.

        Raises:
            WrongState: it is another's.
        """
        if shop != self._desk.shop_id:
            raise not_ours(self._desk.shop, number, shop)

    def must_be_told_apart(self) -> None:
        """Refuse to take claims in under an id that is new to the book and much like another, before one goes astray.

        Raises:
            BadInput: it is; who has both shops names the other's folder.
        """
        from claimpack.core.values.words import nearest
        from claimpack.folder.shop_folder import SHOP_FILE

        desk = self._desk
        meant = nearest(desk.shop_id, desk.book.shops_of_others(), _MUCH_ALIKE)
        if meant and meant not in desk.shop.settings.shops:
            raise BadInput(
                f"{desk.shop.home() / SHOP_FILE}, key id: no claim of the book is {desk.shop_id}'s; some are {meant}'s",
                "A claim taken in under a mistyped id is in no list of its shop.",
                f'Write id = "{meant}"; if both are shops, name its folder: {meant} = "…" under shops',
            )


def shop_said(whose: str) -> str:
    """Whose a claim of a book of several shops is, in words."""
    return f"the shop {whose}'s" if whose else "no shop's yet"


def world_of(world: World, shop: Shop, whose: str) -> World | None:
    """The world as another shop of the book has it, whose folder the settings name; None where they name none.

    Raises:
        NotFound: the folder that they name is no shop's.
        BadInput: it is another shop's.
    """
    from claimpack.folder.shop_folder import SHOP_FILE
    from claimpack.shop import find_shop

    folder = shop.settings.shops.get(whose, "")
    if not folder:
        return None
    key, place = f"{shop.home() / SHOP_FILE}, key shops.{whose}", shop.home() / folder
    if not (place / SHOP_FILE).is_file():
        why = "Terms, plans and prices of that shop's claims are looked up there."
        raise NotFound(f"{key}: {folder} is no shop's folder", why, "Correct the path, or take it out.")
    found = find_shop(place, str(place)).settings.id
    if found != whose:
        why = "The book tells its shops by the id in each one's shop.toml."
        raise BadInput(f"{key}: {folder} is the folder of {found or 'a shop without id'}", why, "Correct one of them.")
    return world.but(environ={**world.environ, "CLAIMPACK_SHOP": str(place)})


def not_ours(shop: Shop, number: str, whose: str) -> WrongState:
    """The refusal of a claim of another shop, before it is judged, priced or printed by this one's settings."""
    from claimpack.book.refusals import of_another_shop

    folder = shop.settings.shops.get(whose)
    unknown = f'--shop DIR; this one may know it too, by shop.toml: shops = {{{whose} = "DIR"}}'
    return of_another_shop(number, whose, f"Do it in its own folder: {f'--shop {folder}' if folder else unknown}")
