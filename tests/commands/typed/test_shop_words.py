from __future__ import annotations

import pytest
from running import claimpack
from several_shops import two_shops
from shops_with_claims import a_shop_with

from claimpack.commands.desk.world import World
from claimpack.commands.typed.shop_words import ShopWords

TAB = {"_CLAIMPACK_COMPLETE": "complete_bash"}


@pytest.fixture(scope="module")
def shop(tmp_path_factory):
    return a_shop_with(tmp_path_factory.mktemp("shop"))


def completed(shop, line):
    environ = {**TAB, "COMP_WORDS": f"claimpack {line}", "COMP_CWORD": str(len(line.split(" ")))}
    return claimpack(folder=shop, environ=environ).out.splitlines()


@pytest.mark.parametrize(
    ("line", "word"),
    [
        ("show 26-", "26-0001"),
        ("list --maker hal", "halden"),
        ("cover --model CS", "CS-70"),
        ("cover --component ign", "ignition\\ coil"),
        ("plan try halden-2025 --use prof", "professional"),
        ("plan try halden-20", "halden-2025"),
        ("schema pl", "plan"),
        ("photo add 26-0001 a.jpg --shot ser", "serial\\ plate"),
        ("shop init x --terms us-s", "us-sc"),
        ("tag 26-0001 --stock label", "label-4x6"),
        ("packet 26-0001 --layout carta", "carta-a4"),
        ("list --state quest", "questioned"),
    ],
)
def test_a_tab_completes_the_words_of_the_shop(shop, line, word):
    assert word in completed(shop, line)


def test_shelves_and_codes_of_held_parts_are_completed(shop):
    kept = claimpack("hold", "list", "--json", folder=shop).json["parts"]
    assert {part["shelf"] for part in kept} == set(completed(shop, "hold list --shelf "))
    assert {part["code"] for part in kept} == set(completed(shop, "hold send "))


def test_outside_a_shop_a_tab_is_no_fault(tmp_path):
    assert completed(tmp_path, "show 26-") == []


def test_of_a_shop_that_cannot_be_read_a_tab_completes_nothing(tmp_path):
    (tmp_path / "shop.toml").write_text("book = [")
    assert completed(tmp_path, "show 26-") == []


@pytest.mark.parametrize(
    ("line", "words"),
    [("show ", ["A-2", "A-1"]), ("show --all-shops ", ["H-2", "H-1", "A-2", "A-1"])],
    ids=["of one shop", "of all of them"],
)
def test_of_several_shops_a_tab_completes_the_claims_that_are_listed(tmp_path, line, words):
    assert completed(two_shops(tmp_path) / "ashby", line) == words


def test_of_several_shops_a_tab_completes_the_shelf_of_this_one_alone(tmp_path):
    shops = two_shops(tmp_path)
    claimpack("part", "hold", "H-2", "coil", "--shelf", "C7", folder=shops / "hollis")
    assert [completed(shops / shop, "hold list --shelf C") for shop in ("hollis", "ashby")] == [["C7"], []]


def words(folder, kind, begun=""):
    return list(ShopWords(World(folder=folder, environ={}))(kind, begun))


@pytest.mark.parametrize("kind", ["claims", "shelves", "no such kind"])
def test_outside_a_shop_and_before_it_has_a_book_there_are_no_words_of_a_book(tmp_path, kind):
    (tmp_path / "shop").mkdir()
    (tmp_path / "shop" / "shop.toml").touch()
    assert (words(tmp_path, kind), words(tmp_path / "shop", kind)) == ([], [])
    assert [path.name for path in (tmp_path / "shop").iterdir()] == ["shop.toml"]


@pytest.mark.parametrize("kind", ["makers", "models", "components", "uses", "shots", "plans", "kinds", "states"])
def test_a_word_is_completed_once_and_a_word_that_stands_for_many_never(tmp_path, kind):
    (tmp_path / "shop.toml").touch()
    (tmp_path / "coverage").mkdir()
    own = 'maker = "halden"\nmodels = ["CS-70", "CS-9*"]\nuses = ["professional", ""]\n'
    (tmp_path / "coverage" / "own.toml").write_text(own)
    found = words(tmp_path, kind)
    assert len(found) == len(set(found)) > 0
    assert [word for word in found if not word or "*" in word] == []


def test_the_words_of_a_shops_own_plans_are_completed_with_those_that_come_with_the_program(tmp_path):
    (tmp_path / "shop.toml").touch()
    (tmp_path / "coverage").mkdir()
    (tmp_path / "coverage" / "own.toml").write_text('maker = "brill"\nmodels = [\n  "PB-1",\n  "PB-2",\n]\n')
    assert {"PB-1", "PB-2"} <= set(words(tmp_path, "models"))
    assert {"brill", "halden"} <= set(words(tmp_path, "makers"))
    assert {"own", "halden-2025"} <= set(words(tmp_path, "plans"))
