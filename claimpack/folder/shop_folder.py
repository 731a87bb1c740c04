"""The folder of a shop: what makes it one, and the nearest above where one stands."""

from __future__ import annotations

from pathlib import Path

SHOP_FILE = "shop.toml"


def shop_above(start: Path) -> Path | None:
    """The nearest folder of a shop, `start` itself or one above it."""
    start = start.resolve()
    return next((folder for folder in (start, *start.parents) if (folder / SHOP_FILE).is_file()), None)
