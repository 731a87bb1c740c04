from __future__ import annotations

import pytest

from claimpack.forms.looks import Look
from claimpack.forms.setting import LEAST, set_together
from claimpack.printing.lettering import width_of


def setting(text, **look):
    return set_together([(text, Look(**{"width": 200.0, "height": 20.0, "size": 10.0} | look))])[0]


def right_edge(run, size):
    return run.x + width_of(run.text, Look(1, 1).face, size)


def test_text_that_fits_has_the_size_of_the_field():
    assert setting("Marrow Lane Paving").size == 10


@pytest.mark.parametrize("lines", [True, False])
def test_text_exactly_as_wide_as_its_room_fits(lines):
    found = setting("Marrow Lane", width=width_of("Marrow Lane", Look(1, 1).face, 10) + 2 * 2, lines=lines)
    assert (found.size, found.cut) == (10, False)


def test_text_too_wide_is_set_smaller():
    found = setting("Marrow Lane Paving and Kerb Setting of Ashby")
    assert (LEAST < found.size < 10, found.cut, right_edge(found.runs[0], found.size) <= 198) == (True, False, True)


def test_text_too_wide_in_the_smallest_size_ends_in_a_mark():
    found = setting("Marrow Lane Paving " * 9)
    assert (found.size, found.cut, found.runs[0].text[-1]) == (LEAST, True, "…")


def test_amounts_of_one_column_end_at_one_edge():
    texts = ("1,234.50", "0.75")
    found = set_together([(text, Look(60, 14, size=9, align="right")) for text in texts])
    edges = {round(right_edge(each.runs[0], each.size), 3) for each in found}
    assert edges == {58.0}


def test_a_column_is_set_in_the_size_of_its_longest():
    texts = ("Coil", "Engine assembly with crankshaft and governor")
    found = set_together([(text, Look(120, 14, size=10, column="name")) for text in texts])
    assert found[0].size == found[1].size < 10


def test_what_stands_alone_is_not_set_smaller_for_others():
    texts = ("Coil", "Engine assembly with crankshaft and governor")
    assert set_together([(text, Look(120, 14, size=10)) for text in texts])[0].size == 10


@pytest.mark.parametrize(("align", "first"), [("left", 0), ("centre", 3), ("right", 6)])
def test_each_character_stands_in_the_middle_of_its_box(align, first):
    found = setting("E70W", comb=10, align=align)
    middles = [run.x + width_of(run.text, Look(1, 1).face, found.size) / 2 for run in found.runs]
    assert middles == pytest.approx([20 * (first + place) + 10 for place in range(4)])


def test_a_character_may_fill_nine_tenths_of_its_box():
    assert setting("W", width=width_of("W", Look(1, 1).face, 10) / 0.9, comb=1).size == 10


def test_no_character_touches_its_box():
    found = setting("WWWW", comb=25, size=0)
    assert width_of("W", Look(1, 1).face, found.size) <= 0.9 * 8


def test_lines_are_broken_between_words_and_stand_in_the_room():
    found = setting("Compression 42 psi, limit 110. Piston seized and scored.", height=60.0, lines=True)
    assert len(found.runs) > 1
    assert all(right_edge(run, found.size) <= 198 and 0 < run.y < 60 for run in found.runs)


def test_lines_too_many_are_set_smaller_then_cut():
    story = "Compression 42 psi, limit 110. " * 4
    smaller, cut = setting(story, height=40.0, lines=True), setting(story * 9, height=40.0, lines=True)
    assert (smaller.cut, smaller.size < 10) == (False, True)
    assert (cut.cut, cut.size, cut.runs[-1].text[-1]) == (True, LEAST, "…")


def test_digits_stand_in_the_middle_of_the_height():
    (run,) = setting("1").runs
    assert run.y == pytest.approx((20 - 7.14) / 2)


@pytest.mark.parametrize(("height", "size"), [(12.0, 8.16), (40.0, 11.0)])
def test_a_field_without_a_size_gets_one_as_a_hand_would_write(height, size):
    assert setting("1", height=height, size=0.0).size == pytest.approx(size)


@pytest.mark.parametrize("border", [1.0, 4.0])
@pytest.mark.parametrize("height", range(20, 62, 3))
def test_lines_stay_inside_the_border_above_and_below_with_room_for_no_other(height, border):
    found = setting("Compression 42 psi, limit 110. " * 9, height=float(height), border=border, lines=True, size=8.0)
    assert found.runs[0].y + 0.72 * found.size < height - border
    assert found.runs[-1].y - 0.22 * found.size > border
    assert found.runs[-1].y - 1.18 * found.size - 0.24 * found.size < border


def test_a_cut_text_ends_before_the_edge_of_its_field():
    found = setting("Marrow Lane Paving " * 9)
    assert 190 < right_edge(found.runs[0], found.size) <= 198


def test_a_word_that_has_room_in_smaller_type_is_set_smaller_and_not_broken():
    found = setting("W" * 24, height=60.0, lines=True)
    assert (found.runs[0].text, LEAST < found.size < 10) == ("W" * 24, True)


def test_a_word_longer_than_its_lines_is_broken_over_them():
    found = setting("W" * 60, height=60.0, lines=True)
    assert ("".join(run.text for run in found.runs), found.cut) == ("W" * 60, False)
    assert max(right_edge(run, found.size) for run in found.runs) <= 198
