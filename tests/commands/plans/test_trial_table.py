from __future__ import annotations

from tried_plans import tried


def test_a_table_has_a_line_for_each_use_and_a_cell_for_each_day(tmp_path):
    lines = [line.split() for line in tried(tmp_path).out.splitlines()]
    assert ["any", "other", "part", "household", *"aaa", *["a", "50%"] * 3, "-"] in lines


def test_every_letter_of_a_table_is_told(tmp_path):
    assert "\n  a unit: whole-unit warranty; 24 months; pays less with age\n" in tried(tmp_path).out


def test_a_table_fits_the_terminal(tmp_path):
    assert max(map(len, tried(tmp_path, "--age", "P18M", "--age", "P20M", terminal=True).out.splitlines())) <= 80
