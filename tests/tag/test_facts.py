from __future__ import annotations

import pytest

from claimpack.tag.drawing import Area, Drawing
from claimpack.tag.facts import draw_facts, value_of
from claimpack.tag.stock import Block


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
    rows = [["maker", "model"], ["serial", "part_serial"], ["failed_on", "held_since"]]
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
