from __future__ import annotations

import io
import itertools
import math
from decimal import Decimal

import numpy as np
import pypdfium2
import pytest
from inked import ink_on, page_with, words_on
from reportlab.pdfgen.canvas import Canvas

from claimpack.core.facts.pictures import Mark
from claimpack.packet.drawing.marks import (
    CASING,
    LINE,
    Arrow,
    Frame,
    Ring,
    draw_marks,
    head_corners,
    mark_notes,
    place,
    place_marks,
)

PICTURE = Frame(50, 100, 300, 200)
EVERYWHERE = list(itertools.product(["0", "0.02", "0.5", "0.97", "1"], repeat=2))
SHAPES = ["ring", "box", "arrow"]


def a_mark(shape="ring", x="0.5", y="0.5", size="0.1", note=""):
    return Mark(shape=shape, x=Decimal(x), y=Decimal(y), size=Decimal(size), note=note)


def corners(shape):
    """The outermost points of what is drawn, without the stroke."""
    if isinstance(shape, Ring):
        (x, y), r = shape.centre, shape.radius
        return [(x - r, y - r), (x + r, y + r)]
    if isinstance(shape, Arrow):
        return [shape.tip, shape.tail]
    return [(shape.x, shape.y), (shape.x + shape.width, shape.y + shape.height)]


def at(x, y):
    return PICTURE.x + float(x) * PICTURE.width, PICTURE.y + (1 - float(y)) * PICTURE.height


def test_a_ring_has_its_centre_at_the_point_and_its_diameter_is_a_fraction_of_the_width():
    assert place(a_mark("ring", "0.4", "0.25", "0.2"), PICTURE) == Ring(at("0.4", "0.25"), 30)


def test_a_box_has_its_upper_left_at_the_point_and_is_square():
    assert place(a_mark("box", "0.4", "0.25", "0.2"), PICTURE) == Frame(170, 190, 60, 60)


def test_an_arrow_has_its_tip_at_the_point():
    assert place(a_mark("arrow", "0.4", "0.25"), PICTURE).tip == at("0.4", "0.25")


@pytest.mark.parametrize(
    ("x", "y", "right", "up"),
    [("0.1", "0.1", 1, -1), ("0.9", "0.1", -1, -1), ("0.1", "0.9", 1, 1), ("0.9", "0.9", -1, 1)],
    ids=["upper left", "upper right", "lower left", "lower right"],
)
def test_an_arrow_comes_from_the_side_that_has_room(x, y, right, up):
    arrow = place(a_mark("arrow", x, y), PICTURE)
    assert math.copysign(1, arrow.tail[0] - arrow.tip[0]) == right
    assert math.copysign(1, arrow.tail[1] - arrow.tip[1]) == up


def test_an_arrow_at_the_middle_comes_from_the_lower_left():
    arrow = place(a_mark("arrow"), PICTURE)
    assert (arrow.tail[0] < arrow.tip[0], arrow.tail[1] < arrow.tip[1]) == (True, True)


@pytest.mark.parametrize("size", ["0.01", "0.1", "1"])
@pytest.mark.parametrize("shape", ["box", "arrow"])
def test_no_box_or_arrow_leaves_the_picture_with_its_casing(shape, size):
    placed = [place(a_mark(shape, x, y, size), PICTURE) for x, y in EVERYWHERE]
    inner = PICTURE.inside(CASING / 2)
    assert [mark for mark in placed if not all(inner.holds(corner) for corner in corners(mark))] == []


@pytest.mark.parametrize("x", ["0.06", "0.94"])
def test_a_ring_that_overlaps_an_edge_a_little_is_moved_inside_whole(x):
    ring = place(a_mark("ring", x, "0.5", "0.15"), PICTURE)
    assert all(PICTURE.inside(CASING / 2).holds(corner) for corner in corners(ring))


def test_a_ring_at_an_edge_still_holds_its_point():
    rings = {(x, y): place(a_mark("ring", x, y, "0.2"), PICTURE) for x, y in EVERYWHERE}
    assert [point for point, ring in rings.items() if math.dist(ring.centre, at(*point)) > ring.radius] == []


@pytest.mark.parametrize("shape", SHAPES)
def test_no_number_leaves_the_picture(shape):
    badges = [place_marks([a_mark(shape, x, y)], PICTURE)[0].badge for x, y in EVERYWHERE]
    assert [badge for badge in badges if not PICTURE.inside(badge.radius).holds(badge.centre)] == []


def test_numbers_of_marks_at_one_place_keep_clear_of_each_other():
    badges = [mark.badge for mark in place_marks([a_mark()] * 4, PICTURE)]
    assert [badge.number for badge in badges] == [1, 2, 3, 4]
    assert all(math.dist(a.centre, b.centre) >= 2 * a.radius for a, b in itertools.combinations(badges, 2))


