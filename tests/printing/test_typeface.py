from __future__ import annotations

from importlib.resources import files

import pytest
from fontTools.ttLib import TTFont

from claimpack.printing.typeface import described, printable, unprintable


def cmap(name):
    """The characters of a typeface as another reader finds them."""
    return set(TTFont(str(files("claimpack") / "fonts" / f"NotoSans{name}.ttf")).getBestCmap())


def test_what_the_typeface_has_is_printed_as_it_is():
    every = "".join(map(chr, sorted(cmap("-Regular") - {0, 13})))
    assert (printable(every), unprintable([every])) == (every, [])


@pytest.mark.parametrize("face", ["-Bold", "-Italic"])
def test_whatever_is_printed_plain_can_be_printed_strong(face):
    assert cmap("-Regular") <= cmap(face)


@pytest.mark.parametrize(
    ("mark", "shown"),
    [("中", "[U+4E2D]"), ("😀", "[U+1F600]"), ("\x07", "[U+0007]"), ("م", "[U+0645]")],
    ids=["another script", "beyond four digits", "control", "right to left"],
)
def test_what_no_typeface_has_is_shown_by_its_number(mark, shown):
    assert printable(f"a{mark}b") == f"a{shown}b"


def test_line_ends_and_tabs_are_left_to_who_sets_the_text():
    assert (printable("a\tb\nc"), unprintable(["a\tb\nc"])) == ("a\tb\nc", [])


def test_missing_characters_are_told_once_in_order():
    assert unprintable(["中文", "文é", "あ"]) == ["あ", "中", "文"]


def test_nothing_to_print_misses_nothing():
    assert (printable(""), unprintable([]), unprintable([""])) == ("", [], [])


@pytest.mark.parametrize(
    ("mark", "said"), [("é", "U+00E9 LATIN SMALL LETTER E WITH ACUTE"), ("\x07", "U+0007 without a name")]
)
def test_a_character_is_described_by_number_and_name(mark, said):
    assert described(mark) == said
