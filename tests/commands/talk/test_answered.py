import shlex

import pytest
from running import NOW, BrokenOff, Pipe, Ran, claimpack
from shop_builders import an_empty_shop, kept_claim

from claimpack.__main__ import run
from claimpack.commands.desk.world import World
from claimpack.commands.talk.answered import options_of

ANSWERS = "It's dead.\nhalden\nstop\n"


@pytest.fixture
def shop(tmp_path):
    return an_empty_shop(tmp_path)


def test_a_key_of_a_claim_is_named_by_the_option_that_gave_it_serials_by_their_place():
    given = ["failure.nothing", "unit.serials.@engine", "maker", "unit.serials.@unit"]
    assert options_of(given) == {
        "unit.serials[1].value": "--engine-serial",
        "unit.serials[2].value": "--serial",
        "unit.hours": "--hours",
        "dates.never_registered": "--never-registered",
        "maker": "--maker",
    }


def again(ran):
    """The command line that a message tells."""
    return shlex.split(ran.err[ran.err.rindex("claimpack open") :].splitlines()[0])[1:]


def test_answers_that_are_not_enough_are_told_as_a_command_that_goes_on(shop):
    ran = claimpack("open", folder=shop, typed=ANSWERS)
    claimpack(*again(ran), "--model", "CS-70", "--serial", "HC70-1", folder=shop)
    assert (ran.code, kept_claim(shop).failure.complaint) == (2, "It's dead.")


@pytest.mark.parametrize(("hours", "meter"), [("none", False), ("61", True)])
def test_a_reading_or_its_absence_is_told(shop, hours, meter):
    ran = claimpack("open", folder=shop, typed=f"Dead.\nhalden\n\n\nHC70-1\n\n\nrental\n{hours}\nstop\n")
    claimpack(*again(ran), "--model", "CS-70", folder=shop)
    assert kept_claim(shop).unit.meter is meter


@pytest.mark.parametrize("option", ["--first-owner", "--second-owner"])
def test_options_given_before_are_told_too(shop, option):
    ran = claimpack("open", option, "--email", "b@example.com", folder=shop, typed=ANSWERS)
    assert (option in again(ran), "b@example.com" in again(ran)) == (True, True)


def test_never_registered_is_told(shop):
    ran = claimpack("open", "--never-registered", folder=shop, typed=ANSWERS)
    assert again(ran).count("--never-registered") == 1


def test_a_conversation_broken_off_is_gone_on_with_by_the_command_told(shop):
    stdin, out, err = BrokenOff("It's dead.\nhalden\nCS-70\n\nHC70-1\n"), Pipe(), Pipe()
    run(["open"], World(stdin=stdin, stdout=out, stderr=err, environ={}, folder=shop, clock=NOW))
    ran = claimpack(*again(Ran(0, out.getvalue(), err.getvalue())), folder=shop, typed="saw\nE70-1\nstop\n")
    claim = kept_claim(shop)
    assert (ran.code, claim.unit.serial("engine"), claim.failure.complaint) == (0, "E70-1", "It's dead.")


def test_the_number_wanted_is_told_with_the_answers(shop):
    ran = claimpack("open", "--number", "26-0500", "--today", "2026-02-01", folder=shop, typed=ANSWERS)
    claimpack(*again(ran), "--model", "CS-70", "--serial", "HC70-1", folder=shop)
    assert kept_claim(shop, "26-0500").dates.presented.isoformat() == "2026-02-01"