@pytest.mark.parametrize("shape", SHAPES)
def test_a_number_does_not_cover_what_the_mark_shows(shape):
    mark = place_marks([a_mark(shape, size="0.2")], PICTURE)[0]
    assert math.dist(mark.badge.centre, at("0.5", "0.5")) > mark.badge.radius


def test_the_number_of_a_box_stands_off_its_upper_right_corner():
    mark = place_marks([a_mark("box", size="0.2")], PICTURE)[0]
    right, top = corners(mark.shape)[1]
    assert (mark.badge.centre[0] > right, mark.badge.centre[1] > top) == (True, True)


def test_the_number_of_an_arrow_stands_behind_its_tail_in_line_with_it():
    mark = place_marks([a_mark("arrow", size="0.2")], PICTURE)[0]
    tip, tail, number = mark.shape.tip, mark.shape.tail, mark.badge
    assert math.dist(tail, number.centre) == pytest.approx(number.radius + CASING / 2)
    assert math.dist(tip, number.centre) == pytest.approx(math.dist(tip, tail) + math.dist(tail, number.centre))


@pytest.mark.parametrize("picture", [Frame(0, 0, 8, 8), Frame(0, 0, 300, 3), Frame(0, 0, 1, 1)])
@pytest.mark.parametrize("shape", ["box", "arrow"])
def test_a_tiny_picture_still_holds_its_marks(shape, picture):
    placed = place_marks([a_mark(shape, "1", "1", "1")], picture)[0]
    assert all(picture.holds(corner) for corner in corners(placed.shape))


def test_the_head_of_a_short_arrow_is_no_longer_than_the_arrow():
    rear = head_corners(Arrow((10, 10), (13, 10)))
    assert [round(x) for x, _ in rear] == [13, 13]


@pytest.mark.parametrize("tail", [(30, 40), (-40, 30), (50, 0), (0, -50)])
def test_the_head_of_an_arrow_lies_evenly_on_both_sides_of_its_shaft(tail):
    one, other = head_corners(Arrow((0, 0), tail))
    assert (math.hypot(*one), math.hypot(*other)) == (pytest.approx(math.hypot(9, 4.5)),) * 2
    middle = ((one[0] + other[0]) / 2, (one[1] + other[1]) / 2)
    assert middle == pytest.approx((tail[0] * 9 / 50, tail[1] * 9 / 50))
    assert math.dist(one, other) == pytest.approx(9)


@pytest.mark.parametrize(("x", "y"), [("1", "0.5"), ("0.5", "1"), ("1", "1")])
def test_a_box_at_the_very_edge_is_still_large_enough_to_be_seen(x, y):
    box = place(a_mark("box", x, y, "0.01"), PICTURE)
    assert (box.width, box.height) == (pytest.approx(12), pytest.approx(12))


def test_the_number_of_a_ring_stands_off_its_upper_right():
    mark = place_marks([a_mark("ring", size="0.2")], PICTURE)[0]
    across, up = (mark.badge.centre[axis] - mark.shape.centre[axis] for axis in (0, 1))
    assert across == pytest.approx(up)
    assert math.hypot(across, up) == pytest.approx(mark.shape.radius + mark.badge.radius + CASING / 2)
    assert across > 0


def on_paper(*marks):
    page = page_with(lambda canvas: draw_marks(canvas, marks, *PICTURE_AT), (400, 400))
    return ink_on(page), words_on(page)


PICTURE_AT = (PICTURE.x, PICTURE.y, PICTURE.width, PICTURE.height)


@pytest.mark.parametrize("tip", [("0.2", "0.2"), ("0.8", "0.3"), ("0.5", "0.9")])
def test_the_shaft_of_an_arrow_ends_in_the_middle_of_its_heads_back(tip):
    arrow = place(a_mark("arrow", *tip, "0.3"), PICTURE)
    ink, _ = on_paper(a_mark("arrow", *tip, "0.3"))
    one, other = head_corners(arrow)
    back = ((one[0] + other[0]) / 2, (one[1] + other[1]) / 2)
    shafts = [path.points for path in ink if len(path.points) == 2]
    assert shafts == [(pytest.approx(arrow.tail, abs=0.1), pytest.approx(back, abs=0.1))] * 2


def test_the_head_of_an_arrow_has_a_white_rim_as_broad_as_that_of_its_shaft():
    heads = [path for path in on_paper(a_mark("arrow", size="0.3"))[0] if len(path.points) == 4]
    assert [(head.colour, head.broad) for head in heads] == [
        ("#ffffff", pytest.approx(CASING - LINE)),
        ("#d6006b", pytest.approx(0, abs=0.02)),
    ]


