from __future__ import annotations

from running import claimpack


def test_every_key_that_a_word_is_said_of_is_told_with_its_example(tmp_path):
    keys = claimpack("plan", "keys", "filing", "--json", folder=tmp_path).json["keys"]
    assert {key["key"]: key["example"] for key in keys}["filing"] == '{within = "P30D", of = "repaired"}'


def test_a_word_that_no_key_has_to_do_with_is_a_no(tmp_path):
    ran = claimpack("plan", "keys", "spelled", "--of", "stock", folder=tmp_path)
    assert (ran.code, ran.out) == (3, "")


def test_keys_of_other_kinds_of_file_stand_below_the_line_their_table_begins_with(tmp_path):
    lines = claimpack("plan", "keys", "gap", "--of", "stock", folder=tmp_path).out.splitlines()
    assert lines[lines.index("[sheet]") + 1] == '  gap_across = "3 mm"'


def test_keys_that_a_word_is_said_of_are_told_without_a_word_beside(tmp_path):
    ran = claimpack("plan", "keys", "filing", folder=tmp_path)
    assert (ran.code, ran.err) == (0, "")


def test_a_table_of_several_is_told_by_the_line_that_begins_it(tmp_path):
    lines = claimpack("plan", "keys", folder=tmp_path).out.splitlines()
    assert ("  [[window]]" in lines, [line for line in lines if "= [[" in line]) == (True, [])


def test_a_key_that_has_a_value_where_it_is_absent_is_told_with_it_any_other_with_none(tmp_path):
    keys = claimpack("plan", "keys", "--json", folder=tmp_path).json["keys"]
    assert {bool(key["absent"]) or key["absent"] for key in keys} == {True, None}
