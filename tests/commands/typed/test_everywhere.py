from __future__ import annotations

import pytest
from made_once import made_once
from running import claimpack
from shop_builders import a_shop

from claimpack.commands.desk.world import World
from claimpack.commands.typed.everywhere import TypedEverywhere, in_world, taken_out


@pytest.fixture
def shop(tmp_path):
    return the_shop(tmp_path)


@made_once
def the_shop(place):
    return a_shop(place, "26-0001")


@pytest.mark.parametrize("typed", ["--shop s list", "list --shop s", "list --shop=s"])
def test_the_shop_may_be_named_before_or_after_the_command(typed):
    assert taken_out(typed.split()) == TypedEverywhere(["list"], shop="s")


@pytest.mark.parametrize(
    ("typed", "said"),
    [
        ("list", {}),
        ("list --debug", {"debug": True}),
        ("--quiet list", {"quiet": True}),
        ("list --no-pager", {"pages": False}),
        ("list --all-shops", {"all_shops": True}),
        ("list --shop", {"shop": ""}),
    ],
)
def test_what_is_not_typed_is_not_wanted(typed, said):
    nothing = {"debug": False, "quiet": False, "pages": True, "shop": None, "all_shops": False}
    assert taken_out(typed.split())._asdict() == {"arguments": ["list"], **nothing, **said}


@pytest.mark.parametrize(("typed", "as_json"), [("list", False), ("list --json", True), ("note x -- --json", False)])
def test_an_answer_is_wanted_in_json_where_the_option_says_so(typed, as_json):
    assert taken_out(typed.split()).as_json == as_json


@pytest.mark.parametrize("named", [False, True])
@pytest.mark.parametrize(("quiet", "pages"), [(False, True), (True, True), (False, False)])
def test_the_world_is_as_quiet_and_as_paged_as_is_wanted(shop, named, quiet, pages):
    typed = TypedEverywhere([], quiet=quiet, pages=pages, shop=str(shop) if named else None)
    found = in_world(World(folder=shop, environ={}), typed)
    assert (found.quiet, found.pages, found.all_shops) == (quiet, pages, False)


def test_what_follows_two_dashes_is_text():
    assert taken_out(["note", "--quiet", "--", "--shop"]) == TypedEverywhere(["note", "--", "--shop"], quiet=True)


def test_a_command_works_in_the_shop_that_is_named(shop, tmp_path_factory):
    elsewhere = tmp_path_factory.mktemp("elsewhere")
    assert claimpack("show", "26-0001", "--shop", shop, folder=elsewhere).code == 0


@pytest.mark.parametrize("named", [(), ("nowhere",)], ids=["none", "no shop"])
def test_a_folder_that_is_no_shop_is_refused(tmp_path, named):
    assert claimpack("list", "--shop", *named, folder=tmp_path).code == 2


def test_a_quiet_command_answers_and_says_nothing_beside_it(shop):
    loud, quiet = claimpack("list", folder=shop), claimpack("list", "--quiet", folder=shop)
    assert (quiet.out, quiet.err, bool(loud.err)) == (loud.out, "", True)


def test_a_quiet_command_still_tells_an_error(shop):
    assert "26-0009" in claimpack("--quiet", "show", "26-0009", folder=shop).err


def test_an_error_of_an_answer_in_json_is_json(shop):
    ran = claimpack("show", "26-0009", "--json", folder=shop)
    assert (ran.json["exit_code"], ran.json["error"]["kind"], bool(ran.err)) == (2, "not found", True)


@pytest.mark.parametrize("typed", ["show --json --nonsense", "hold move --json", "pay 26-0001 x --json"])
def test_a_command_line_that_cannot_be_read_is_told_in_json_too(shop, typed):
    assert claimpack(*typed.split(), folder=shop).json["exit_code"] == 2
