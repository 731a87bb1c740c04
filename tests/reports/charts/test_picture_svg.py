import pytest
from pages import Page

from claimpack.reports.charts.picture import Box, ChartPicture, Dot, Lettering, Line, Patch
from claimpack.reports.charts.picture_svg import FILL_PATTERNS, as_svg


def drawn(*shapes, title="t", description="d"):
    return Page(as_svg(ChartPicture(100, 50, shapes), "key-wide", title, description))


def test_words_are_escaped():
    assert drawn(Lettering("<script>&", (1, 2))).texts("text") == ["<script>&"]


def test_title_and_description_are_escaped():
    page = drawn(title="<b>", description="<i>&")
    assert (page.texts("title"), page.texts("desc")) == (["<b>"], ["<i>&"])


def test_a_picture_points_to_its_title_and_description():
    assert drawn().all("svg")[0].attributes["aria-labelledby"] == "key-wide-title key-wide-desc"


@pytest.mark.parametrize(
    ("shape", "tag"),
    [
        (Box(1, 2, 3, 4), "rect"),
        (Line(((0, 0), (1, 1))), "polyline"),
        (Patch(((0, 0), (1, 1), (1, 0))), "polygon"),
        (Dot((1, 1)), "circle"),
    ],
)
def test_every_shape_is_drawn(shape, tag):
    assert len(drawn(shape).all(tag)) == 1


@pytest.mark.parametrize("fill", ["dots", "stripes", "checks"])
def test_a_pattern_a_box_refers_to_is_there(fill):
    reference = drawn(Box(0, 0, 1, 1, fill)).all("rect")[0].attributes["fill"]
    patterns = [element.attributes["id"] for element in Page(FILL_PATTERNS).all("pattern")]
    assert reference == f"url(#{fill})"
    assert fill in patterns


@pytest.mark.parametrize(("side", "anchor"), [("start", "start"), ("middle", "middle"), ("end", "end")])
def test_words_stand_on_the_side_they_are_given(side, anchor):
    said = drawn(Lettering("x", (1, 2), side)).all("text")[0]
    assert said.attributes.get("text-anchor", "start") == anchor
