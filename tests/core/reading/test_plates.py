from datetime import date

import pytest

from claimpack.core.reading.plates import proposed_build, proposed_hours, proposed_model
from claimpack.core.reading.read_text import TextRead

TODAY = date(2026, 3, 1)


def read(*texts):
    return [TextRead(text, "letters") for text in texts]


def told(proposal):
    return proposal and proposal.text


@pytest.mark.parametrize("lines", [("MODEL", "CS-70"), ("Model No: CS-70",), ("MODEL", "CS-7O")])
def test_the_model_stands_behind_the_word_for_it(lines):
    assert told(proposed_model(read("HALDEN", *lines), ["CS-*0", "HT-26"], "")) == "CS-70"


def test_the_model_that_is_typed_needs_no_word():
    assert told(proposed_model(read("HALDEN CS70"), [], "CS-70")) == "CS-70"


@pytest.mark.parametrize(("lines", "typed"), [(("HALDEN",), "CS-70"), (("--",), "")], ids=["not there", "none typed"])
def test_a_model_that_is_not_on_the_plate_is_not_proposed(lines, typed):
    assert proposed_model(read(*lines), [], typed) is None


@pytest.mark.parametrize(("value", "raw"), [("CS-70", ""), ("CS-7O", "CS-7O")])
def test_what_was_read_before_the_model_was_settled_is_kept(value, raw):
    assert proposed_model(read("MODEL", value), ["CS-*0"], "").raw == raw


def test_a_model_that_may_be_two_of_the_plans_is_not_guessed():
    assert proposed_model(read("MODEL", "CS-7D"), ["CS-70", "CS-7Q"], "") is None


@pytest.mark.parametrize("lines", [("MODEL", "350 mm"), ("CS-70",), ("MODEL", "CS-70", "TYPE", "CS-80")])
def test_no_model_is_guessed(lines):
    assert proposed_model(read(*lines), ["CS-*"], "") is None


@pytest.mark.parametrize("text", ["BUILT 2024-05-17", "Mfg date: 17 May 2024", "MADE ON 17/05/2024"])
def test_the_day_of_build_stands_behind_the_word_for_it(text):
    assert told(proposed_build(read(text), TODAY, "")) == "2024-05-17"


@pytest.mark.parametrize("lines", [("MADE", "2024"), ("BUILT 05/2024",), ("BUILT 3/4/2024",), ("BUILT 2027-01-01",)])
def test_a_day_of_build_that_is_not_told_one_way_is_not_proposed(lines):
    assert proposed_build(read(*lines), TODAY, "") is None


@pytest.mark.parametrize(
    ("day", "told_as"), [("2026-02-28", "2026-02-28"), ("2026-03-01", "2026-03-01"), ("2026-03-02", None)]
)
def test_a_unit_was_built_today_at_the_latest(day, told_as):
    assert told(proposed_build(read(f"BUILT {day}"), TODAY, "")) == told_as


@pytest.mark.parametrize(("text", "raw"), [("412.6", ""), ("00412,6", "00412,6")])
def test_what_a_meter_shows_is_kept_beside_its_hours(text, raw):
    assert proposed_hours(read(text)).raw == raw


@pytest.mark.parametrize(
    ("lines", "hours"), [(("HOURS", "00412.6"), "412.6"), (("1204,5 h",), "1204.5"), (("88", "12 V DC"), "88")]
)
def test_the_hours_of_a_meter_are_the_one_number_in_the_picture(lines, hours):
    assert told(proposed_hours(read(*lines))) == hours


@pytest.mark.parametrize("lines", [("HOURS",), ("412.6", "350"), ("HC70-118",)])
def test_no_reading_is_guessed(lines):
    assert proposed_hours(read(*lines)) is None


def test_a_meter_that_is_read_twice_alike_has_one_reading():
    lines = [TextRead("512.6", "letters"), TextRead("HOURS 512,6", "letters")]
    assert proposed_hours(lines).text == "512.6"
