"""A kit is paid once: the parts in it are listed and not paid again."""

from __future__ import annotations

import pytest
from booklets import notes, told, under

BOOKLET = """
kit = [ {number = "K-70", name = "gasket kit", includes = ["G-1", "G-1", "G-2"]} ]
[pays]
parts_handling = "0.10"
"""
KIT = '{name = "gasket kit", number = "K-70", unit_cost = "40.00"}'


def used(quantity: int, more: str = "") -> str:
    return f'{{name = "gasket", number = "G 1", quantity = {quantity}, unit_cost = "5.00"{more}}}'


@pytest.mark.parametrize(
    ("quantity", "lines"),  # two are in the kit
    [
        (1, [("gasket", "0.00", "0.00", "maker")]),
        (2, [("gasket", "0.00", "0.00", "maker")]),
        (3, [("gasket", "5.00", "0.50", "maker"), ("gasket", "0.00", "0.00", "maker")]),
    ],
)
def test_as_many_pieces_as_the_kit_has_are_paid_with_it(quantity, lines):
    found = under(BOOKLET, f"parts = [ {KIT}, {used(quantity)} ]")
    assert told(found) == [("gasket kit", "40.00", "4.00", "maker"), *lines]


def test_they_say_what_they_come_with():
    assert notes(under(BOOKLET, f"parts = [ {KIT}, {used(1)} ]"), 2) == ["It comes with gasket kit."]


def test_two_kits_have_twice_the_pieces():
    two = KIT.replace("unit_cost", "quantity = 2, unit_cost")
    assert told(under(BOOKLET, f"parts = [ {two}, {used(5)} ]"))[1] == ("gasket", "5.00", "0.50", "maker")


def test_without_the_kit_a_part_is_paid():
    assert told(under(BOOKLET, f"parts = [ {used(2)} ]")) == [("gasket", "10.00", "1.00", "maker")]


def test_a_kit_that_the_owner_pays_includes_nothing_the_maker_pays():
    owners = KIT.replace("unit_cost", 'payer = "owner", unit_cost')
    assert told(under(BOOKLET, f"parts = [ {owners}, {used(2)} ]"))[1] == ("gasket", "10.00", "1.00", "maker")


def test_a_kit_in_a_kit_is_refused():
    with pytest.raises(ValueError, match="K-71 includes K 70"):
        under(BOOKLET.replace("]} ]", ']}, {number = "K-71", includes = ["K 70"]} ]'), "")


def test_a_part_of_a_kit_needs_no_cost():
    free = '{name = "gasket", number = "G-2"}'
    looks = [under(BOOKLET, f"parts = [ {parts} ]").missing for parts in (f"{KIT}, {free}", free)]
    assert [any(item.what.key == "missing.part-cost" for item in each) for each in looks] == [False, True]
