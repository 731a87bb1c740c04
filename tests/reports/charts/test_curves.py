import itertools

import pytest
from laid_out import clashes, lines_of, quiet_words, strong_words, word

from claimpack.core.reporting.payment_speed import MakerSpeed, Wait, payment_curve
from claimpack.reports.charts.curves import curve_chart, last_day_shown, range_chart
from claimpack.reports.charts.picture import Dot, Lettering, Line, Patch

CURVE = payment_curve([Wait(day, paid=True) for day in (10, 20, 40, 50)] + [Wait(55, paid=False)])

WAITING = payment_curve([Wait(10, paid=True), *[Wait(20, paid=False)] * 4])
MAKERS = [
    MakerSpeed("Halden", 9, 2, 20, 31, 44),
    MakerSpeed("Orrin & Vale", 9, 2, 20, None, None),
    MakerSpeed("Tessaly Pumps", 9, 2, 20, 131, None),
    MakerSpeed("Fourth", 1, 11, None, None, None),
]


def paid_on(*days):
    return payment_curve([Wait(day, paid=True) for day in days])


def curve(picture):
    return next(shape for shape in reversed(picture.shapes) if isinstance(shape, Line) and shape.stroke == "firm")


def said(picture):
    return [shape.said for shape in picture.shapes if isinstance(shape, Lettering)]


def test_the_curve_never_falls():
    points = curve(curve_chart(CURVE, 500)).points
    assert all(later[0] >= earlier[0] and later[1] <= earlier[1] for earlier, later in itertools.pairwise(points))


def test_the_curve_ends_at_the_share_paid():
    picture = curve_chart(CURVE, 500)
    floor = next(shape for shape in picture.shapes if isinstance(shape, Line) and shape.stroke == "thin").points[0][1]
    assert (floor - curve(picture).points[-1][1]) / 140 == pytest.approx(0.8)


def test_the_median_is_marked_where_it_is():
    picture = curve_chart(CURVE, 500)
    assert "half within 40 days" in said(picture)
    assert len([shape for shape in picture.shapes if isinstance(shape, Dot)]) == 1


def test_without_a_median_there_is_no_mark():
    picture = curve_chart(payment_curve([Wait(10, paid=True), *[Wait(20, paid=False)] * 4]), 500)
    assert not [shape for shape in picture.shapes if isinstance(shape, Dot)]


@pytest.mark.parametrize("width", [280, 540])
def test_the_band_lies_inside_the_picture(width):
    band = next(shape for shape in curve_chart(CURVE, width).shapes if isinstance(shape, Patch))
    assert all(0 <= x <= width and y >= 0 for x, y in band.points)


def test_a_payment_years_late_does_not_squeeze_the_curve():
    late = payment_curve([Wait(20, paid=True)] * 99 + [Wait(900, paid=True)])
    assert last_day_shown(late) == 30


def test_a_range_names_the_maker_and_its_half():
    assert {"Halden", "half by day 31"} <= set(said(range_chart([MakerSpeed("Halden", 9, 2, 20, 31, 44)], 500)))


def test_a_maker_that_paid_less_than_half_is_said_so():
    assert "under half paid" in said(range_chart([MakerSpeed("Halden", 4, 8, 20, None, None)], 500))


def test_a_maker_that_paid_nearly_nothing_is_said_so():
    picture = range_chart([MakerSpeed("Halden", 1, 11, None, None, None)], 500)
    assert "fewer than a quarter paid so far" in said(picture)


@pytest.mark.parametrize("width", [280, 399, 400, 540])
@pytest.mark.parametrize("curve", [CURVE, WAITING, paid_on(3), paid_on(20, 25), paid_on(*range(9, 1500, 90))])
def test_no_words_of_a_curve_stand_on_others_or_beyond_the_picture(width, curve):
    assert clashes(curve_chart(curve, width)) == []


@pytest.mark.parametrize("width", [280, 399, 400, 540])
def test_no_words_of_ranges_stand_on_others_or_beyond_the_picture(width):
    assert clashes(range_chart(MAKERS, width)) == []


