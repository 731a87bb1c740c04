from __future__ import annotations

import itertools

import pytest

from claimpack.printing.typeface import BOLD
from claimpack.tag.drawing import Area, Drawing, width_of
from claimpack.tag.facts import draw_facts, value_of
from claimpack.tag.stock import Block

LONG_PART = "Twin-cylinder short block with crankshaft, pistons, oil pump and governor gear, complete"


@pytest.fixture
def drawn(a_stock):
    """The facts of a tag, drawn in a block with the changes given."""

    def draw(tag, **changes):
        block = Block.model_validate(
            {"what": "facts", "x": "10 pt", "y": "10 pt", "width": "200 pt", "height": "60 pt", "size": "10 pt"}
            | changes
        )
        drawing = Drawing(300, 200, 0.35)
        draw_facts(drawing, tag, a_stock("label-4x6").words, block)
        return drawing

    return draw


def baselines(drawing):
    return {text.text: text.baseline for text in drawing.texts}


def test_two_short_facts_stand_side_by_side(drawn, a_tag):
    found = baselines(drawn(a_tag(), rows=[["maker", "model"]]))
    assert found["Halden"] == found["CS-70"]


def test_two_long_facts_stand_one_under_the_other(drawn, a_long_tag):
    found = baselines(drawn(a_long_tag(), rows=[["maker", "model"]]))
    assert found["model"] > found["maker"]


def test_fewer_facts_are_set_larger(drawn, a_tag):
    many = [["maker"], ["model"], ["serial"], ["part"], ["part_number"], ["part_serial"]]
    one, all_six = (drawn(a_tag(), rows=rows, size="20 pt") for rows in ([["maker"]], many))
    assert max(text.size for text in one.texts) > max(text.size for text in all_six.texts)


def test_an_unknown_fact_takes_no_room(drawn, a_bare_tag):
    assert "model" not in baselines(drawn(a_bare_tag(), rows=[["model"], ["maker"]]))


def test_an_unknown_fact_to_write_in_gets_a_line(drawn, a_bare_tag):
    drawing = drawn(a_bare_tag(), rows=[["serial"]], write_in=["serial"])
    assert baselines(drawing).keys() == {"serial"}
    assert [mark.height < 1 for mark in drawing.marks if isinstance(mark, Area)] == [True]


def test_nothing_known_draws_nothing(drawn, a_bare_tag):
    drawing = drawn(a_bare_tag(), rows=[["serial"]])
    assert (drawing.texts, drawing.marks) == ([], [])


def test_a_day_is_written_year_month_day(a_tag, a_bare_tag):
    assert value_of(a_tag(), "failed_on") == "2026-02-02"
    assert value_of(a_bare_tag(), "failed_on") == ""


def test_the_second_facts_of_all_rows_stand_in_one_column(drawn, a_tag):
    rows = [["maker", "model"], ["part"], ["serial", "part_serial"], ["failed_on", "held_since"]]
    drawing = drawn(a_tag(serial="HC70-118-20417-B"), rows=rows, width="240 pt")
    starts = {text.x for text in drawing.texts if text.text in ("model", "part serial", "held since")}
    assert len(starts) == 1


def test_a_long_value_makes_its_own_row_smaller_alone(drawn, a_tag):
    long = "Twin-cylinder short block with crankshaft"
    sizes = {text.text: text.size for text in drawn(a_tag(part=long), rows=[["maker"], ["part"]]).texts}
    assert sizes[long] < sizes["Halden"] == 10


def test_a_long_word_is_broken_at_the_largest_size_that_takes_it(drawn, a_tag):
    texts = drawn(a_tag(part="W" * 40), rows=[["part"]], least="5 pt").texts[1:]
    assert "".join(text.text for text in texts) == "W" * 40
    assert {text.size for text in texts} == {10}


def test_first_facts_stand_in_one_column_where_the_others_cannot(drawn, a_tag):
    rows = [["maker", "model"], ["part_number", "held_since", "serial"]]
    starts = {text.text: text.x for text in drawn(a_tag(), rows=rows, width="280 pt").texts}
    assert starts["Halden"] == starts["H70-4410"]
    assert starts["CS-70"] != starts["2026-02-24"]


def columns(drawing):
    """Label beside value beside label, a row each: the texts of a baseline from left to right."""
    texts = sorted(drawing.texts, key=lambda text: (text.baseline, text.x))
    rows = itertools.groupby(texts, lambda text: text.baseline)
    return [list(row) for _, row in rows]


def end_of(text):
    return text.x + width_of(text.text, text.face, text.size)


PAIRS = [["maker", "model"], ["serial", "part_serial"], ["part_number"], ["failed_on", "held_since"]]


