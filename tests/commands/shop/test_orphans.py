from __future__ import annotations

import os
from pathlib import Path

import pytest
from running import NOW, Pipe
from shop_builders import a_shop

from claimpack.commands.desk.gather import the_shop, the_vault
from claimpack.commands.desk.say import Say
from claimpack.commands.desk.world import World
from claimpack.commands.shop.orphans import orphans_in, sweep_orphans, tell_orphans


@pytest.fixture
def world(tmp_path):
    return World(stdin=Pipe(), stdout=Pipe(), stderr=Pipe(), environ={}, folder=a_shop(tmp_path), clock=NOW)


@pytest.fixture
def orphan(world):
    """A file in the vault that no claim names, older than what a claim that is being opened may still wait for."""
    lost = world.folder / "vault" / "ab" / ("ab" * 32)
    lost.parent.mkdir(parents=True)
    lost.write_bytes(b"lost")
    os.utime(lost, (0, 0))
    return lost


def noted(world):
    return world.stderr.getvalue().splitlines()


def test_a_file_that_no_claim_names_is_found(world, orphan):
    assert orphans_in(world, the_shop(world)) == [orphan]


def test_a_vault_that_is_not_there_has_none(world):
    assert orphans_in(world, the_shop(world)) == []


def test_what_is_agreed_to_is_taken_away(world, orphan):
    assert sweep_orphans(Say(world), the_vault(world, the_shop(world)), [orphan], yes=True)
    assert not orphan.exists()


def test_nothing_is_taken_away_where_there_is_none(world):
    assert not sweep_orphans(Say(world), the_vault(world, the_shop(world)), [], yes=True)


@pytest.mark.parametrize(("count", "lines"), [(0, 0), (12, 13), (13, 14)], ids=["none", "all named", "one counted"])
def test_twelve_are_named_and_the_others_counted(world, count, lines):
    tell_orphans(Say(world), [Path(str(place)) for place in range(count)], swept=False)
    assert len(noted(world)) == lines
    assert ("and 1 more" in noted(world)[-1] if count else True) is (count != 12)


@pytest.mark.parametrize(("swept", "says"), [(True, "removed."), (False, "claimpack shop verify --sweep")])
def test_the_count_says_whether_they_went_or_how_they_go(world, swept, says):
    tell_orphans(Say(world), [Path("a")], swept=swept)
    assert noted(world)[0].endswith(says)