def test_the_axes_and_what_cannot_be_said_stay_in_the_background():
    axis = {"days since filing", *map(str, range(0, 61, 10))}
    assert quiet_words(curve_chart(CURVE, 540)) == {"0 %", "25 %", "50 %", "75 %", "100 %", *axis}
    assert quiet_words(range_chart(MAKERS[::3], 540)) == {"fewer than a quarter paid so far", *axis}


def test_the_days_by_which_half_is_paid_stand_out():
    assert strong_words(curve_chart(CURVE, 540)) == {"half within 40 days"}
    assert strong_words(range_chart(MAKERS, 540)) == {"half by day 31", "half by day 131"}


@pytest.mark.parametrize(("draw", "what"), [(curve_chart, CURVE), (range_chart, MAKERS[:1])])
def test_every_marked_day_has_its_stroke_from_the_axis_down_to_its_number(draw, what):
    picture = draw(what, 540)
    axis, *strokes = lines_of(picture, "thin")
    (left, floor), (right, _) = axis
    places = [left + (right - left) * day / 60 for day in range(0, 61, 10)]
    assert [x for (x, _), _ in strokes] == pytest.approx(places)
    for day, (begun, ended) in zip(range(0, 61, 10), strokes, strict=True):
        number = word(picture, str(day))
        assert begun[1] == floor < ended[1] <= number.top < floor + 15
        assert (number.left + number.right) / 2 == pytest.approx(ended[0])


@pytest.mark.parametrize(("draw", "what"), [(curve_chart, CURVE), (range_chart, MAKERS[:1])])
def test_what_an_axis_counts_is_said_below_the_middle_of_it(draw, what):
    picture = draw(what, 540)
    (left, floor), (right, _) = lines_of(picture, "thin")[0]
    said = word(picture, "days since filing")
    assert (said.left + said.right) / 2 == pytest.approx((left + right) / 2)
    assert floor < said.top


def test_a_share_stands_at_its_line():
    picture = curve_chart(CURVE, 540)
    for share, line in zip((25, 50, 75, 100), lines_of(picture, "rule"), strict=True):
        said, (left, height) = word(picture, f"{share} %"), line[0]
        assert 4 < left - said.right < 8
        assert (said.top + said.bottom) / 2 == pytest.approx(height, abs=1)


def half_and_dot(*days):
    picture = curve_chart(paid_on(*days), 400)
    dot = next(shape.at for shape in picture.shapes if isinstance(shape, Dot))
    return word(picture, f"half within {days[1]} days"), dot


def test_the_half_is_said_to_the_right_of_its_dot_under_the_curve():
    said, (x, y) = half_and_dot(20, 40, 41)
    assert said.left - x == pytest.approx(8)
    assert 0 < said.top - y < 8


def test_the_half_is_said_to_the_left_of_its_dot_over_the_curve_where_the_right_has_no_room():
    said, (x, y) = half_and_dot(57, 57, 57)
    assert x - said.right == pytest.approx(8)
    assert 0 < y - said.bottom < 8


def test_what_is_paid_on_the_last_day_of_the_axis_is_drawn():
    waits = [*[Wait(20, paid=True)] * 98, *[Wait(25, paid=False)] * 100, Wait(30, paid=True), Wait(31, paid=False)]
    picture = curve_chart(payment_curve(waits), 500)
    assert last_day_shown(payment_curve(waits)) == 30
    assert "half within 30 days" in said(picture)
    before, after = curve(picture).points[-3:-1]
    assert before[0] == after[0]
    assert before[1] > after[1]


def test_the_half_is_said_within_the_axis_however_wide_it_is():
    for width in range(280, 420):
        picture = curve_chart(paid_on(20, 40, 41), width)
        assert word(picture, "half within 40 days").right <= width - 12


@pytest.mark.parametrize(("width", "marks"), [(303, "0 10 20 30"), (304, "0 5 10 15 20 25 30")])
def test_a_marked_day_has_44_points_or_more(width, marks):
    picture = curve_chart(paid_on(20), width)
    assert [each for each in said(picture) if each.isdigit()] == marks.split()


