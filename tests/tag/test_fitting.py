from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from claimpack.printing.typeface import BOLD, REGULAR, not_printed
from claimpack.tag.drawing import Area, Drawing, width_of
from claimpack.tag.fitting import Style, descent, fitted, write

ROOM = Area(10, 20, 120, 30)


def test_short_text_takes_its_largest_size():
    assert fitted("B3", ROOM, Style(BOLD, 20)).size == 20


def test_text_too_wide_for_a_line_wraps_between_words():
    found = fitted("Rack 12, level B, bin 03, in the yard", ROOM, Style(BOLD, 20))
    assert len(found.lines) > 1
    assert " ".join(found.lines) == "Rack 12, level B, bin 03, in the yard"


def test_a_word_wider_than_its_room_breaks_after_a_hyphen():
    found = fitted("OVRX1250-2025-0000118-20417-0001", Area(0, 0, 60, 60), Style(BOLD, 12, 10))
    assert all(line.endswith("-") for line in found.lines[:-1])
    assert "".join(found.lines) == "OVRX1250-2025-0000118-20417-0001"


def test_a_word_without_a_place_to_break_is_broken_anywhere():
    found = fitted("W" * 40, Area(0, 0, 60, 90), Style(BOLD, 12))
    assert "".join(found.lines) == "W" * 40


def test_what_cannot_fit_ends_in_a_mark_and_is_noted():
    drawing = Drawing(200, 200, 0.3)
    found = write(drawing, "word " * 200, ROOM, Style(REGULAR, 12))
    assert found.lines[-1].endswith("…")
    assert drawing.notes[0].startswith("there is no room for all of 'word word")


def test_a_character_without_a_typeface_is_printed_by_its_number_and_noted():
    drawing = Drawing(200, 200, 0.3)
    write(drawing, "ไทย", ROOM, Style(REGULAR, 12))
    assert drawing.texts[0].text == "[Thai]"
    assert drawing.notes == [not_printed("Thai")]


@pytest.mark.parametrize(("across", "x"), [("left", 10), ("middle", 70), ("right", 130)])
def test_a_line_stands_where_it_is_wanted(across, x):
    drawing = Drawing(200, 200, 0.3)
    write(drawing, "B3", ROOM, Style(BOLD, 12, across=across))
    wide = width_of("B3", BOLD, 12)
    assert drawing.texts[0].x + wide * {"left": 0, "middle": 0.5, "right": 1}[across] == pytest.approx(x)


@settings(max_examples=80, deadline=None)
@given(st.text(alphabet="AWil gÉжΩ-/,09", min_size=1, max_size=120).map(str.strip).filter(bool))
def test_no_line_leaves_its_room(text):
    drawing = Drawing(200, 200, 0.3)
    write(drawing, text, ROOM, Style(BOLD, 20, 6, across="middle", down="middle"))
    for line in drawing.texts:
        assert line.x >= ROOM.x - 0.1
        assert line.x + width_of(line.text, line.face, line.size) <= ROOM.right + 0.1
        assert ROOM.y <= line.baseline <= ROOM.bottom


@pytest.mark.parametrize(("share", "lines"), [(0.75, 1), (0.76, 2)])
def test_a_text_stays_on_one_line_at_so_large_a_share_of_the_size_of_two(share, lines):
    text = "short block"
    room = Area(0, 0, width_of(text, BOLD, 9.1), 60)
    assert len(fitted(text, room, Style(BOLD, 12, one_line=share)).lines) == lines


def test_a_text_a_hundredth_of_a_point_wider_than_its_room_fits_it():
    wide = width_of("short block", BOLD, 12)
    assert fitted("short block", Area(0, 0, wide - 0.01, 14), Style(BOLD, 12)).size == 12
    assert fitted("short block", Area(0, 0, wide - 0.02, 14), Style(BOLD, 12)).size < 12


def test_lines_exactly_as_high_as_their_room_fit_it():
    high = 12 * (0.79 + 0.25)
    assert fitted("short block", Area(0, 0, 200, high), Style(BOLD, 12)).size == 12
    assert fitted("short block", Area(0, 0, 200, high - 0.05), Style(BOLD, 12)).size == 11.75


def test_a_word_that_must_be_cut_takes_all_the_lines_its_room_is_high_enough_for():
    found = fitted("gÉ" * 300, ROOM, Style(BOLD, 12, 6))
    # the ink of a line may be 1.22 of its size, each further line takes 1.18: four are 28.6 high, five 35.6
    assert (len(found.lines), found.size, found.cut) == (4, 6, True)
    assert max(width_of(line, BOLD, 6) for line in found.lines) <= ROOM.width


@pytest.mark.parametrize(("text", "high"), [("B3", 60), ("WAREHOUSE SHELF", 60), ("WAREHOUSE SHELF", 38)])
def test_capitals_stand_in_the_middle_of_their_room(text, high):
    drawing = Drawing(200, 200, 0.3)
    write(drawing, text, Area(10, 20, 105, high), Style(BOLD, 14, 12, down="middle"))
    first, last = drawing.texts[0], drawing.texts[-1]
    assert (first.baseline - 0.714 * first.size + last.baseline) / 2 == pytest.approx(20 + high / 2)


def test_a_text_may_be_as_small_as_its_smallest_size_before_it_is_cut():
    found = fitted("short block", Area(0, 0, width_of("short block", BOLD, 6), 7), Style(BOLD, 12, 6))
    assert (found.lines, found.size, found.cut) == (("short block",), 6, False)


def test_a_word_is_set_smaller_rather_than_broken():
    found = fitted("short crankshaft", Area(0, 0, width_of("crankshaft", BOLD, 8), 60), Style(BOLD, 20))
    assert (found.lines, found.size) == (("short", "crankshaft"), 8)


@pytest.mark.parametrize("text", ["B3", "a yard\nin the open"])
def test_the_ink_of_lines_that_stand_at_the_bottom_ends_there(text):
    drawing = Drawing(200, 200, 0.3)
    found = write(drawing, text, Area(10, 20, 120, 60), Style(BOLD, 12, down="bottom"))
    assert drawing.texts[-1].baseline + descent(found.lines[-1]) * found.size == pytest.approx(80)
