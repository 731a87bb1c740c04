import itertools

import pytest

from claimpack.core.reporting.payment_speed import MakerSpeed, Wait, payment_curve
from claimpack.reports.charts.curves import curve_chart, last_day_shown, range_chart
from claimpack.reports.charts.picture import Dot, Lettering, Line, Patch

CURVE = payment_curve([Wait(day, paid=True) for day in (10, 20, 40, 50)] + [Wait(55, paid=False)])


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