def test_the_band_rises_with_the_curve_and_ends_where_it_is_not_known():
    picture = curve_chart(paid_on(10, 20, 27), 500)
    band = next(shape for shape in picture.shapes if isinstance(shape, Patch))
    days = [10, 20, 27]
    assert sorted({round((x - 40) / (500 - 12 - 40) * 30, 6) for x, _ in band.points}) == [0, *days]
    heights = [[y for x, y in band.points if x == at] for at, _ in curve(picture).points[2:-2:2]]
    assert all(min(ys) < y < max(ys) for ys, (_, y) in zip(heights, curve(picture).points[2:-2:2], strict=True))


def test_the_axis_ends_three_days_or_more_behind_the_last_payment_in_whole_months():
    assert [last_day_shown(paid_on(day)) for day in (27, 28, 57, 58)] == [30, 60, 60, 90]


def test_an_axis_ends_where_98_in_a_hundred_are_paid():
    assert last_day_shown(paid_on(*[20] * 98, 900, 900)) == 30
    assert last_day_shown(paid_on(*[20] * 97, 900, 900, 900)) == 930


def test_nothing_paid_gives_an_axis_of_a_month():
    assert last_day_shown(payment_curve([Wait(90, paid=False)])) == 30


def ranges(picture):
    """The lines of ranges: a tuple of points each."""
    return lines_of(picture, "firm")


def test_a_range_lies_from_the_day_of_a_quarter_to_that_of_three_quarters_with_a_dot_at_half():
    picture = range_chart(MAKERS[:1], 540)
    (left, _), (right, _) = lines_of(picture, "thin")[0]
    day = (right - left) / 60
    line, begun, ended = ranges(picture)
    dot = next(shape.at for shape in picture.shapes if isinstance(shape, Dot))
    assert [(x - left) / day for x in (line[0][0], dot[0], line[1][0])] == pytest.approx([20, 31, 44])
    for stroke, x in ((begun, line[0][0]), (ended, line[1][0])):
        assert stroke == ((x, line[0][1] - 5), (x, line[0][1] + 5))


def test_a_range_that_is_open_ends_in_an_arrow_at_the_end_of_the_axis():
    picture = range_chart(MAKERS[2:3], 540)
    end = lines_of(picture, "thin")[0][1][0]
    arrow = ranges(picture)[-1]
    y = ranges(picture)[0][0][1]
    assert arrow == ((end - 5, y - 4), (end, y), (end - 5, y + 4))


def test_a_maker_is_named_before_its_range():
    picture = range_chart(MAKERS[:1], 400)
    name, (start, y) = word(picture, "Halden"), ranges(picture)[0][0]
    assert name.right < start
    assert name.top < y < name.bottom


def test_a_maker_is_named_above_its_range_on_a_narrow_picture():
    picture = range_chart(MAKERS[:1], 399)
    name, (_, y) = word(picture, "Halden"), ranges(picture)[0][0]
    assert y - 12 < name.bottom < y


def test_what_is_said_of_a_maker_stands_at_the_height_of_its_range_behind_it():
    picture = range_chart(MAKERS, 540)
    end, y = ranges(picture)[0][1]
    said = word(picture, "half by day 31")
    assert said.left - end == pytest.approx(7)
    assert said.top < y < said.bottom
    few, name = word(picture, "fewer than a quarter paid so far"), word(picture, "Fourth")
    assert (few.top, few.left) == pytest.approx((name.top, lines_of(picture, "thin")[0][0][0] + 4))


def test_every_maker_has_a_row_of_its_own_above_the_axis():
    picture = range_chart(MAKERS, 540)
    rows = [word(picture, maker.maker).bottom for maker in MAKERS]
    assert all(later - earlier == pytest.approx(24) for earlier, later in itertools.pairwise(rows))
    assert rows[-1] < lines_of(picture, "thin")[0][0][1]


def test_the_name_of_a_maker_is_cut_where_its_range_begins():
    picture = range_chart([MakerSpeed("A maker with quite a long name indeed, Limited", 9, 2, 20, 31, 44)], 540)
    assert word(picture, said(picture)[0]).right < lines_of(picture, "thin")[0][0][0]


def test_the_name_of_a_maker_has_the_whole_of_a_narrow_picture():
    picture = range_chart([MakerSpeed("Halden " * 30, 9, 2, 20, 31, 44)], 280)
    assert said(picture)[0].endswith("…")
    assert 240 < word(picture, said(picture)[0]).right <= 280
