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


def test_where_lines_lie_nowhere_the_next_one_is_behind_it():
    assert values(TextRead("SERIAL No.", "text"), TextRead("2041", "text"), TextRead("2024", "text")) == ["2041"]


def test_a_word_with_nothing_near_it_has_nothing_behind_it():
    assert values(line("SERIAL No.", 0.1, 0.4), line("2024", 0.1, 0.9)) == []
