from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from claimpack.printing.typeface import BOLD, REGULAR, not_printed
from claimpack.tag.drawing import Area, Drawing, width_of
from claimpack.tag.fitting import Style, fitted, write

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
