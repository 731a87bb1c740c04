"""The shop: the settings in shop.toml, found upwards from where one stands."""

from __future__ import annotations

from pathlib import Path
from typing import Literal, NamedTuple

from claimpack.core.claim import Currency, Record
from claimpack.core.words import Line, Text, folded
from claimpack.errors import NotFound
from claimpack.toml_files import read_record

SHOP_FILE = "shop.toml"


class ShopSettings(Record):
    """What a shop says of itself; every key may be absent. Dealer numbers and terms are given by maker."""

    format: Literal[1] = 1
    name: Line = ""
    address: Text = ""
    phone: Line = ""
    email: Line = ""
    currency: Currency | None = None
    dealer_numbers: dict[str, Line] = {}
    terms: Line = ""
    maker_terms: dict[str, Line] = {}
    layout: Line = ""
    stock: Line = ""

    def dealer_number(self, maker: str) -> str:
        """The shop's number with a maker, or an empty text."""
        return next((number for name, number in self.dealer_numbers.items() if folded(name) == folded(maker)), "")


class Shop(NamedTuple):
    """A shop's folder and settings; the folder is None where no shop was found."""

    folder: Path | None
    settings: ShopSettings


def find_shop(start: Path, named: str = "") -> Shop:
    """The shop whose folder is named, else the nearest one above `start`; one without settings where there is none.

    Raises:
        NotFound: the folder named holds no shop.toml.
        BadInput: the settings have problems.
    """
    if named:
        folder = Path(named)
        if not (folder / SHOP_FILE).is_file():
            raise NotFound(
                f"CLAIMPACK_SHOP: there is no {SHOP_FILE} in {folder}",
                "The variable names the folder of the shop.",
                "Correct it, or unset it.",
            )
        return Shop(folder, read_record(ShopSettings, folder / SHOP_FILE))
    start = start.resolve()
    for folder in (start, *start.parents):
        if (folder / SHOP_FILE).is_file():
            return Shop(folder, read_record(ShopSettings, folder / SHOP_FILE))
    return Shop(None, ShopSettings())
