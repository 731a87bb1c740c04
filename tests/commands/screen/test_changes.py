from __future__ import annotations

from pathlib import Path

import pytest
from running import NOW, Pipe
from shop_builders import a_shop, kept_claim, the_desk

from claimpack.commands.desk.say import Say
from claimpack.commands.desk.world import World
from claimpack.commands.screen.changes import facts_of, note_near_names, note_verdict, tell_changes
from claimpack.core.claims.editing.changes import Difference
from claimpack.core.facts.pictures import Photo
from claimpack.core.facts.unit import Serial
from claimpack.core.verdict.matching import NearName


@pytest.fixture
def say():
    return Say(World(stdin=Pipe(), stdout=Pipe(), stderr=Pipe(), environ={}, folder=Path(), clock=NOW))


def noted(say):
    return " ".join(say.world.stderr.getvalue().split())


def after(say, shop, **update):
    """What is noted when the claim of a shop was changed so."""
    desk = the_desk(shop)
    with desk.changing("26-0001") as changing:
        changing.keep(changing.claim.model_copy(update=update))
    note_verdict(say, desk, changing)
    return noted(say)


def test_a_key_that_was_empty_was_nothing(say):
    tell_changes(say, "26-0001", [Difference("unit.hours", "", "112.4")], json=False)
    assert say.world.stdout.getvalue() == "· unit.hours: nothing -> 112.4\n"


def test_a_claim_left_as_it_is_says_so_beside_the_answer(say):
    tell_changes(say, "26-0001", [], json=False)
    assert (say.world.stdout.getvalue(), "nothing changed" in noted(say)) == ("", True)


@pytest.mark.parametrize(("count", "ends"), [(19, "19"), (20, "20"), (21, "and 1 more")])
def test_the_history_names_the_first_twenty_keys(count, ends):
    changed = facts_of([Difference(str(place), "", "x") for place in range(1, count + 1)])["changed"]
    assert (changed.split(", ")[-1], len(changed.split(", "))) == (ends, min(count, 21))


def test_a_change_that_alters_the_verdict_says_what_it_was_and_is(say, tmp_path):
    shop = a_shop(tmp_path)
    owner = kept_claim(shop).owner.model_copy(update={"use": "rental"})
    unit = kept_claim(shop).unit.model_copy(update={"use": None})
    assert "26-0001 was" not in after(say, shop, owner=owner)
    assert "26-0001 was covered, and is" in after(say, shop, unit=unit)


def test_a_picture_that_is_named_and_not_kept_is_noted_once(say, tmp_path):
    shop, gone = a_shop(tmp_path), (Photo(file="photos/gone.jpg"),)
    assert "photos/gone.jpg" in after(say, shop, photos=gone)
    say.world.stderr.truncate(0)
    assert "photos/gone.jpg" not in after(say, shop, photos=gone)


def test_a_serial_number_of_another_form_than_the_plans_is_remarked_upon_once(say, tmp_path):
    shop = a_shop(tmp_path, plan="halden-2025")
    unit = kept_claim(shop).unit
    odd = unit.model_copy(update={"serials": (Serial(role="unit", value="??"), *unit.serials[1:])})
    assert "! ??" in after(say, shop, unit=odd)
    say.world.stderr.truncate(0)
    assert "! ??" not in after(say, shop, unit=odd.model_copy(update={"kind": "saw"}))


def test_a_name_near_one_of_a_plan_comes_with_the_command_that_corrects_it(say):
    note_near_names(say, "26-0001", [NearName("maker", "haldn", "halden")])
    assert "claimpack set 26-0001 maker 'halden'" in noted(say)
