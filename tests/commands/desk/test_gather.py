from __future__ import annotations

import os

import pytest
from claim_folders import a_folder
from running import NOW, claimpack
from shop_builders import a_shop, happen, kept_claim, the_desk
from shops_with_claims import a_copy

from claimpack.commands.desk.gather import gather, is_folder, the_book, the_shop
from claimpack.commands.desk.world import World
from claimpack.core.facts.pictures import Photo
from claimpack.core.holding.hold import hold_of
from claimpack.errors import BadInput, NotFound


def world_in(folder, **environ):
    return World(folder=folder, environ={"CLAIMPACK_WHO": "ann", **environ}, clock=NOW)


@pytest.mark.parametrize(
    ("named", "folder"),
    [
        ("26-0001", False),
        ("claim", True),
        ("claim/claim.toml", True),
        ("./26-0001", True),
        (".", True),
        ("..", True),
        ("empty", False),
        ("claim.toml", True),
    ],
)
def test_a_claim_is_a_folder_where_it_looks_like_one(tmp_path, named, folder):
    a_folder(tmp_path / "claim", shots=())
    (tmp_path / "empty").mkdir()
    assert is_folder(world_in(tmp_path), named) is folder


def test_the_shop_in_the_environment_comes_first(tmp_path):
    here, there = a_shop(tmp_path / "a"), a_shop(tmp_path / "b")
    assert the_shop(world_in(here, CLAIMPACK_SHOP=str(there))).folder == there


def test_the_book_is_that_of_the_shop_that_is_handed_in(tmp_path):
    here, there = (world_in(a_shop(tmp_path / each, number)) for each, number in (("a", "26-0001"), ("b", "26-0002")))
    assert [row.number for row in the_book(here, the_shop(there)).claims()] == ["26-0002"]


def test_outside_a_shop_a_number_that_is_no_folder_is_told_as_both(tmp_path):
    with pytest.raises(NotFound, match="and no shop") as caught:
        gather(world_in(tmp_path), "26-0001", None, "")
    assert ("CLAIMPACK_SHOP" in caught.value.do, "claimpack start FOLDER" in caught.value.do) == (True, True)


def test_outside_a_shop_a_path_is_looked_for_as_a_folder_alone(tmp_path):
    with pytest.raises(NotFound, match=r"26-0001: there is no such claim folder$"):
        gather(world_in(tmp_path), "./26-0001", None, "")


@pytest.mark.parametrize(
    ("changes", "name"), [({}, "Halden"), ({"maker": "HALDEN"}, "Halden"), ({"maker": "Zork"}, "Zork")]
)
def test_a_maker_goes_by_the_name_its_plans_give(tmp_path, changes, name):
    shop = a_shop(tmp_path, **changes)
    assert gather(world_in(shop), "26-0001", None, "").assessment.maker_name == name


@pytest.mark.parametrize("command", [("list",), ("show", "26-0001"), ("set", "26-0001", "unit.hours", "3")])
def test_a_book_that_can_only_be_read_is_told_once(draft_shop, tmp_path, monkeypatch, command):
    shop = a_copy(draft_shop, tmp_path)
    monkeypatch.setattr(os, "access", lambda _path, mode: not mode & os.W_OK)
    ran = claimpack(*command, folder=shop)
    said = "The book can be read, but not changed: its folder or file is read-only.\n"
    assert (ran.err.count(said), ran.code) == (1, 2 if command[0] == "set" else 0)


def test_a_folder_beside_comes_before_a_claim_of_the_book(tmp_path):
    shop = a_shop(tmp_path)
    a_folder(shop / "26-0001")
    assert gather(world_in(shop), "26-0001", None, "").entry is None


def test_a_claim_folder_inside_a_shop_is_judged_with_the_shops_settings(tmp_path):
    shop = a_shop(tmp_path)
    a_folder(shop / "incoming" / "1")
    assert gather(world_in(tmp_path), "shop/incoming/1", None, "").shop.folder == shop.resolve()


def test_a_claim_of_the_book_knows_when_it_was_filed(tmp_path):
    shop = a_shop(tmp_path)
    before = gather(world_in(shop), "26-0001", None, "").circumstances.filed
    happen(shop, "26-0001", "filed", claimed="150.00", currency="USD")
    after = gather(world_in(shop), "26-0001", None, "2026-03-31").circumstances.filed
    assert (before, after) == (None, NOW.date())


@pytest.mark.parametrize(("repaired", "rate"), [("2026-02-24", 80), (None, 100)], ids=["repaired", "not yet"])
def test_what_owners_pay_for_an_hour_is_that_of_the_day_of_the_repair_or_of_today(tmp_path, repaired, rate):
    shop = a_shop(tmp_path, dates__repaired=repaired)
    with (shop / "shop.toml").open("a") as settings:
        for since, each in (("2026-01-01", 80), ("2026-02-25", 100)):
            settings.write(f'\n[[labour_rates]]\nsince = "{since}"\nrate = "{each}.00"\n')
    assert gather(world_in(shop), "26-0001", None, "").circumstances.retail.labour_rate == rate


def test_parts_are_held_as_the_book_has_it_but_as_the_plan_says_that_is_tried(tmp_path):
    shop = a_shop(tmp_path)
    kept, tried = (gather(world_in(shop), "26-0001", plans, "") for plans in (None, [shop / "coverage"]))
    assert (kept.circumstances.hold, tried.circumstances.hold) == (hold_of(kept.assessment.plan), None)


def test_a_picture_the_book_does_not_keep_says_how_to_add_it(tmp_path):
    shop = a_shop(tmp_path)
    with the_desk(shop).changing("26-0001") as changing:
        changing.keep(kept_claim(shop).model_copy(update={"photos": (Photo(file="photos/lost.jpg"),)}))
    case = gather(world_in(shop), "26-0001", None, "")
    with pytest.raises(BadInput, match=r"names photos/lost\.jpg, which a packet has to show"):
        case.file("photos/lost.jpg")
