from __future__ import annotations

from importlib.resources import files

import pytest
from PIL import ImageFont

from claimpack.reports.charts.picture import FILLS, fitted, width_of


def measured(said, face, size=9.0):
    """The width as another reader of the typeface tells it."""
    path = str(files("claimpack") / "fonts" / f"NotoSans-{face}.ttf")
    return ImageFont.truetype(path, 1000, layout_engine=ImageFont.Layout.BASIC).getlength(said) * size / 1000


@pytest.mark.parametrize(("strong", "face"), [(False, "Regular"), (True, "Bold")])
def test_words_are_as_wide_as_another_reader_says(strong, face):
    said = "Short block, 12 units"
    assert width_of(said, strong=strong) == pytest.approx(measured(said, face), 0.01)


def test_what_no_typeface_has_is_as_wide_as_its_number():
    assert width_of("ไทย") == width_of("[Thai]")


def test_nothing_has_no_width():
    assert (width_of(""), fitted("", 0)) == (0, "")


def test_words_as_wide_as_their_room_stay_whole():
    assert fitted("short block", width_of("short block")) == "short block"


@pytest.mark.parametrize("room", [9, 20, 50])
def test_words_too_wide_are_cut_to_their_room_and_marked(room):
    cut = fitted("a maker with a long name indeed", room)
    assert cut.endswith("…")
    assert width_of(cut) <= room


def test_no_blank_stands_before_the_mark():
    assert fitted("short block", width_of("short …")) == "short…"


def test_where_there_is_no_room_the_mark_alone_is_left():
    assert fitted("short block", 0) == "…"


def test_line_ends_and_runs_of_blanks_are_one_blank():
    assert fitted(" short\n\tblock  ", 500) == "short block"


@pytest.mark.parametrize("kinds", FILLS)
def test_every_kind_of_a_picture_has_a_fill_of_its_own(kinds):
    assert len(set(FILLS[kinds])) == kinds
