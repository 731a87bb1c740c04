from __future__ import annotations

from importlib.resources import files

import pytest
from fontTools.ttLib import TTFont
from PIL import ImageFont

from claimpack.printing.scripts.found import face_for
from claimpack.printing.typeface import BOLD, MONO, REGULAR, not_printed, printable, typeface_file, unprintable


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
    [("ไทย", "[Thai]"), ("😀", "[grinning face]"), ("\x07", "[U+0007]")],
    ids=["another script", "a sign", "without a name"],
)
def test_what_no_typeface_has_is_told_by_its_name(mark, shown):
    assert printable(f"a{mark}b") == f"a{shown}b"


def test_line_ends_and_tabs_are_left_to_who_sets_the_text():
    assert (printable("a\tb\nc"), unprintable(["a\tb\nc"])) == ("a\tb\nc", [])


def test_missing_characters_are_told_once_in_order():
    assert unprintable(["ไทย", "ยé", "😀"]) == ["Thai", "grinning face"]


def test_nothing_to_print_misses_nothing():
    assert (printable(""), unprintable([]), unprintable([""])) == ("", [], [])


@pytest.mark.parametrize("sign", "≤≥≈≠√∞→−°µ×½")
def test_the_signs_of_measures_are_in_every_typeface(sign):
    assert not [face for face in ("-Regular", "-Bold", "-Italic", "Mono-Regular") if ord(sign) not in cmap(face)]


@pytest.mark.parametrize(("name", "helps"), [("Japanese", True), ("Thai", False)])
def test_the_extra_is_named_where_it_would_help(name, helps):
    assert ("`fonts`" in not_printed(name)) is helps


@pytest.mark.parametrize(
    ("face", "name"),
    [(REGULAR, ("Noto Sans", "Regular")), (BOLD, ("Noto Sans", "Bold")), (MONO, ("Noto Sans Mono", "Regular"))],
)
def test_a_picture_is_lettered_in_the_typeface_of_the_pages(face, name):
    assert ImageFont.truetype(typeface_file(face), 20).getname() == name


@pytest.mark.skipif(face_for("Hebrew") is None, reason="no typeface for Hebrew on this machine")
def test_a_picture_is_lettered_in_a_found_typeface_too():
    assert ImageFont.truetype(typeface_file(face_for("Hebrew")), 20).getlength("\N{HEBREW LETTER SHIN}") > 5