@pytest.mark.parametrize("width", range(60, 300, 20))
def test_facts_keep_apart_and_in_their_block_however_wide_it_is(drawn, a_tag, width):
    for row in columns(drawn(a_tag(), rows=PAIRS, width=f"{width} pt", height="100 pt", size="11 pt", least="4 pt")):
        gaps = [after.x - end_of(one) for one, after in itertools.pairwise(row)]
        assert min(gaps) >= 0.4 * row[1].size
        assert min(gaps[1::2], default=99) >= 0.85 * row[1].size
        assert end_of(row[-1]) <= 10 + width + 0.02


@pytest.mark.parametrize("rows", [PAIRS[:1], PAIRS[1:2], [["maker", "part_serial"], ["model", "failed_on", "part"]]])
def test_facts_stand_side_by_side_as_soon_as_there_is_room(drawn, a_tag, rows):
    fixed = {"rows": rows, "size": "10 pt", "least": "10 pt"}
    drawings = ((width, columns(drawn(a_tag(), width=f"{width} pt", **fixed))) for width in range(120, 400, 2))
    width, first = next((width, found) for width, found in drawings if len(found) == len(rows))
    assert max(end_of(row[-1]) for row in first) > 10 + width - 2.1


def test_two_columns_are_equally_wide_where_there_is_room(drawn, a_tag):
    second = {row[2].x for row in columns(drawn(a_tag(), rows=PAIRS, width="280 pt")) if len(row) > 2}
    middle = 10 + 280 / 2
    assert [middle < x < middle + 10 / 2 for x in second] == [True]


def test_columns_are_given_up_where_they_would_make_all_facts_much_smaller(drawn, a_tag):
    tag = a_tag(maker="Orrin & Vale Ride-on", model="R1", serial="7", part_serial="E70-55102-XXXX-0000")
    found = columns(drawn(tag, rows=PAIRS[:2], width="180 pt", height="26 pt", size="11 pt", least="4 pt"))
    assert [len(row) for row in found] == [4, 4]
    assert found[0][2].x != found[1][2].x


def test_the_longest_label_of_a_row_that_was_taken_apart_has_its_value_behind_it(drawn, a_tag):
    tag = a_tag(maker="Orrin & Vale Ride-on Mowers", part_serial="E70-55102-XXXX-0000")
    found = columns(drawn(tag, rows=[["maker", "part_serial"]], width="150 pt"))
    assert [len(row) for row in found] == [2, 2]
    assert all(end_of(label) < value.x for label, value in found)


@pytest.mark.parametrize("size", [10, 9.75, 8, 6.25, 6])
def test_facts_are_as_large_as_their_block_is_high(drawn, a_tag, size):
    exact = 2 * 1.14 * size
    for height, expected in ((exact, size), (exact - 0.05, max(6, size - 0.25))):
        drawing = drawn(a_tag(), rows=[["maker"], ["model"]], height=f"{height:.3f} pt")
        assert {text.size for text in drawing.texts if text.text in ("Halden", "CS-70")} == {expected}


@pytest.mark.parametrize(("rows", "least"), [([["serial"]], 100), ([["serial", "part_number"]], 33), (PAIRS, 33)])
def test_a_line_to_write_on_is_long_enough_for_a_pen_and_lies_under_its_label(drawn, a_bare_tag, rows, least):
    writing = [fact for row in rows for fact in row]
    drawing = drawn(a_bare_tag(), rows=rows, write_in=writing)
    for line in drawing.marks:
        label = max((text for text in drawing.texts if text.baseline < line.y), key=lambda text: text.baseline)
        assert 0 < line.y - label.baseline < 2
        assert line.width > least
        assert line.right <= 210 + 0.01


def test_the_line_for_a_fact_alone_in_its_row_reaches_the_right_edge(drawn, a_bare_tag):
    drawing = drawn(a_bare_tag(), rows=[["serial"], ["failed_on", "model"]], write_in=["serial", "failed_on", "model"])
    assert drawing.marks[0].right == pytest.approx(210)


def test_a_value_too_long_is_cut_where_its_block_has_no_room_for_more_lines(drawn, a_tag):
    drawing = drawn(a_tag(part="W" * 900), rows=[["maker"], ["part"]], height="60 pt")
    lines = [text for text in drawing.texts if text.text.startswith("W")]
    # eight lines of 6 pt and 1.14 of leading are 54.7 high, a ninth would be over 60; one is the maker's
    assert len(lines) == 7
    assert lines[-1].text.endswith("…")
    assert max(end_of(line) for line in lines) <= 210.02
    assert len(drawing.notes) == 1


