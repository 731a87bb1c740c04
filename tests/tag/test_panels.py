from __future__ import annotations

import itertools

import pytest

from claimpack.core.holding.hold import HoldRule
from claimpack.tag.drawing import Area, Drawing, Polygon, width_of
from claimpack.tag.fitting import descent
from claimpack.tag.panels import draw_panels
from claimpack.tag.stock import Block

PANELS = [{"what": what, "size": "20 pt"} for what in ("hold", "shelf", "drained")]


@pytest.fixture
def drawn(a_stock):
    """The three panels of a tag, side by side over 300 points."""

    def draw(tag, height="40 pt", panels=PANELS):
        block = Block.model_validate(
            {"what": "panels", "x": "0 pt", "y": "0 pt", "width": "300 pt", "height": height, "panels": panels}
        )
        drawing = Drawing(300, 60, 0.35)
        draw_panels(drawing, tag, a_stock("label-4x6").words, block)
        return drawing

    return draw


def said(drawing):
    return [text.text for text in drawing.texts]


def right_edge(drawing):
    return max(mark.right for mark in drawing.marks if isinstance(mark, Area))


def test_a_panel_with_nothing_to_say_leaves_its_room_to_the_others(drawn, a_tag, a_bare_tag):
    assert right_edge(drawn(a_tag())) == pytest.approx(300)
    assert right_edge(drawn(a_bare_tag())) == pytest.approx(300)
    assert "drained" not in " ".join(said(drawn(a_bare_tag()))).casefold()
    assert "shelf" in said(drawn(a_bare_tag()))


def test_the_day_to_hold_until_is_given(drawn, a_tag):
    assert {"2026-06-08", "B3", "DRAINED"} <= set(said(drawn(a_tag())))


def test_a_rule_without_a_day_is_set_as_large_as_two_lines_go(drawn, a_tag):
    panels = [{"what": "hold", "size": "22 pt", "share": 5}, {"what": "shelf", "size": "20 pt", "share": 1}]
    lines = [text.size for text in drawn(a_tag(hold_until=None), "28 pt", panels).texts[:2]]
    assert min(lines) >= 8


def test_a_day_is_never_broken_over_two_lines(drawn, a_tag):
    panels = [{"what": "hold", "size": "60 pt"}, {"what": "shelf", "size": "20 pt", "share": 2}]
    assert "2026-06-08" in said(drawn(a_tag(), panels=panels))


def test_the_rule_stands_under_the_day_where_there_is_room(drawn, a_tag):
    panels = [{"what": "hold", "size": "30 pt", "terms": True}]
    assert HoldRule().terms in " ".join(said(drawn(a_tag(), "52 pt", panels)))
    assert HoldRule().terms not in " ".join(said(drawn(a_tag(), "30 pt", panels)))


def test_not_drained_is_white_on_black(drawn, a_tag):
    assert " ".join(text.text for text in drawn(a_tag(drained=False)).texts if text.white) == "NOT DRAINED"


def test_unknown_draining_is_left_to_tick_and_sign(drawn, a_tag):
    assert {"drained", "by"} <= set(said(drawn(a_tag(drained=None))))


def test_an_unknown_shelf_leaves_a_line_to_write_on(drawn, a_tag):
    panels = [{"what": "shelf", "size": "20 pt"}]
    with_shelf, without = (len(drawn(a_tag(shelf=shelf), panels=panels).marks) for shelf in ("B3", ""))
    assert without == with_shelf + 1


def test_a_rule_too_long_for_its_panel_is_said_in_fewer_words_rather_than_cut(drawn, a_tag):
    panels = [{"what": "hold", "size": "22 pt"}, {"what": "shelf", "size": "20 pt", "share": 3}]
    drawing = drawn(a_tag(hold_until=None, hold_in_short="90 days from filing"), "25 pt", panels)
    told = " ".join(said(drawing))
    assert ("HOLD UNTIL 90 days from filing" in told, "…" in told, drawing.notes) == (True, False, [])


@pytest.mark.parametrize(("height", "in_line"), [("20 pt", True), ("30 pt", False)])
def test_the_words_of_a_panel_stand_beside_its_value_where_it_is_high_enough(drawn, a_tag, height, in_line):
    texts = {text.text: text.baseline for text in drawn(a_tag(), height, [{"what": "shelf", "size": "40 pt"}]).texts}
    assert list(texts) == ["shelf", "boxed", "B3"]
    assert (texts["shelf"] == texts["boxed"]) is in_line


