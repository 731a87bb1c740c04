"""Pictures put on claims by the command, and what the claims then have."""

from __future__ import annotations

from running import claimpack
from shop_builders import a_picture, kept_claim, photographed, the_desk


def photo(shop, *arguments, **options):
    return claimpack("photo", *arguments, folder=shop, **options)


def files(shop, number="26-0001"):
    return [each.file for each in kept_claim(shop, number).photos]


def kept(shop, number="26-0001"):
    return the_desk(shop).book.get(number).files


def add(shop, *names, shade=1, number="26-0001"):
    """Pictures unlike each other, added to a claim."""
    given = [photographed(shop.parent / name, a_picture(shade + place)) for place, name in enumerate(names)]
    return photo(shop, "add", number, *given)
