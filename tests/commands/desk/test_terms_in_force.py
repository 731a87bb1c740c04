import datetime as dt
import io
from typing import NamedTuple

import pytest
from manager_shop import a_managed_shop
from running import NOW, Pipe

from claimpack.commands.desk.desk import Desk
from claimpack.commands.desk.say import Say
from claimpack.commands.desk.terms_in_force import TermsInForce, tell_sections
from claimpack.commands.desk.world import World


class Agreed(NamedTuple):
    maker: str = "halden"
    terms: str = ""


@pytest.fixture
def shop(tmp_path):
    return a_managed_shop(tmp_path)


def a_world(shop):
    return World(stdin=io.StringIO(), stdout=Pipe(), stderr=Pipe(), environ={"NO_COLOR": "1"}, folder=shop, clock=NOW)


def in_force(shop):
    world = a_world(shop)
    return TermsInForce(Desk(world), Say(world)), world.stderr


def test_the_nearest_terms_win(shop):
    settings = shop / "shop.toml"
    settings.write_text(settings.read_text().replace("[maker_terms]", '[maker_terms]\n"orrin & vale" = "us-wa"'))
    terms, _ = in_force(shop)
    found = [terms.of(claim).id for claim in (Agreed(), Agreed("Orrin & Vale"), Agreed("Orrin & Vale", "us-sc"))]
    assert found == ["us-tx", "us-wa", "us-sc"]


def test_terms_that_are_not_there_are_told_once(shop):
    terms, err = in_force(shop)
    assert [terms.of(Agreed(terms="us-tz")).unread for _ in range(3)] == ["us-tz"] * 3
    assert err.getvalue().count("us-tz") == 1


def test_terms_with_problems_leave_no_dates_and_are_told(shop):
    (shop / "terms" / "us-tx.toml").write_text('format = 1\nid = "us-tx"\nname = "x"\nanswer_within = "soon"\n')
    terms, err = in_force(shop)
    assert (terms.of(Agreed()).unread, "us-tx.toml" in err.getvalue()) == ("us-tx", True)


def test_a_claim_without_terms_is_left_out(tmp_path):
    shop = tmp_path / "shop"
    a_managed_shop(tmp_path)
    (shop / "shop.toml").write_text("format = 1\n")
    terms, _ = in_force(shop)
    assert terms.by_claim([("1", Agreed()), ("2", Agreed(terms="us-wa"))]).keys() == {"2"}


def test_every_file_within_reach_is_known(shop):
    (shop / "terms" / "own.toml").write_text('format = 1\nid = "own"\nname = "x"\n')
    terms, _ = in_force(shop)
    assert {"own", "us-tx", "us-wa"} <= {one.id for one in terms.every()}


@pytest.mark.parametrize(("day", "told"), [(24, 0), (25, 1), (26, 1)])
def test_the_day_a_section_was_read_is_told_once_from_that_day_on(shop, day, told):
    terms, _ = in_force(shop)
    world = a_world(shop)
    tell_sections(Say(world), [terms.of(Agreed())] * 2, dt.date(2026, 11, day))
    assert world.stdout.getvalue().count("57.257, read on 2026-11-25") == told


def test_of_terms_that_nobody_says_were_read_no_day_is_told(shop):
    (shop / "terms" / "own.toml").write_text('format = 1\nid = "own"\nname = "x"\ncites = "letter of 3 May"\n')
    terms, _ = in_force(shop)
    world = a_world(shop)
    tell_sections(Say(world), [terms.of(Agreed(terms="own"))], NOW.date())
    assert "own: letter of 3 May\n" in world.stdout.getvalue()
