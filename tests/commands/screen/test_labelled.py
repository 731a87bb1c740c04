from __future__ import annotations

from pathlib import Path

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


def test_a_fact_is_not_broken_where_the_next_line_has_room_for_it():
    days = [f"{what} 2026-02-05" for what in ("purchased", "failed", "presented", "repaired", "returned")]
    assert said(fact, "Dates", days)[1].strip() == "returned 2026-02-05"
