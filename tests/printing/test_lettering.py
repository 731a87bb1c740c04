from __future__ import annotations

import pytest

from claimpack.printing.lettering import escaped, page_text, shortened, text, under_points, width_of
from claimpack.printing.typeface import REGULAR


@pytest.mark.parametrize(
    ("content", "markup"),
    [
        ("<b>&amp;</b>", "&lt;b&gt;&amp;amp;&lt;/b&gt;"),
        ("one\ntwo", "one<br/>two"),
        ("a\tb", "a\u00a0\u00a0\u00a0\u00a0b"),
        ("  deep", "\u00a0\u00a0deep"),
        ("ไทย", "[Thai]"),
    ],
    ids=["markup", "line break", "tab", "indent", "no typeface"],
)
def test_text_becomes_markup_that_prints_it_literally(content, markup):
    assert escaped(content) == markup


def test_a_line_that_fits_is_left_alone():
    assert shortened("short", REGULAR, 8, 100) == "short"


@pytest.mark.parametrize("room", [12, 40, 90])
def test_a_line_too_long_is_cut_to_its_room_and_marked(room):
    cut = shortened("a line that goes on and on and on", REGULAR, 8, room)
    assert cut.endswith("…")
    assert width_of(cut, REGULAR, 8) <= room


@pytest.mark.parametrize("numbers", [["42", "0.2", "0.01"], ["1,240.5", "300"], ["over range", "7.25"]])
def test_decimal_points_stand_under_each_other(numbers):
    def to_the_point(number, piece):
        _, dot, tail = number.partition(".")
        return piece.style.rightIndent + width_of(dot + tail, piece.style.fontName, piece.style.fontSize)

    places = {round(to_the_point(*each), 6) for each in zip(numbers, under_points(numbers, "cell"), strict=True)}
    assert len(places) == 1


@pytest.mark.parametrize("set_as", [text, page_text])
def test_a_line_holds_no_more_than_95_characters(set_as):
    said = (
        "Four teeth of the drive gear broken out. Grease in place, seal whole: no water, no lack of service. "
        "Electric blade clutch: winding burnt, resistance far below its limit. Clutch gap in order, pulley turns "
        "freely. If the payment is on its way already, please take this letter as settled, with our thanks. "
    )
    paragraph = set_as(said * 4)
    paragraph.wrap(600, 10_000)
    lengths = [len(" ".join(words)) for _, words in paragraph.blPara.lines]
    assert 75 <= max(lengths) <= 95
