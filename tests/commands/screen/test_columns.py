import io
from pathlib import Path

import pytest
from running import Pipe, Terminal

from claimpack.commands.desk.say import Say
from claimpack.commands.desk.world import World
from claimpack.commands.screen.columns import ScreenColumn, Under, tell_columns


def told(*columns, under=(), stream=Pipe):
    out = stream()
    world = World(stdin=io.StringIO(), stdout=out, environ={"NO_COLOR": "1"}, folder=Path())
    tell_columns(Say(world), columns, under, indent=0)
    return out.getvalue().split("\n")[:-1]


WIDE = "x" * 40


def test_titles_stand_over_their_cells():
    assert told(ScreenColumn("Claim", ["26-0001"]), ScreenColumn("Late", ["5"], right=True)) == [
        "Claim    Late",
        "26-0001     5",
    ]


def test_the_least_needed_column_goes_where_there_is_no_room():
    lines = told(ScreenColumn("A", [WIDE]), ScreenColumn("B", [WIDE], lesser=1), ScreenColumn("C", [WIDE], lesser=2))
    assert lines[0].split() == ["A", "B"]


def test_columns_that_are_needed_stay_whatever_the_room():
    assert told(*(ScreenColumn(name, [WIDE]) for name in "ABC"))[0].split() == ["A", "B", "C"]


def test_a_column_that_says_nothing_is_left_out():
    assert told(ScreenColumn("A", ["1"]), ScreenColumn("B", [""]))[0] == "A"


def test_a_cell_too_long_is_marked_where_it_is_cut():
    assert told(ScreenColumn("A", ["abcdefgh"], most=5))[1] == "abcd…"


@pytest.mark.parametrize("cell", ["ポンプ", "e\u0301e\u0301"])
def test_letters_of_other_scripts_keep_the_columns_straight(cell):
    lines = told(ScreenColumn("A", [cell, "x"]), ScreenColumn("B", ["1", "2"], right=True))
    places = {"ポンプ": 6, "e\u0301e\u0301": 2}[cell]
    assert (lines[1], lines[2]) == (f"{cell}  1", "x".ljust(places) + "  2")


def test_what_belongs_to_a_row_stands_under_it():
    assert told(ScreenColumn("A", ["1", "2"]), under=[Under("fail", "late"), Under("", "")])[1:] == [
        "1",
        "  ✗ late",
        "2",
    ]


def test_a_cell_cannot_steer_the_terminal():
    assert told(ScreenColumn("A", ["a\x1b[2Jb\nc"]))[1] == "a[U+001B][2Jb c"


def test_a_column_gives_way_where_those_that_stay_do_not_fit():
    lines = told(ScreenColumn("A", [WIDE], least=10), *(ScreenColumn(name, [WIDE]) for name in "BC"), stream=Terminal)
    assert lines[1].split()[0] == f"{'x' * 9}…"


def test_a_lesser_column_gives_way_before_it_is_left_out():
    lines = told(ScreenColumn("A", [WIDE]), ScreenColumn("B", [WIDE], lesser=1, least=10), stream=Terminal)
    assert lines[1].split()[1] == f"{'x' * 37}…"


def test_the_widest_column_gives_way_first_and_no_further_than_must_be():
    lines = told(
        ScreenColumn("A", [WIDE], least=5),
        ScreenColumn("B", ["y" * 39], least=5),
        ScreenColumn("C", ["z" * 10]),
        stream=Terminal,
    )
    assert (len(lines[1]), [len(cell) for cell in lines[1].split()]) == (80, [33, 33, 10])


def test_a_terminal_of_eighty_columns_is_not_overrun():
    lines = told(ScreenColumn("A", [WIDE]), ScreenColumn("B", [WIDE], lesser=1), stream=Terminal)
    assert max(map(len, lines)) <= 80


@pytest.mark.parametrize("stands", [36, 37])
def test_columns_that_just_fit_beside_what_they_are_set_in_all_stay(stands):
    out = Terminal()
    world = World(stdin=io.StringIO(), stdout=out, environ={"NO_COLOR": "1"}, folder=Path())
    tell_columns(Say(world), [ScreenColumn("A", [WIDE]), ScreenColumn("B", ["y" * stands], lesser=1)], indent=2)
    assert out.getvalue().splitlines()[0].split() == ["A", "B"][: 2 if stands == 36 else 1]


@pytest.mark.parametrize(("cell", "shown"), [("abcde", "abcde"), ("abcdef", "abcd…"), ("ポンプ", "ポン…")])
def test_a_cell_is_as_wide_as_its_column_may_be(cell, shown):
    assert told(ScreenColumn("A", [cell], most=5))[1] == shown
