"""Command lines that the command library reads: what it makes of them is what is made of them without it."""

from __future__ import annotations

import os

import pytest
from running import NOW, Pipe, claimpack
from shop_builders import a_shop

from claimpack.commands.desk.world import World
from claimpack.commands.library import run_by_library
from claimpack.errors import BadInput, NotFound


@pytest.fixture
def shop(tmp_path):
    """A shop with two claims, 26-0001 at hand."""
    shop = a_shop(tmp_path, "26-0001", "26-0002")
    claimpack("at-hand", "26-0001", folder=shop)
    return shop


def by_library(line, shop):
    world = World(stdin=Pipe(), stdout=Pipe(), stderr=Pipe(), environ={"CLAIMPACK_WHO": "ann"}, folder=shop, clock=NOW)
    with world.closing:
        return run_by_library(line.split(), world), world.stdout.getvalue()


@pytest.mark.parametrize(
    "line",
    [
        "check 26-0002",
        "check",
        "show --json",
        "list --maker halden",
        "audit",
        "audit look",
        "audit 26-0002",
        "audit --help",
        "hold send -h",
        "cover --maker halden --model CS-70 --component coil --purchased 2/25/2026",
        "note hello --dry-run",
        "finding list",
    ],
)
def test_a_line_that_the_library_reads_is_answered_like_one_that_it_does_not(shop, line):
    without = claimpack(*line.split(), folder=shop)
    assert by_library(line, shop) == (without.code, without.out)


@pytest.mark.parametrize("line", ["note hello", "labour add welding --hours 1.5", "finding add compression -5 psi"])
def test_a_claim_left_out_of_a_line_that_the_library_reads_is_the_one_at_hand(shop, line):
    assert by_library(line, shop)[0] == 0
    assert len(claimpack("history", "26-0001", "--json", folder=shop).json["events"]) == 2


def test_a_claim_that_is_not_there_is_not_found_though_another_is_at_hand(shop):
    with pytest.raises(NotFound, match="nonsense"):
        by_library("labour add nonsense welding --hours 1.5", shop)


@pytest.mark.parametrize("day", ["someday", "3/4/2026"], ids=["no day", "one of two"])
def test_a_day_that_cannot_be_read_names_its_option_where_the_library_reads_it(shop, day):
    with pytest.raises(BadInput, match=r"^--on: "):
        by_library(f"pay 26-0001 150.00 --on {day}", shop)


@pytest.mark.parametrize("line", ["list", "list --json"])
def test_a_shell_is_looked_for_where_none_is_named(shop, monkeypatch, line):
    monkeypatch.delenv("_TYPER_COMPLETE_TEST_DISABLE_SHELL_DETECTION", raising=False)
    by_library(line, shop)
    assert "_TYPER_COMPLETE_TEST_DISABLE_SHELL_DETECTION" not in os.environ
