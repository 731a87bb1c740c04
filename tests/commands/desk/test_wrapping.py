from __future__ import annotations

import os
import shlex

import pytest

from claimpack.commands.desk.wrapping import continued, hanging, in_columns, with_whole_commands, wrapped

COMMAND = "claimpack photo add 26-0041 FILE --shot 'serial plate'"
TEXT = f"The plan asks for shots: serial plate, whole unit. Add one: {COMMAND}"
PATH = "/home/quarry-road/claims/26-0041-short-block"


def test_a_word_longer_than_a_line_stays_whole():
    assert wrapped(f"See {PATH}", 20) == ["See", PATH]


def test_no_line_begins_by_the_mark_between_two_facts():
    assert wrapped("no hour meter · sold in US-WA", 14) == ["no hour", "meter · sold", "in US-WA"]


@pytest.mark.parametrize("room", [60, 80, 100])
def test_a_command_stands_on_one_line_whole(room):
    lines = with_whole_commands(TEXT, room)
    assert [line for line in lines if COMMAND in line] == lines[-1:]


def test_a_row_wider_than_the_screen_goes_on_below_its_beginning():
    row = ("battery pack", "shelf L6", "called back", "NOT drained")
    assert list(in_columns([row], (), 2, 45)) == ["  battery pack  shelf L6  called back", "      NOT drained"]


def test_lines_go_on_as_far_in_as_they_began():
    assert with_whole_commands("  one two three", 10) == ["  one two", "  three"]


@pytest.mark.parametrize("room", range(20, 25))
def test_lines_that_go_on_further_in_fit_as_well(room):
    lines = with_whole_commands(f"    {' '.join(['word'] * 20)}", room)
    assert all(room - len(" word") < len(line) <= room for line in lines[:-1])


LONG = "claimpack open --maker halden --model CS-70 --first-owner --component 'ignition coil' --complaint \"It dies.\""


@pytest.mark.parametrize("room", [40, 60, 80, 200])
def test_a_command_in_several_lines_is_the_same_command_to_a_shell(room):
    assert shlex.split("\n".join(continued(LONG, room)).replace("\\\n", "")) == shlex.split(LONG)


def test_an_option_and_its_value_stay_on_one_line():
    assert "    --component 'ignition coil' \\" in continued(LONG, 40)


def test_a_command_goes_on_in_powershell_by_its_own_sign(monkeypatch):
    monkeypatch.setattr(os, "name", "nt")
    assert [line[-2:] for line in continued(LONG, 60)[:-1]] == [" `"]


@pytest.mark.parametrize("room", [10, 11, 12])
def test_a_text_that_just_fits_is_one_line(room):
    assert wrapped("one two xyz", room) == (["one two xyz"] if room >= 11 else ["one two", "xyz"])


def test_a_text_of_nothing_is_one_empty_line():
    assert (wrapped("", 10), wrapped("   ", 1)) == ([""], [""])


@pytest.mark.parametrize("room", range(33, 60))
def test_every_line_of_a_command_fits_and_ends_in_the_sign_but_the_last(room):
    *lines, last = continued(LONG, room)
    assert all(line.endswith(" \\") and len(line) <= room for line in lines)
    assert not last.endswith("\\")


@pytest.mark.parametrize("room", range(40, 45))
def test_a_command_breaks_where_one_word_more_and_the_sign_do_not_fit(room):
    lines = continued(f"claimpack find {' '.join(['word'] * 30)}", room)
    assert {room - len(line) for line in lines[:-1]} <= set(range(len(" word")))


@pytest.mark.parametrize("more", [0, 1])
def test_a_command_that_just_fits_is_one_line(more):
    assert len(continued(LONG, len(LONG) - more)) == (1 if not more else 2)


def test_text_hangs_below_its_own_beginning():
    assert hanging("  a:  ", "one two three", 15) == "  a:  one two\n      three"


@pytest.mark.parametrize(
    ("room", "lines"),
    [
        (None, ["a      12  one two three"]),
        (24, ["a      12  one two three"]),
        (23, ["a      12  one two", "    three"]),
        (31, ["a      12  one two three"]),
    ],
    ids=["no screen", "just fits", "too little beside the numbers", "room to spare"],
)
def test_a_row_that_does_not_fit_goes_on_below_its_beginning(room, lines):
    assert list(in_columns([("a", "12", "one two three"), ("bbbb", "123", "x")], (1,), 0, room))[:-1] == lines


@pytest.mark.parametrize("room", [30, 31, 34, 60])
def test_a_last_cell_goes_on_under_itself_where_twenty_columns_are_left(room):
    first, *rest = list(in_columns([("a" * 9, " ".join(["word"] * 8))], (), 0, room))
    assert all(line.startswith(" " * (11 if room >= 31 else 4)) for line in rest)
    assert (first.startswith("a" * 9), max(map(len, (first, *rest))) <= room) == (True, True)


@pytest.mark.parametrize("indent", [0, 2])
def test_numbers_stand_at_the_right_and_no_number_is_broken(indent):
    rows = [("parts", "1.00"), ("labour", "1,147.20")]
    lead = " " * indent
    for room in (None, 10):
        assert list(in_columns(rows, (1,), indent, room)) == [f"{lead}parts       1.00", f"{lead}labour  1,147.20"]


def test_no_rows_are_no_lines():
    assert list(in_columns([], (), 2, 80)) == []
