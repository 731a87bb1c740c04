"""A kit is paid once: the parts in it are listed and not paid again."""

from __future__ import annotations

import pytest
from booklets import notes, told, under
from builders import a_claim, a_plan

from claimpack.core.pricing.parts import part_lines, pieces_paid

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


KITS = [
    {"number": "K-70", "name": "gasket kit", "includes": ["G-1", "G-1", "G-2"]},
    {"number": "K-71", "includes": ["G-1", "G-3"]},
]


def pieces(*parts):
    """Of every part the pieces that are paid, those that come with a kit, and the kit."""
    claim = a_claim(parts=[{"name": "part", **part} for part in parts])
    found = pieces_paid(claim.parts, a_plan(kit=KITS))
    return [(int(one.paid), int(one.included), one.kit) for one in found]


def test_the_pieces_of_a_kit_go_to_the_first_line_first():
    one, two = {"number": "g1"}, {"number": "G-1", "quantity": 3}
    assert pieces({"number": "K-70"}, one, two)[1:] == [(0, 1, "gasket kit"), (2, 1, "gasket kit")]


def test_a_kit_without_a_name_is_told_by_its_number():
    assert pieces({"number": "K 71"}, {"number": "G-3"})[1] == (0, 1, "K-71")


def test_a_piece_that_two_kits_have_is_told_by_the_first():
    assert pieces({"number": "K-70"}, {"number": "K-71"}, {"number": "G-1", "quantity": 4})[2] == (1, 3, "gasket kit")


def test_a_piece_that_the_owner_pays_comes_with_no_kit_of_the_makers():
    owners = {"number": "G-1", "payer": "owner"}
    assert pieces({"number": "K-70"}, owners, {"number": "G-1", "quantity": 2})[1:] == [
        (1, 0, ""),
        (0, 2, "gasket kit"),
    ]


def lines(payer="maker", pays=None, **part):
    claim = a_claim(parts=[{"name": "starter", "number": "S-1", "quantity": 2, "unit_cost": "80.00", **part}])
    plan = a_plan(pays={"parts_handling": "0.2", **(pays or {})}, kit=[{"number": "K-9", "includes": ["S-1"]}])
    (found,) = pieces_paid(claim.parts, plan)
    return part_lines(found, plan, payer)


@pytest.mark.parametrize(("payer", "handling"), [("maker", "32.00"), ("owner", "0.00"), ("shop", "0.00")])
def test_handling_is_added_for_the_maker_alone(payer, handling):
    assert [str(line.handling) for line in lines(payer)] == [handling]


@pytest.mark.parametrize(
    ("payer", "core", "pays"),
    [("maker", "claimed", "maker"), ("maker", "shop", "shop"), ("owner", "shop", "owner"), ("shop", "claimed", "shop")],
)
def test_a_deposit_is_the_makers_where_the_plan_claims_it_and_else_the_shops_or_the_owners(payer, core, pays):
    pays_core = {"core": core} if core == "claimed" else {}
    found = lines(payer, pays_core, core="45.00")
    assert [(line.payer, str(line.amount), line.is_core) for line in found[1:]] == [(pays, "90.00", True)]


@pytest.mark.parametrize(
    ("core", "keys"),
    [
        ({"core": "45.00", "core_returned": "2026-02-26"}, ["price.core-returned"]),
        ({"core": "0", "core_returned": "2026-02-26"}, []),
        ({"core_returned": "2026-02-26"}, []),
        ({"core": "0"}, []),
        ({}, []),
    ],
    ids=["returned", "returned, of no deposit", "returned, and no deposit named", "a deposit of nothing", "no core"],
)
def test_where_no_deposit_stands_there_is_no_line_of_it_and_its_return_is_told(core, keys):
    (line,) = lines(**core)
    assert [note.key for note in line.notes] == keys


def test_a_piece_that_comes_with_a_kit_has_no_deposit_of_its_own():
    claim = a_claim(parts=[{"name": "kit", "number": "K-9"}, {"name": "starter", "number": "S-1", "core": "45.00"}])
    plan = a_plan(kit=[{"number": "K-9", "includes": ["S-1"]}])
    found = part_lines(pieces_paid(claim.parts, plan)[1], plan, "maker")
    assert [(line.is_core, line.notes[0].key) for line in found] == [(False, "price.in-kit")]


def test_a_part_from_the_shops_stock_is_not_told_as_sent():
    assert [note.key for note in lines()[0].notes] == []
