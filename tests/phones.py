"""A phone with pictures of two claims, taken by the tags in them and by time."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from made_once import made_once
from running import Ran, claimpack
from shop_builders import a_picture, kept_claim, photographed, with_tags

_PHONE = (1600, 1400)


def taken(shop: Path, name: str, time: str, *codes: str, shade: int | None = None, **how: float) -> Path:
    """A picture on the phone, taken at a time of the first of March, with tags in the frame."""
    picture = a_picture(shade or sum(map(ord, name)), _PHONE if codes else (900, 700))
    return photographed(shop.parent / "phone" / name, with_tags(picture, *codes, **how), f"2026-03-01 {time}")


def a_phone(shop: Path) -> Path:
    """Two claims' worth of pictures, and some that belong to nobody, beside a shop."""
    return _its_pictures(shop.parent)


@made_once
def _its_pictures(place: Path) -> Path:
    shop = place / "shop"
    taken(shop, "a.jpg", "08:55:00")
    taken(shop, "b.jpg", "09:00:00", "26-0001/1", turned=17, blurred=1)
    taken(shop, "c.jpg", "09:20:00")
    taken(shop, "d.jpg", "09:40:01")
    taken(shop, "e.jpg", "10:00:00", "26-0002/1", turned=200)
    taken(shop, "f.jpg", "10:02:00")
    return place / "phone"


def sort(shop: Path, *arguments: object, **options: Any) -> Ran:
    """Run `photo sort` in a shop."""
    return claimpack("photo", "sort", *arguments, folder=shop, **options)


def shots(shop: Path, number: str) -> list[tuple[str, str]]:
    """The pictures of a claim, and what they show."""
    return [(each.file, each.shot) for each in kept_claim(shop, number).photos]