def test_a_shelf_to_be_written_in_a_low_panel_has_its_words_over_the_line(drawn, a_tag):
    drawing = drawn(a_tag(shelf=""), "20 pt", [{"what": "shelf", "size": "40 pt"}])
    line = min((mark for mark in drawing.marks if isinstance(mark, Area)), key=lambda mark: mark.height)
    assert max(text.baseline for text in drawing.texts) < line.y


@pytest.mark.parametrize(("drained", "ticks"), [(True, 1), (None, 0), (False, 0)])
def test_only_a_part_that_was_drained_has_a_tick(drawn, a_tag, drained, ticks):
    assert sum(isinstance(mark, Polygon) for mark in drawn(a_tag(drained=drained)).marks) == ticks


@pytest.mark.parametrize("changes", [{}, {"shelf": "", "drained": None}, {"hold_until": None, "drained": False}])
@pytest.mark.parametrize("height", ["25 pt", "40 pt", "55 pt"])
def test_panels_keep_within_their_block(drawn, a_tag, changes, height):
    drawing = drawn(a_tag(**changes), height)
    bottom = float(height[:2])
    assert max(mark.bottom for mark in drawing.marks if isinstance(mark, Area)) <= bottom + 0.01
    assert right_edge(drawing) <= 300.01
    assert all(text.x + width_of(text.text, text.face, text.size) < 299 for text in drawing.texts)


def test_the_rule_under_the_day_is_said_in_fewer_words_rather_than_cut(drawn, a_tag):
    panels = [{"what": "hold", "size": "22 pt", "terms": True}, {"what": "shelf", "size": "20 pt", "share": 2}]
    short = "90 days from filing"
    for terms, told in ((HoldRule().terms * 4, short), (HoldRule().terms, HoldRule().terms)):
        drawing = drawn(a_tag(hold_terms=terms, hold_in_short=short), "50 pt", panels)
        assert (" ".join(said(drawing)).startswith(told), drawing.notes) == (True, [])


def covered(text):
    """What the letters of a line cover: left, top, right, bottom."""
    low = 0.8 * descent(text.text) * text.size
    right = text.x + width_of(text.text, text.face, text.size)
    return text.x, text.baseline - 0.72 * text.size, right, text.baseline + low


def apart(one, other):
    return any(one[side] >= other[side + 2] or other[side] >= one[side + 2] for side in (0, 1))


ONE = {
    "a day": ({"what": "hold"}, {}),
    "a day over its rule": ({"what": "hold", "terms": True}, {}),
    "a rule": ({"what": "hold"}, {"hold_until": None}),
    "a shelf": ({"what": "shelf"}, {}),
    "a long shelf": ({"what": "shelf"}, {"shelf": "Rack 12, level B, bin 03"}),
    "no shelf": ({"what": "shelf"}, {"shelf": ""}),
    "drained": ({"what": "drained"}, {}),
    "perhaps drained": ({"what": "drained"}, {"drained": None}),
}


@pytest.mark.parametrize("height", [26, 40, 56])
@pytest.mark.parametrize("case", ONE)
def test_in_a_panel_words_stand_clear_of_each_other_and_of_lines_to_write_on(drawn, a_tag, case, height):
    panel, changes = ONE[case]
    drawing = drawn(a_tag(**changes), f"{height} pt", [panel | {"size": "30 pt"}])
    words = [covered(text) for text in drawing.texts]
    rules = [(mark.x, mark.y, mark.right, mark.bottom) for mark in drawing.marks if getattr(mark, "height", 0) == 0.8]
    # a blank between words side by side
    wider = [(left, top, right + 3, bottom) for left, top, right, bottom in words]
    assert all(apart(one, other) for one, other in itertools.combinations(wider, 2))
    assert all(apart(*pair) for pair in itertools.product(words, rules))
    boxes = [mark for mark in drawing.marks if isinstance(mark, Area)]
    assert all(mark.y >= 0 and mark.bottom <= height + 0.01 for mark in boxes)
    # the frame and three points beside what it holds
    assert all(left >= 4 and right <= 296 for left, _, right, _ in [*words, *rules])
    assert all(top >= 1.2 and bottom <= height for _, top, _, bottom in [*words, *rules])
    assert all(right == pytest.approx(296, abs=1.1) and bottom < height - 2.9 for _, _, right, bottom in rules)


def test_a_value_stands_under_its_title_where_that_leaves_it_larger(drawn, a_tag):
    panels = [{"what": "shelf", "size": "40 pt"}, {"what": "hold", "size": "20 pt", "share": 3}]
    texts = {text.text: text.baseline for text in drawn(a_tag(shelf="Bay12345"), "56 pt", panels).texts}
    assert texts["shelf"] == texts["boxed"] < texts["Bay12345"]
