from __future__ import annotations

from datetime import datetime
from pathlib import Path
from zoneinfo import ZoneInfo

import pytest

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
    [("/home/q/shop/out/a.pdf", "out/a.pdf"), ("/home/q/folders", "../folders"), ("/etc/a.pdf", "/etc/a.pdf")],
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
