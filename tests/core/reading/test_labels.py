import re

import pytest

from claimpack.core.reading.labels import behind
from claimpack.core.reading.read_text import Spot, TextRead

SERIAL = re.compile(r"SERIAL No[ .:]*(?P<value>.*)")


def line(text, x, y, width=0.1, height=0.03):
    return TextRead(text, "letters", Spot(x, y, width, height))


def values(*lines):
    return [value for value, _ in behind(SERIAL, lines)]


def test_what_stands_on_the_line_of_the_word_is_behind_it():
    assert values(line("SERIAL No. 2041", 0.1, 0.4), line("2024", 0.3, 0.4)) == ["2041"]


@pytest.mark.parametrize("rise", [-0.03, -0.01, 0, 0.01, 0.03])
def test_what_stands_to_the_right_is_behind_it_however_the_plate_is_turned(rise):
    rows = [("MODEL", "X-1", 0.3), ("SERIAL No.", "2041", 0.4), ("MADE", "2024", 0.5)]
    placed = [(line(word, 0.1, y), line(value, 0.3, y + rise)) for word, value, y in rows]
    lines = sorted((each for row in placed for each in row), key=lambda each: each.spot.y)
    assert values(*lines) == ["2041"]


def test_what_stands_below_is_behind_a_word_with_nothing_beside_it():
    assert values(line("SERIAL No.", 0.1, 0.4), line("2041", 0.1, 0.45), line("2024", 0.1, 0.6)) == ["2041"]


WORD = ("SERIAL No.", 0.25, 0.5, 0.25, 0.125)


@pytest.mark.parametrize(("x", "meant"), [(0.34375, "2041"), (0.375, "2024"), (0.40625, "2024")])
def test_what_begins_under_the_first_half_of_a_word_does_not_stand_beside_it(x, meant):
    under = line("2024", x, 0.5625, 0.25, 0.125)
    assert values(line(*WORD), under, line("2041", 0.875, 0.5, 0.1, 0.125)) == [meant]


@pytest.mark.parametrize(("rise", "found"), [(0.25, ["2041"]), (0.3125, ["2041"]), (0.375, [])])
def test_what_stands_beside_a_word_lies_two_heights_and_a_half_higher_or_lower_at_most(rise, found):
    assert [values(line(*WORD), line("2041", 0.625, 0.5 + way * rise, 0.1, 0.125)) for way in (-1, 1)] == [found] * 2


@pytest.mark.parametrize(("drop", "found"), [(0.25, ["2041"]), (0.3125, []), (0.375, [])])
def test_what_stands_below_a_word_lies_less_than_two_heights_and_a_half_lower(drop, found):
    assert values(line(*WORD), line("2041", 0.25, 0.5 + drop, 0.1, 0.125)) == found


def test_a_text_stands_on_the_line_that_its_middle_lies_on_however_high_it_is():
    high, low = line("2041", 0.625, 0.375, 0.1, 0.375), line("2024", 0.625, 0.5625, 0.1, 0.125)
    assert values(line(*WORD), low, high) == ["2041"]


@pytest.mark.parametrize("x", [0.0, 0.125])
def test_what_stands_to_the_left_of_a_word_is_not_behind_it(x):
    assert values(line(*WORD), line("2041", x, 0.5, 0.125, 0.125)) == []


def test_a_code_beside_a_word_is_not_behind_it():
    assert values(line(*WORD), TextRead("2041", "code", Spot(0.625, 0.5, 0.1, 0.125))) == []


@pytest.mark.parametrize("after", [(), (TextRead("2041", "code"),)], ids=["nothing", "a code"])
def test_where_lines_lie_nowhere_only_a_line_that_follows_is_behind_a_word(after):
    assert values(TextRead("SERIAL No.", "text"), *after) == []


def test_where_lines_lie_nowhere_the_next_one_is_behind_it():
    assert values(TextRead("SERIAL No.", "text"), TextRead("2041", "text"), TextRead("2024", "text")) == ["2041"]


def test_a_word_with_nothing_near_it_has_nothing_behind_it():
    assert values(line("SERIAL No.", 0.1, 0.4), line("2024", 0.1, 0.9)) == []