@pytest.mark.parametrize("number", [1, 9, 10, 12])
def test_a_number_stands_in_the_middle_of_its_disc_and_inside_it(number):
    marks = [a_mark(x=str(n / 20), y="0.5", size="0.01") for n in range(1, number + 1)]
    ink, words = on_paper(*marks)
    disc, said = ink[-1], words[-1]
    assert said.words == str(number)
    assert ((said.left + said.right) / 2, (said.bottom + said.top) / 2) == pytest.approx(disc.middle, abs=0.6)
    reach = (disc.right - disc.left + disc.broad) / 2
    assert math.hypot(said.right - said.left, said.top - said.bottom) / 2 < reach == pytest.approx(7)


def test_the_number_of_one_digit_is_as_large_as_any_and_those_of_two_are_smaller():
    _, words = on_paper(*(a_mark(x=str(n / 20), y="0.5", size="0.01") for n in range(1, 12)))
    tall = [said.top - said.bottom for said in words]
    assert tall[8] == pytest.approx(tall[7], abs=0.2)
    assert tall[9] < tall[8] - 1


def test_notes_carry_the_number_of_their_mark():
    assert mark_notes([a_mark(note="crack"), a_mark(), a_mark(note="<b>&")]) == ((1, "crack"), (3, "<b>&"))


def drawn(marks, ground, scale=4):
    """A page with one picture and its marks, as another reader shows it; four pixels a point."""
    buffer = io.BytesIO()
    canvas = Canvas(buffer, pagesize=(400, 400))
    canvas.setFillGray(0.5)
    canvas.rect(0, 0, 400, 400, stroke=0, fill=1)
    canvas.setFillColorRGB(*ground)
    canvas.rect(PICTURE.x, PICTURE.y, PICTURE.width, PICTURE.height, stroke=0, fill=1)
    draw_marks(canvas, marks, PICTURE.x, PICTURE.y, PICTURE.width, PICTURE.height)
    canvas.save()
    return np.asarray(pypdfium2.PdfDocument(buffer.getvalue())[0].render(scale=scale).to_pil().convert("RGB"), int)


def pixel(page, point, scale=4):
    return page[round((400 - point[1]) * scale), round(point[0] * scale)]


def magenta(colour):
    return (abs(colour - np.array([214, 0, 107])) < 30).all(axis=-1)


DARK, BRIGHT = (0.1, 0.1, 0.1), (0.95, 0.95, 0.95)


@pytest.mark.parametrize("ground", [DARK, BRIGHT, (0.85, 0.1, 0.1)], ids=["dark", "bright", "red"])
def test_a_ring_is_seen_on_any_metal(ground):
    page = drawn([a_mark("ring", size="0.2")], ground)
    (x, y), r = at("0.5", "0.5"), 30
    assert magenta(pixel(page, (x - r, y)))
    assert (pixel(page, (x - r - 1.6, y)) > 240).all()
    assert (abs(pixel(page, (x, y)) - np.array(ground) * 255) < 4).all()


def test_an_arrow_is_solid_up_to_its_tip():
    page = drawn([a_mark("arrow", "0.25", "0.25", "0.3")], DARK)
    x, y = at("0.25", "0.25")
    assert magenta(pixel(page, (x + 3, y - 3)))
    assert (pixel(page, (x - 4, y + 4)) < 40).all()


def test_a_box_is_open_inside():
    page = drawn([a_mark("box", "0.4", "0.4", "0.2")], DARK)
    x, y = at("0.4", "0.4")
    assert magenta(pixel(page, (x, y - 20)))
    assert (pixel(page, (x + 30, y - 30)) < 40).all()


@pytest.mark.parametrize("shape", SHAPES)
def test_nothing_is_drawn_outside_the_picture(shape):
    page = drawn([a_mark(shape, x, y, "0.3") for x, y in EVERYWHERE], DARK, scale=2)
    page[(400 - 300) * 2 : (400 - 100) * 2, 50 * 2 : 350 * 2] = 128
    assert (abs(page - 128) < 4).all()


def test_the_number_is_printed_as_text_in_an_embedded_typeface():
    buffer = io.BytesIO()
    canvas = Canvas(buffer, pagesize=(400, 400))
    draw_marks(canvas, [a_mark(), a_mark(x="0.2")], *(50, 100, 300, 200))
    canvas.save()
    assert pypdfium2.PdfDocument(buffer.getvalue())[0].get_textpage().get_text_range().split() == ["2", "1"]


def test_no_marks_draw_nothing():
    assert (abs(drawn([], DARK)[800, 800] - 25) < 3).all()
