from __future__ import annotations

import pytest
from made_once import made_once
from running import NOW, Pipe
from shop_builders import a_shop

from claimpack.commands.desk.world import World
from claimpack.commands.typed.completing import is_completed, offered


@pytest.fixture
def shop(tmp_path):
    return the_shop(tmp_path)


@made_once
def the_shop(place):
    held = [{"part": "short block", "shelf": "B3", "since": "2026-02-24"}]
    return a_shop(place, "26-0001", "26-0012", held=held, unit__model="CS-70")


def offers(shop, written, begun="", shell="complete_zsh", **others):
    environ = {"_CLAIMPACK_COMPLETE": shell}
    world = World(stdin=Pipe(), stdout=Pipe(), stderr=Pipe(), environ=environ, folder=shop, clock=NOW)
    return [each.value for each in offered(written, others, world, begun)]


@pytest.mark.parametrize(
    ("written", "begun", "first"),
    [
        ("CLAIM", "26-", "26-0012"),
        ("CLAIM AMOUNT…", "26-0001", "26-0001"),
        ("CODE", "26-0012", "26-0012/1"),
        ("SHELF", "b", "B3"),
        ("--maker", "hal", "halden"),
        ("--model", "CS", "CS-70"),
        ("--component", "ign", "ignition coil"),
        ("--state", "wri", "written off"),
        ("--terms", "us-t", "us-tx"),
        ("--stock", "label", "label-4x6"),
        ("KIND", "pl", "plan"),
        ("--payer", "o", "owner"),
    ],
)
def test_a_shell_is_offered_words_of_the_shop(shop, written, begun, first):
    assert offers(shop, written, begun)[:1] == [first]


def test_shots_are_those_that_the_plan_of_the_claim_asks_for(shop):
    assert "serial plate" in offers(shop, "--shot", "ser", claim="26-0001")


@pytest.mark.parametrize(
    ("shell", "typed"),
    [
        ("bash", r"ignition\ coil"),
        ("zsh", "ignition coil"),
        ("fish", "ignition coil"),
        ("powershell", "'ignition coil'"),
    ],
)
def test_a_word_with_a_blank_is_put_in_as_the_shell_wants_it(shop, shell, typed):
    assert offers(shop, "--component", "ignition c", f"complete_{shell}") == [typed]


def test_outside_of_a_shop_no_claims_are_offered_and_nothing_is_said(tmp_path):
    assert offers(tmp_path, "CLAIM") == []


def test_nothing_is_offered_for_a_text():
    assert not is_completed("TEXT")
