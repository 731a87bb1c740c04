from __future__ import annotations

import shutil
import tomllib

import pytest
import typed_booklets
from running import BrokenOff, Pipe, claimpack
from typed_booklets import lines_typed

from claimpack.__main__ import run
from claimpack.commands.desk.world import World
from claimpack.template_files import shipped


def begun(folder, typed, name="own.toml"):
    return claimpack("plan", "start", name, folder=folder, typed=typed)


def answered(folder, **answers):
    """A booklet of two windows begun, with these answers beside them."""
    return begun(folder, lines_typed({**BOOKLET, **answers}))


def written(folder):
    return tomllib.loads((folder / "own.toml").read_text())


BOOKLET = {
    "maker": "Orrin & Vale",
    "name": "Booklet 2026",
    "models": "OV-*",
    "household": "2 years",
    "professional": "12 months",
    "professional.hours": "1,500",
    "labour_rate": "92",
}


@pytest.mark.parametrize("name", ["HANDHELD", "BATTERY_TOOL", "TRACTOR", "MARINE_ENGINE"])
def test_a_booklet_is_asked_for_and_the_file_it_makes_is_right(tmp_path, name):
    ran = begun(tmp_path, lines_typed(getattr(typed_booklets, name)))
    checked = claimpack("plan", "check", "own.toml", folder=tmp_path)
    assert (ran.code, ran.out, checked.code) == (0, "own.toml\n", 0), checked.out


def test_answers_become_keys(tmp_path):
    answered(tmp_path)
    keys = written(tmp_path)
    assert (keys["id"], keys["maker"], [(one["id"], one["period"]) for one in keys["window"]]) == (
        "own",
        "orrin-vale",
        [("unit-household", "P2Y"), ("unit-professional", "P12M")],
    )


def test_what_a_repair_did_not_mend_stays_covered_as_long_as_answered(tmp_path):
    answered(tmp_path, repair_time="yes", unmended="60 days")
    assert written(tmp_path)["repair_time_extends"] == {"by": "calendar", "unmended_within": "P60D"}


def test_a_question_about_something_that_is_not_so_is_not_asked(tmp_path):
    assert "How much longer is a registered unit covered" not in answered(tmp_path).err


def test_an_answer_that_says_several_things_has_an_example_above_it_and_is_said_back(tmp_path):
    ran = answered(tmp_path, shares="all until 12 months, half until 24 months")
    assert ran.err.index("As in: 100 % until 12 months") < ran.err.index("Is less paid as the unit gets older?")
    assert "= 100 % until 12 months, 50 % until 24 months" in ran.err


def test_back_asks_the_question_before_again(tmp_path):
    begun(tmp_path, "Wrong\nback\n" + lines_typed(BOOKLET))
    assert written(tmp_path)["maker"] == "orrin-vale"


def test_an_answer_that_cannot_be_read_is_asked_for_again(tmp_path):
    begun(tmp_path, lines_typed(BOOKLET).replace("2 years", "a while\n2 years"))
    assert written(tmp_path)["window"][0]["period"] == "P2Y"


def test_an_amount_that_cannot_be_read_is_asked_for_again(tmp_path):
    ran = begun(tmp_path, lines_typed(BOOKLET).replace("\n92\n", "\n1,20\n92\n"))
    assert (ran.code, written(tmp_path)["pays"]["labour_rate"]) == (0, "92")


def test_what_was_answered_before_a_stop_is_in_the_file(tmp_path):
    ran = begun(tmp_path, "Halden\nstop\n")
    assert (ran.code, written(tmp_path)["maker_name"]) == (4, "Halden")


@pytest.mark.parametrize(("stop", "code"), [("", 0), ("stop", 4)])
def test_a_plan_that_was_stopped_before_the_last_question_is_told_to_be_gone_on_with(tmp_path, stop, code):
    typed = lines_typed(BOOKLET)
    ran = begun(tmp_path, f"{''.join(typed.splitlines(keepends=True)[:-3])}stop\n" if stop else typed)
    assert (ran.code, "Go on in the file" in ran.err, "no plan yet" in ran.err) == (code, bool(stop), False)


def test_a_booklet_broken_off_at_the_last_questions_is_kept_and_told_to_be_gone_on_with(tmp_path):
    answered_first = "".join(lines_typed(BOOKLET).splitlines(keepends=True)[:-3])
    world = World(stdin=BrokenOff(answered_first), stdout=Pipe(), stderr=Pipe(), environ={}, folder=tmp_path)
    assert (run(["plan", "start", "own.toml"], world), written(tmp_path)["name"]) == (4, "Booklet 2026")
    assert "Go on in the file" in world.stderr.getvalue()


def test_a_blank_file_asks_nothing(tmp_path):
    ran = claimpack("plan", "start", "own.toml", "--blank", folder=tmp_path)
    assert (ran.code, ran.out, written(tmp_path)) == (0, "own.toml\n", {"id": "own"})


def test_a_blank_file_has_every_key_to_be_filled_in(tmp_path):
    claimpack("plan", "start", "own.toml", "--blank", folder=tmp_path)
    lines = (tmp_path / "own.toml").read_text().splitlines()
    assert "# [[window]]" in lines


def test_a_file_that_is_there_is_not_written_over(tmp_path):
    shutil.copy(shipped("coverage") / "halden-2025.toml", tmp_path / "own.toml")
    ran = begun(tmp_path, "x\n")
    assert (ran.code, written(tmp_path)["id"]) == (2, "halden-2025")


@pytest.mark.parametrize("name", ["own", "..toml", "own.txt"])
def test_a_name_that_no_plan_would_be_found_by_is_refused(tmp_path, name):
    assert begun(tmp_path, "", name=name).code == 2


def test_what_was_not_asked_is_named_at_the_end(tmp_path):
    assert "claimpack plan keys operation" in answered(tmp_path).err


def test_numbers_are_taken_with_their_units(tmp_path):
    answered(tmp_path, **{"household.hours": "300 h", "labour_rate": "$92/hr"})
    keys = written(tmp_path)
    assert (keys["window"][0]["hours"], keys["pays"]["labour_rate"]) == ("300", "92")


def test_a_part_with_its_own_time_is_refused_among_those_not_covered(tmp_path):
    typed = lines_typed({**BOOKLET, "parts1": "battery", "parts1.period": "1 year", "excluded": "spark plug"})
    begun(tmp_path, typed.replace("\nspark plug\n", "\nbattery\nspark plug\n"))
    assert written(tmp_path)["excluded"]["components"] == ["spark plug"]
