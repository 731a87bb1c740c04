from __future__ import annotations

import os
import shlex

import pytest

from claimpack.commands.desk.wrapping import continued, in_columns, with_whole_commands, wrapped

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


LONG = "claimpack open --maker halden --model CS-70 --first-owner --component 'ignition coil' --complaint \"It dies.\""


@pytest.mark.parametrize("room", [40, 60, 80, 200])
def test_a_command_in_several_lines_is_the_same_command_to_a_shell(room):
    assert shlex.split("\n".join(continued(LONG, room)).replace("\\\n", "")) == shlex.split(LONG)


def test_an_option_and_its_value_stay_on_one_line():
    assert "    --component 'ignition coil' \\" in continued(LONG, 40)


def test_a_command_goes_on_in_powershell_by_its_own_sign(monkeypatch):
    monkeypatch.setattr(os, "name", "nt")
    assert [line[-2:] for line in continued(LONG, 60)[:-1]] == [" `"]
