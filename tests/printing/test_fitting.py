from __future__ import annotations

import pytest

from claimpack.printing.fitting import cut, wrapped


def within(letters: int):
    return lambda line: len(line) <= letters


def test_a_line_that_fits_is_left_as_it_is():
    assert cut("short block", within(11)) == "short block"


@pytest.mark.parametrize(("room", "left"), [(10, "short blo…"), (7, "short…"), (2, "s…"), (0, "…")])
def test_a_line_too_long_ends_in_a_mark_behind_a_letter(room, left):
    assert cut("short block", within(room)) == left


def test_lines_break_between_words_and_at_line_ends():
    assert wrapped("short block\nof a saw", within(8)) == ["short", "block", "of a saw"]


def test_a_word_too_wide_is_broken_only_where_that_is_allowed():
    assert (wrapped("crankshaft", within(4)), wrapped("crankshaft", within(4), anywhere=True)) == (
        None,
        ["cran", "ksha", "ft"],
    )


def test_no_line_ends_between_a_number_and_its_unit():
    assert wrapped("it is kept for 90 days", within(17)) == ["it is kept for", "90 days"]


def test_a_code_of_law_keeps_its_section():
    assert wrapped("as told by 49 CFR 173.220", within(20)) == ["as told by", "49 CFR 173.220"]
