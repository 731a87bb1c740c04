from __future__ import annotations

import itertools
from datetime import date

import pytest
from builders import TODAY, a_claim, a_plan, a_window

from claimpack.core.judging.assessment import assess
from claimpack.packet.drawing.timeline import Scale, events, flags, in_order, on_the_line, scale_for, state_of, ticks

WIDTH = 500.0
LABEL = 95.0


def assessed(plan=None, **changes):
    return assess(a_claim(**changes), [plan or a_plan()], TODAY)


def test_a_day_stands_where_its_share_of_the_time_puts_it():
    scale = Scale(date(2025, 1, 1), date(2026, 1, 1), 100, 465)
    assert [scale.at(day) for day in (date(2025, 1, 1), date(2025, 1, 11), date(2026, 1, 1))] == [100, 110, 465]


def test_a_scale_of_one_day_does_not_divide_by_nothing():
    assert Scale(TODAY, TODAY, 100, 400).at(TODAY) == 100


def test_the_scale_reaches_from_the_start_to_the_latest_last_day():
    plan = a_plan(window=[a_window(), a_window(id="long", period="P10Y")])
    found = assessed(plan)
    scale = scale_for(found, found.windows, 0, 1)
    assert (scale.first, scale.last) == (date(2025, 3, 14), date(2035, 3, 14))


def test_events_of_one_day_are_one_event():
    day = "2026-02-05"
    found = events(assessed(dates={"purchased": day, "failed": day, "presented": day}))
    assert [(event.roles, event.judged) for event in found] == [(("start", "failed", "presented"), True)]


def test_the_day_judged_on_is_marked():
    assert [event.on for event in events(assessed()) if event.judged] == [date(2026, 2, 5)]


def labels_of(placed, height=8.0):
    return [(flag.left, flag.right, flag.level * 11, flag.level * 11 + height) for flag in placed]


SPOTS = [0, 1, 30, 200, 201, 380, 440, 499]
FOURS = list(itertools.combinations(SPOTS, 4))


def overlap(one, other):
    return one[0] < other[1] and other[0] < one[1] and one[2] < other[3] and other[2] < one[3]


def test_labels_never_overlap():
    boxes = {poles: labels_of(flags(poles, [LABEL] * 4, WIDTH)) for poles in FOURS}
    assert [poles for poles in FOURS if any(overlap(*two) for two in itertools.combinations(boxes[poles], 2))] == []


def test_no_pole_crosses_a_label():
    pairs = [pair for poles in FOURS for pair in itertools.permutations(flags(poles, [LABEL] * 4, WIDTH), 2)]
    crossed = [
        (high.pole, low.pole) for high, low in pairs if high.level > low.level and low.left < high.pole < low.right
    ]
    assert crossed == []


@pytest.mark.parametrize("poles", [(0, 499), (498, 499), (0, 1), (250, 251)])
def test_labels_stay_inside_the_page(poles):
    placed = flags(poles, [LABEL, LABEL], WIDTH)
    assert all(flag.left >= 0 and flag.right <= WIDTH for flag in placed)


def test_labels_far_apart_fly_low():
    assert [flag.level for flag in flags([0, 150, 300, 499], [LABEL] * 4, WIDTH)] == [0, 0, 0, 0]


def test_labels_five_points_apart_share_a_row_and_nearer_ones_do_not():
    assert [flag.level for flag in flags([0, 100], [95, 95], 195)] == [0, 0]
    assert [flag.level for flag in flags([0, 99], [95, 95], 195)] == [0, 1]


def test_of_labels_that_find_no_room_side_by_side_as_few_rise_as_can_be():
    assert [flag.level for flag in flags([0, 1, 2, 3], [95] * 4, 98)] == [3, 2, 1, 0]
    assert [flag.level for flag in flags([0, 1, 200, 380], [95] * 4, 480)] == [1, 0, 0, 0]


def test_labels_too_wide_for_the_page_are_stacked():
    assert [flag.level for flag in flags([10, 20], [900, 900], WIDTH)] == [0, 1]


def test_labels_that_are_stacked_are_pushed_inside_the_edge():
    assert [(flag.left, flag.right) for flag in flags([400, 450], [300, 480], WIDTH)] == [(200, 500), (20, 500)]


@pytest.mark.parametrize(
    ("last", "labels"),
    [
        (date(2025, 6, 12), ["2025-04", "2025-05", "2025-06"]),
        (date(2026, 3, 14), ["2025-05", "2025-07", "2025-09", "2025-11", "2026-01", "2026-03"]),
        (date(2035, 3, 14), ["2026", "2028", "2030", "2032", "2034"]),
    ],
    ids=["90 days", "a year", "ten years"],
)
def test_ticks_suit_the_length_of_the_time(last, labels):
    scale = Scale(date(2025, 3, 14), last, 0, 260)
    assert [label for _, label in ticks(scale, 42)] == labels


def test_a_month_that_begins_with_the_line_or_ends_it_is_written():
    scale = Scale(date(2025, 1, 1), date(2025, 3, 1), 0, 260)
    assert [label for _, label in ticks(scale, 42)] == ["2025-01", "2025-02", "2025-03"]


@pytest.mark.parametrize("left", [0, 200])
def test_months_are_written_where_they_have_the_room_asked(left):
    scale = Scale(date(2025, 1, 1), date(2026, 1, 1), left, left + 1200)
    assert len(ticks(scale, 99)) == 13
    assert len(ticks(scale, 101)) == 7


def test_the_window_cited_comes_first_and_those_for_something_else_last():
    windows = [
        a_window(id="other", covers=["gearbox"]),
        a_window(id="short", period="P11M"),
        a_window(id="over", period="P90D"),
        a_window(id="long", period="P24M"),
    ]
    found = assessed(a_plan(window=windows))
    states = [(window.id, state_of(window, found.window)) for window in in_order(found)]
    assert states == [("long", "cited"), ("short", "open"), ("over", "closed"), ("other", "not for it")]


def test_a_window_that_waits_for_a_fact_is_unknown():
    found = assessed(a_plan(window=[a_window(hours="300")]), unit__hours=None)
    assert state_of(found.windows[0], found.window) == "unknown"


def test_windows_for_something_else_are_not_drawn():
    found = assessed(a_plan(window=[a_window(id="its"), a_window(id="other", covers=["starter"])]))
    assert [window.id for window in on_the_line(found)] == ["its"]


def test_where_no_window_applies_all_are_drawn():
    found = assessed(a_plan(window=[a_window(id="one", covers=["starter"]), a_window(id="two", covers=["starter"])]))
    assert [window.id for window in on_the_line(found)] == ["one", "two"]
