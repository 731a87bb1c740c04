from __future__ import annotations

from datetime import datetime
from pathlib import Path
from zoneinfo import ZoneInfo

import pytest
from running import Pipe, Terminal

from claimpack.commands.desk.world import World
from claimpack.errors import BadInput

NOON = datetime(2026, 11, 1, 12, 0, tzinfo=ZoneInfo("America/New_York"))


@pytest.mark.parametrize(("fold", "offset"), [(0, "-04:00"), (1, "-05:00")])
def test_a_time_shown_twice_is_chosen_by_its_fold(fold, offset):
    wall = datetime(2026, 11, 1, 1, 30, fold=fold)  # noqa: DTZ001
    assert World(clock=NOON).shown(wall).isoformat() == f"2026-11-01T01:30:00{offset}"


def test_a_time_that_clocks_skipped_comes_out_as_another():
    wall = datetime(2026, 3, 8, 2, 30)  # noqa: DTZ001
    assert World(clock=NOON).shown(wall).isoformat() == "2026-03-08T03:30:00-04:00"


def test_by_the_machines_own_clock_a_time_gets_an_offset():
    wall = datetime(2026, 3, 2, 12, 0)  # noqa: DTZ001
    assert World().shown(wall).utcoffset() is not None


@pytest.mark.parametrize(
    ("named", "place"),
    [("out", "out"), ("../folders", "../folders"), ("a/../out", "out"), ("..", ".."), (".", ".")],
)
def test_a_path_is_a_place_without_detours(tmp_path, named, place):
    stand = tmp_path / "shop"
    assert World(folder=stand).path(named) == (stand / place).resolve()


def test_a_link_in_the_way_back_leads_where_it_leads(tmp_path):
    (tmp_path / "far" / "inner").mkdir(parents=True)
    (tmp_path / "link").symlink_to(tmp_path / "far" / "inner")
    assert World(folder=tmp_path).path("link/../x") == tmp_path / "far" / "x"


@pytest.mark.parametrize(
    ("path", "told"),
    [
        ("/home/q/shop/out/a.pdf", "out/a.pdf"),
        ("/home/q/folders", "../folders"),
        ("/etc/a.pdf", "/etc/a.pdf"),
        ("/home/x", "/home/x"),
    ],
)
def test_a_path_is_told_from_where_one_stands_where_that_is_shorter(path, told):
    assert World(folder=Path("/home/q/shop")).from_here(Path(path)) == told


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("/home/q/shop/a b/claim.toml: key x", "a b/claim.toml: key x"),
        ("in /home/q/folders, or /tmp/x", "in ../folders, or /tmp/x"),
        ("/home/q/shop is a shop", "/home/q/shop is a shop"),
        ("/mnt/home/q/shop/x", "/mnt/home/q/shop/x"),
        ("/home/q/shop-2/x", "../shop-2/x"),
        ("/home/z/x", "/home/z/x"),
    ],
)
def test_paths_in_a_message_are_told_from_where_one_stands(text, told):
    assert World(folder=Path("/home/q/shop")).paths_from_here(text) == told


@pytest.mark.parametrize(
    ("environ", "who"),
    [
        ({"CLAIMPACK_WHO": " Ana\tB. ", "USER": "ben"}, "Ana B."),
        ({"CLAIMPACK_WHO": "  ", "USER": "ben"}, "ben"),
        ({}, "somebody"),
    ],
)
def test_whoever_is_at_work_is_named(environ, who):
    assert World(environ=environ).who() == who


@pytest.mark.parametrize("value", ["Ana\x1b[31m", "Ana \udcff", "A" * 301], ids=["escape", "no UTF-8", "too long"])
def test_a_name_no_history_could_keep_is_refused(value):
    with pytest.raises(BadInput) as caught:
        World(environ={"CLAIMPACK_WHO": value}).who()
    assert caught.value.what.startswith("CLAIMPACK_WHO ")


@pytest.mark.parametrize("columns", [40, 60, 61, 110, 200])
def test_text_is_between_60_and_110_columns_wide_and_as_wide_as_the_terminal(monkeypatch, columns):
    monkeypatch.setenv("COLUMNS", str(columns))
    world = World(stdout=Terminal())
    assert (world.width(), world.columns()) == (max(60, min(110, columns)), columns)


def test_off_a_terminal_text_is_100_columns_wide_and_a_list_as_wide_as_it_is(monkeypatch):
    monkeypatch.setenv("COLUMNS", "80")
    world = World(stdout=Pipe(), stderr=Terminal())
    assert (world.width(), world.columns(), world.width(world.stderr)) == (100, None, 80)


@pytest.mark.parametrize(
    ("environ", "stream", "colour"),
    [
        ({}, Terminal(), True),
        ({}, Pipe(), False),
        ({"FORCE_COLOR": "1"}, Pipe(), True),
        ({"TERM": "dumb"}, Terminal(), False),
        ({"NO_COLOR": "1", "FORCE_COLOR": "1"}, Terminal(), False),
    ],
)
def test_colour_goes_to_a_terminal_that_takes_it(environ, stream, colour):
    assert World(environ=environ).has_colour(stream) is colour


@pytest.mark.parametrize("environ", [{}, {"CLAIMPACK_SHOPS": "all", "USER": "ben"}])
def test_one_shop_is_meant_unless_all_are_said_to_be(environ):
    world = World(environ=environ)
    assert (world.all_shops, world.of_all_shops().all_shops, world.of_one_shop().all_shops) == (
        bool(environ),
        True,
        False,
    )
    assert world.of_one_shop().who() == world.who()


def test_a_world_is_the_same_but_for_what_is_said():
    world = World(
        stdout=Pipe(), environ={"USER": "ben"}, folder=Path("/home/q"), clock=NOON, noted={"x"}, quiet=True, pages=False
    )
    other = world.but(folder=Path("/home/z"))
    assert (other.folder, other.stdout is world.stdout, other.noted is world.noted) == (Path("/home/z"), True, True)
    assert (other.clock, other.quiet, other.pages, other.who()) == (NOON, True, False, "ben")


def test_a_world_told_of_nothing_is_not_quiet_and_pages():
    assert (World().quiet, World().pages) == (False, True)


def test_a_name_may_be_as_long_as_a_line_may_be():
    assert World(environ={"CLAIMPACK_WHO": "A" * 300}).own_name() == "A" * 300


def test_the_name_of_nobody_is_none():
    assert World(environ={}).own_name() == ""
