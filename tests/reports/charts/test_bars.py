from decimal import Decimal

import pytest

from claimpack.reports.charts.bars import Bar, Pillars, lying_bars, nice_ticks, room_for, standing_bars
from claimpack.reports.charts.picture import Box, Lettering

KINDS = ("young", "middling", "old")


def bar(*amounts, label="Halden"):
    return Bar(label, tuple(Decimal(amount) for amount in amounts), "1.00 USD")


def boxes(picture, above=20):
    return [shape for shape in picture.shapes if isinstance(shape, Box) and shape.top > above]


def words(picture):
    return [shape.said for shape in picture.shapes if isinstance(shape, Lettering)]


def test_a_bar_is_as_long_as_its_amounts():
    short, long = boxes(lying_bars([bar(1, 0, 0), bar(3, 0, 0)], KINDS, 500))
    assert long.width == pytest.approx(3 * short.width)


def test_the_kinds_lie_end_to_end_with_a_fill_each():
    first, second, third = boxes(lying_bars([bar(1, 2, 3)], KINDS, 500))
    assert (first.fill, second.fill, third.fill) == ("blank", "stripes", "full")
    assert first.left + first.width == pytest.approx(second.left)


def test_the_key_names_every_kind():
    assert set(KINDS) <= set(words(lying_bars([bar(1, 2, 3)], KINDS, 500)))


@pytest.mark.parametrize("width", [280, 540])
def test_nothing_lies_outside_the_picture(width):
    picture = lying_bars([bar(1, 2, 3, label="A maker with quite a long name indeed, Limited")], KINDS, width)
    assert all(box.left >= 0 and box.left + box.width <= width for box in boxes(picture, above=0))


@pytest.mark.parametrize("label", ["Outside the coverage period", "Wear item", "Fuel contamination: not a defect"])
def test_a_label_that_just_fits_is_not_cut(label):
    assert label in words(lying_bars([bar(1, 0, 0, label=label)], KINDS, 524))


def test_a_label_too_long_is_cut_with_a_mark():
    assert any(said.endswith("…") for said in words(lying_bars([bar(1, 0, 0, label="Halden " * 30)], KINDS, 280)))


def test_standing_bars_rise_with_their_amounts():
    groups = [Pillars("Jan 26", (Decimal(100), Decimal(50)))]
    tall, low = boxes(standing_bars(groups, ("claimed", "paid"), 500, str))
    assert tall.height == pytest.approx(2 * low.height)


def test_the_latest_months_are_shown_where_not_all_have_room():
    groups = [Pillars(f"m{place}", (Decimal(1), Decimal(1))) for place in range(40)]
    shown = [said for said in words(standing_bars(groups, ("claimed", "paid"), 280, str)) if said.startswith("m")]
    assert shown == [f"m{place}" for place in range(40 - room_for(280), 40)]


def test_nothing_stands_where_nothing_was_claimed():
    groups = [Pillars("Jan 26", (Decimal(0), Decimal(0)))]
    assert boxes(standing_bars(groups, ("claimed", "paid"), 500, str)) == []


@pytest.mark.parametrize(
    ("highest", "ticks"),
    [
        ("7", [0, 2, 4, 6, 8]),
        ("100", [0, 20, 40, 60, 80, 100]),
        ("6890.53", [0, 2000, 4000, 6000, 8000]),
        ("0", [0, 1]),
    ],
)
def test_an_axis_counts_in_round_numbers_up_to_the_highest(highest, ticks):
    found = nice_ticks(Decimal(highest))
    assert found[0] == 0
    assert found[-1] >= Decimal(highest)
    assert len(found) <= 6
    assert highest == "0" or found == ticks


def test_standing_bars_stand_on_one_floor():
    picture = standing_bars([Pillars("Jan 26", (Decimal(100), Decimal(50)))], ("claimed", "paid"), 500, str)
    assert len({round(box.top + box.height, 6) for box in boxes(picture)}) == 1
    assert all(box.top + box.height <= picture.height for box in boxes(picture))


def test_the_name_of_a_group_stands_below_its_bars():
    picture = standing_bars([Pillars("2026-01", (Decimal(40), Decimal(20)))], KINDS[:2], 500, str)
    name = next(shape for shape in picture.shapes if isinstance(shape, Lettering) and shape.said == "2026-01")
    assert all(name.at[1] > box.top + box.height for box in boxes(picture))
