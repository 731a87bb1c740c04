from __future__ import annotations

import shutil
import tomllib

import pytest
from running import claimpack

from claimpack.template_files import shipped


def begun(folder, *lines, name="own.toml"):
    return claimpack("plan", "start", name, folder=folder, typed="".join(f"{line}\n" for line in lines))


def written(folder):
    return tomllib.loads((folder / "own.toml").read_text())


FIRST = ("Orrin & Vale", "Booklet 2026", "", "OV-*", "", "")
WINDOWS = ("2 years", "", "12 months", "1,500", "none")
UP_TO_LABOUR, REST = [""] * 11, [""] * 40


def test_a_booklet_is_asked_for_and_the_file_it_makes_is_right(tmp_path):
    ran = begun(tmp_path, *FIRST, *WINDOWS, *UP_TO_LABOUR, "92", *REST)
    checked = claimpack("plan", "check", "own.toml", folder=tmp_path)
    assert (ran.code, ran.out, checked.code) == (0, "own.toml\n", 0), checked.out


def test_answers_become_keys(tmp_path):
    begun(tmp_path, *FIRST, *WINDOWS, *REST)
    keys = written(tmp_path)
    assert (keys["id"], keys["maker"], [(one["id"], one["period"]) for one in keys["window"]]) == (
        "own",
        "orrin-vale",
        [("unit-household", "P2Y"), ("unit-professional", "P12M")],
    )


def test_a_question_about_something_that_is_not_so_is_not_asked(tmp_path):
    ran = begun(tmp_path, *FIRST, *WINDOWS, *REST)
    assert "How much longer is a registered unit covered" not in ran.err


def test_back_asks_the_question_before_again(tmp_path):
    begun(tmp_path, "Wrong", "back", "Halden", *FIRST[1:], *WINDOWS, *REST)
    assert written(tmp_path)["maker"] == "halden"


def test_an_answer_that_cannot_be_read_is_asked_for_again(tmp_path):
    begun(tmp_path, *FIRST, "a while", *WINDOWS, *REST)
    assert written(tmp_path)["window"][0]["period"] == "P2Y"


def test_an_amount_that_cannot_be_read_is_asked_for_again(tmp_path):
    ran = begun(tmp_path, *FIRST, *WINDOWS, *UP_TO_LABOUR, "1,20", "92", *REST)
    assert (ran.code, written(tmp_path)["pays"]["labour_rate"]) == (0, "92")


def test_what_was_answered_before_a_stop_is_in_the_file(tmp_path):
    ran = begun(tmp_path, "Halden", "stop")
    assert (ran.code, written(tmp_path)["maker_name"]) == (4, "Halden")


def test_a_blank_file_asks_nothing(tmp_path):
    ran = claimpack("plan", "start", "own.toml", "--blank", folder=tmp_path)
    assert (ran.code, ran.out, written(tmp_path)) == (0, "own.toml\n", {"id": "own"})


def test_a_file_that_is_there_is_not_written_over(tmp_path):
    shutil.copy(shipped("coverage") / "halden-2025.toml", tmp_path / "own.toml")
    ran = begun(tmp_path, "x")
    assert (ran.code, written(tmp_path)["id"]) == (2, "halden-2025")


@pytest.mark.parametrize("name", ["own", "..toml", "own.txt"])
def test_a_name_that_no_plan_would_be_found_by_is_refused(tmp_path, name):
    assert begun(tmp_path, name=name).code == 2


def test_what_was_not_asked_is_named_at_the_end(tmp_path):
    assert "claimpack plan keys shares" in begun(tmp_path, *FIRST, *WINDOWS, *REST).err


def test_numbers_are_taken_with_their_units(tmp_path):
    begun(tmp_path, *FIRST, "2 years", "300 h", *WINDOWS[2:], *UP_TO_LABOUR, "$92/hr", *REST)
    keys = written(tmp_path)
    assert (keys["window"][0]["hours"], keys["pays"]["labour_rate"]) == ("300", "92")


def test_a_part_with_its_own_time_is_refused_among_those_not_covered(tmp_path):
    parts = ("battery", "1 year", "", "", "")
    begun(tmp_path, *FIRST, *WINDOWS, *parts, *[""] * 6, "battery", "spark plug", *REST)
    assert written(tmp_path)["excluded"]["components"] == ["spark plug"]
