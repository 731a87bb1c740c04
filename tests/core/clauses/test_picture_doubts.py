import datetime as dt

import pytest

from claimpack.core.clauses.picture_doubts import (
    USUAL,
    PictureLimits,
    PictureMeasured,
    alike,
    of_another_day,
    picture_doubts,
)

GOOD = PictureMeasured(4000, 3000, brightest=700, burnt=10, blurred=300)
CAME_IN, TODAY = dt.date(2026, 2, 5), dt.date(2026, 2, 9)


def keys(limits=USUAL, shot="", **measured):
    return [doubt.key for doubt in picture_doubts(GOOD._replace(**measured), shot, limits)]


def test_a_good_picture_is_not_doubted():
    assert keys() == []


@pytest.mark.parametrize(
    ("measured", "limit", "step", "key"),
    [("brightest", 280, -1, "dark"), ("burnt", 300, 1, "burnt"), ("blurred", 600, 1, "blurred")],
)
def test_a_limit_itself_is_still_good(measured, limit, step, key):
    told = [keys(**{measured: limit + steps * step}) for steps in (-1, 0, 1)]
    assert told == [[], [], [key]]


@pytest.mark.parametrize(("edge", "told"), [(641, []), (640, []), (639, ["small"])])
def test_the_longer_edge_counts(edge, told):
    assert keys(width=300, height=edge) == told


def test_a_dark_picture_is_not_told_to_be_blurred_too():
    assert keys(brightest=100, blurred=900) == ["dark"]


def test_a_shot_may_need_more_pixels_than_others():
    limits = PictureLimits(shots={"Serial plate": 1000}).over(USUAL)
    told = [keys(limits, shot, width=800, height=600) for shot in ("serial plate", "whole unit", "")]
    assert told == [["small"], [], []]


def test_the_nearer_limits_win_key_by_key():
    plan, shop = PictureLimits(long_edge=1200), PictureLimits(long_edge=900, dark="0.1")
    limits = plan.over(shop).over(USUAL)
    assert (limits.long_edge, str(limits.dark), limits.blurred) == (1200, "0.1", USUAL.blurred)


@pytest.mark.parametrize(("day", "told"), [(4, True), (5, False), (9, False), (10, True)])
def test_a_picture_is_of_the_days_the_unit_is_in_the_shop(day, told):
    taken = dt.datetime.fromisoformat(f"2026-02-{day:02}T23:59")
    assert bool(of_another_day(taken, CAME_IN, TODAY)) == told


def test_a_picture_without_a_time_is_not_doubted_for_its_day():
    assert of_another_day(None, CAME_IN, TODAY) == []


def test_of_two_pictures_that_look_alike_the_later_is_told():
    first = GOOD._replace(likeness="00ff00ff00ff00ff")
    found = alike([("a.jpg", first), ("b.jpg", first._replace(likeness="00ff00ff00ff00fe")), ("c.jpg", GOOD)])
    assert {file: doubt.key for file, doubt in found.items()} == {"b.jpg": "alike"}


def test_a_doubt_is_one_line_that_says_what_to_do():
    told = picture_doubts(GOOD._replace(blurred=900), "", USUAL)[0].said("a.jpg")
    assert told == "a.jpg is blurred. Take it again, held still, and tap the screen on the part to focus."
