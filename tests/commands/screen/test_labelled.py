from __future__ import annotations

from pathlib import Path

import pytest
from running import Pipe

from claimpack.commands.desk.say import Say
from claimpack.commands.desk.world import World
from claimpack.commands.screen.labelled import fact, table


def said(tell, *args):
    """The lines that are told."""
    world = World(stdin=Pipe(), stdout=Pipe(), stderr=Pipe(), environ={}, folder=Path("/nowhere"))
    tell(Say(world), *args)
    return world.stdout.getvalue().splitlines()


def test_lines_of_a_text_stay_lines_under_each_other():
    assert said(fact, "Complaint", ["Will not start.\n\nSmokes."]) == [
        "Complaint    Will not start.",
        " " * 13,
        " " * 13 + "Smokes.",
    ]


def test_a_long_cell_is_cut_and_marked():
    assert said(table, "Parts", [("1", "x" * 300)])[-1].split()[1] == "x" * 33 + "…"


def test_a_table_of_no_rows_has_no_title():
    assert said(table, "Parts", []) == []


@pytest.mark.parametrize(("more", "whole"), [(0, True), (1, False)], ids=["half a line", "longer"])
def test_a_part_of_half_a_line_at_most_is_not_broken(more, whole):
    half = (Say(World(stdout=Pipe(), environ={})).world.width() - 13) // 2
    part = ("on a shelf " * 9)[: half - 1].strip().ljust(half + more, "x")
    told = said(fact, "Kept", ["by the door " * 5, part])
    assert any(part in line for line in told) is whole


def test_a_fact_is_not_broken_where_the_next_line_has_room_for_it():
    days = [f"{what} 2026-02-05" for what in ("purchased", "failed", "presented", "repaired", "returned")]
    assert said(fact, "Dates", days)[1].strip() == "returned 2026-02-05"
