from __future__ import annotations

from decimal import Decimal

import pytest
from shop_builders import the_desk

from claimpack.commands.typed.parts_list import in_list_of, looked_up, must_have_a_name
from claimpack.errors import BadInput


@pytest.mark.parametrize(
    ("number", "name"), [("70-3302", "Ignition coil"), ("703302", "Ignition coil"), ("70-3303", None)]
)
def test_a_part_is_looked_up_in_the_list_of_the_claims_maker(shop, number, name):
    (shop / "parts").mkdir(exist_ok=True)
    (shop / "parts" / "Halden.csv").write_text("number,name,cost\n70-3302,Ignition coil,38.15\n")
    found = looked_up(the_desk(shop), "26-0001", number)
    assert (found.name if found else None) == name


def test_of_a_maker_without_a_list_no_part_is_known(shop):
    assert in_list_of(the_desk(shop), "orrin", "70-3302") is None


@pytest.mark.parametrize("keys", [{}, {"name": ""}])
def test_a_part_that_nobody_has_a_name_for_is_asked_for_one(keys):
    with pytest.raises(BadInput, match="what is part 70-3302"):
        must_have_a_name({"number": "70-3302", **keys}, "NAME")


def test_a_part_with_a_name_is_taken_by_it():
    must_have_a_name({"number": "70-3302", "name": "Coil"}, "NAME")


def test_what_a_listed_part_costs_is_read_in_the_shops_currency(shop):
    settings = shop / "shop.toml"
    settings.write_text(f'currency = "USD"\n{settings.read_text()}')
    (shop / "parts").mkdir(exist_ok=True)
    (shop / "parts" / "halden.csv").write_text('number,name,cost\n70-3302,Ignition coil,"$1,238.15"\n')
    assert in_list_of(the_desk(shop), "halden", "70-3302").cost == Decimal("1238.15")
