import itertools
from decimal import Decimal

import pytest
from laid_out import clashes, lines_of, quiet_words, strong_words, word

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


LYING = [bar(1, 2, 3), bar(3, 0, 3, label="A maker with quite a long name indeed"), bar(0, 0, 0, label="Tessaly Pumps")]
MONTHS = [Pillars(f"Month {place}", (Decimal(100 - place), Decimal(50))) for place in range(20)]


@pytest.mark.parametrize("width", [280, 399, 400, 540])
def test_no_words_of_bars_stand_on_others_or_on_a_bar_or_beyond_the_picture(width):
    assert clashes(lying_bars(LYING, KINDS, width)) == []
    assert clashes(standing_bars(MONTHS, ("claimed", "paid"), width, str)) == []


def test_a_bar_is_named_at_its_height_before_it():
    picture = lying_bars(LYING, KINDS, 400)
    lying = boxes(picture)[0]
    (x, begun), (_, ended) = lines_of(picture, "thin")[0]
    for said in (word(picture, "Halden"), word(picture, "1.00 USD")):
        assert lying.top < said.top
        assert said.bottom < lying.top + lying.height
    assert word(picture, "Halden").right < x == lying.left
    assert begun < lying.top
    assert boxes(picture)[-1].top + 14 < ended <= picture.height


def test_a_bar_of_a_narrow_picture_is_named_right_above_it():
    picture = lying_bars(LYING, KINDS, 399)
    lying, said = boxes(picture)[0], word(picture, "Halden")
    assert (said.left, lines_of(picture, "thin")) == (0, [])
    assert 0 < lying.top - said.bottom < 3


def test_what_a_bar_says_stands_out_behind_its_end_and_the_longest_ends_at_the_edge():
    picture = lying_bars(LYING[:1], KINDS, 540)
    last, said = boxes(picture)[-1], word(picture, "1.00 USD")
    assert said.left - (last.left + last.width) == pytest.approx(5)
    assert picture.width - said.right == pytest.approx(3)
    assert strong_words(picture) == {"1.00 USD"}


def test_each_bar_lies_in_a_row_of_its_own():
    wide, narrow = ([box.top for box in boxes(lying_bars([bar(1, 0, 0)] * 3, KINDS, width))] for width in (540, 399))
    assert [later - earlier for earlier, later in itertools.pairwise(wide)] == [21, 21]
    assert [later - earlier for earlier, later in itertools.pairwise(narrow)] == [35, 35]


def test_the_key_goes_on_below_where_a_row_is_full():
    kinds = tuple(f"a kind of some length {place}" for place in range(3))
    picture = lying_bars([bar(1, 2, 3)], kinds, 280)
    patches, names = boxes(picture, above=0)[:3], [word(picture, kind) for kind in kinds]
    assert [(box.left, box.top) for box in patches] == [(0, 2), (pytest.approx(names[0].right + 19), 2), (0, 20)]
    for patch, name in zip(patches, names, strict=True):
        assert name.left - patch.left == 19
        assert patch.top < (name.top + name.bottom) / 2 < patch.top + patch.height
    assert max(name.bottom for name in names) < boxes(picture, above=0)[3].top


def test_a_single_kind_has_no_key():
    assert words(lying_bars([Bar("Halden", (Decimal(1),), "said")], ("all",), 540)) == ["Halden", "said"]


def test_amounts_of_an_axis_stand_quietly_at_their_lines():
    picture = standing_bars([Pillars("Jan 26", (Decimal(100), Decimal(50)))], ("claimed", "paid"), 500, "{:.0f}".format)
    ticks = ["0", "20", "40", "60", "80", "100"]
    heights = [line[0] for line in (*lines_of(picture, "thin"), *lines_of(picture, "rule"))]
    for tick, (left, height) in zip(ticks, heights, strict=True):
        said = word(picture, tick)
        assert left - said.right == pytest.approx(6)
        assert said.top < height < said.bottom
    assert quiet_words(picture) == {"Jan 26", *ticks}


def test_bars_of_a_group_stand_side_by_side_around_its_name():
    first, second = boxes(picture := standing_bars(MONTHS[:1], ("claimed", "paid"), 540, str))
    assert first.left + first.width == pytest.approx(second.left)
    assert (word(picture, "Month 0").left + word(picture, "Month 0").right) / 2 == pytest.approx(second.left)


def test_groups_have_a_fifth_of_their_width_between_them_and_stay_in_the_picture():
    picture = standing_bars(MONTHS[-room_for(280) :], ("claimed", "paid"), 280, str)
    first, second, third = boxes(picture)[:3]
    step = third.left - first.left
    assert third.left - (second.left + second.width) == pytest.approx(step / 5)
    last = boxes(picture)[-1]
    assert 280 - (last.left + last.width) == pytest.approx(step / 10)