@pytest.mark.parametrize(("maker", "height"), [("Halden", 3), ("Halden", 14), ("M" * 40, 28)])
def test_only_what_is_too_long_is_cut_in_the_lowest_of_blocks(drawn, a_tag, maker, height):
    drawing = drawn(a_tag(maker=maker, part="W" * 200), rows=[["maker"], ["part"]], height=f"{height} pt")
    assert f"maker{maker}part" in "".join(text.text for text in drawing.texts)
    assert drawing.texts[-1].text[-1] == "…"
    assert [note.count("W") > 50 for note in drawing.notes] == [True]


def test_a_block_too_narrow_for_a_value_beside_its_label_is_told(drawn, a_tag):
    drawing = drawn(a_tag(), rows=[["maker"], ["part_serial"]], width="60 pt", least="10 pt")
    assert drawing.texts == []
    assert [note.endswith(": maker, part serial") for note in drawing.notes] == [True]


def test_facts_with_room_to_spare_stand_further_apart(drawn, a_tag):
    close, loose = (baselines(drawn(a_tag(), rows=[["maker"], ["model"]], height=high)) for high in ("23 pt", "60 pt"))
    assert loose["CS-70"] - loose["Halden"] == pytest.approx(10 * (1.14 + 0.9))
    assert close["CS-70"] - close["Halden"] == pytest.approx(10 * 1.14, abs=0.2)


def test_a_line_to_write_a_fact_on_goes_from_its_label_to_the_edge_of_its_block(drawn, a_bare_tag):
    drawing = drawn(a_bare_tag(), rows=[["serial"]], write_in=["serial"])
    (label,), (line,) = drawing.texts, drawing.marks
    assert label.x + width_of(label.text, label.face, label.size) < line.x < 60
    assert line.right == pytest.approx(210)


def test_lines_between_facts_take_some_of_the_height(drawn, a_tag):
    rows = [["maker"], ["model"], ["serial"]]
    sizes = [
        max(text.size for text in drawn(a_tag(), rows=rows, height="36 pt", ruled=ruled).texts)
        for ruled in (False, True)
    ]
    # 3 x 1.14 x 10 is 34.2, and 3 x 1.32 x 9 is 35.6
    assert sizes == [10, 9]


@pytest.mark.parametrize(("size", "lines"), [("10 pt", 1), ("20 pt", 3)])
def test_a_value_is_broken_where_one_line_would_be_much_smaller(drawn, a_tag, size, lines):
    tag = a_tag(part="Twin-cylinder short block with crankshaft")
    assert len([text for text in drawn(tag, rows=[["part"]], size=size).texts if text.face == BOLD]) == lines


@pytest.mark.parametrize("part", ["coil", LONG_PART])
def test_the_lines_of_a_fact_stand_in_the_middle_of_its_row(drawn, a_tag, part):
    lines = [text for text in drawn(a_tag(part=part), rows=[["part"]]).texts if text.face == BOLD]
    size = lines[0].size
    set_in = len(lines) * size * 1.14
    row = set_in + min(60 - set_in, size * 0.9)
    assert (lines[0].baseline - 0.714 * size + lines[-1].baseline) / 2 == pytest.approx(10 + row / 2)


def test_the_rows_of_a_ruled_block_fill_its_height_and_lines_part_them(drawn, a_tag):
    drawing = drawn(a_tag(), rows=[["maker"], ["model"], ["serial"]], height="45 pt", ruled=True)
    values = [text for text in drawing.texts if text.face == BOLD]
    assert [later.baseline - one.baseline for one, later in itertools.pairwise(values)] == pytest.approx([15, 15])
    assert [(line.y + line.bottom) / 2 for line in drawing.marks] == pytest.approx([10 + 15, 10 + 30])


def test_facts_are_black_and_side_by_side_share_the_width_of_their_block(drawn, a_tag):
    drawing = drawn(a_tag(), rows=[["maker", "model"]])
    starts = [text.x for text in drawing.texts if text.face != BOLD]
    # half of the width, and of the nine points between the two
    assert starts == pytest.approx([10, 10 + (200 + 9) / 2])
    assert not any(text.white for text in drawing.texts)


def test_a_fact_to_write_in_whose_row_was_taken_apart_has_a_line_of_its_own(drawn, a_tag):
    drawing = drawn(a_tag(part=LONG_PART, serial=""), rows=[["part", "serial"]], write_in=["serial"])
    labels = [text for text in drawing.texts if text.face != BOLD]
    (line,) = drawing.marks
    assert labels[0].baseline < labels[1].baseline < line.y
    assert line.right == pytest.approx(210)


def test_rows_of_two_and_of_three_facts_each_share_the_width_of_their_block(drawn, a_tag):
    rows = [["maker", "model"], ["serial", "part_number", "failed_on"]]
    drawing = drawn(a_tag(), rows=rows, width="480 pt")
    starts = [text.x for text in drawing.texts if text.face != BOLD]
    assert starts == pytest.approx([10, 10 + 489 / 2, 10, 10 + 489 / 3, 10 + 489 * 2 / 3])
