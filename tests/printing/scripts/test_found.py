from __future__ import annotations

import io
import sys
from types import SimpleNamespace

import pytest
from fontTools.fontBuilder import FontBuilder
from fontTools.pens.ttGlyphPen import TTGlyphPen
from fontTools.ttLib import TTFont
from PIL import ImageFont
from reportlab.pdfbase import pdfmetrics

from claimpack.printing.scripts import found
from claimpack.printing.scripts.found import face_for, file_of, has

EXTRAS = ("justmytype_intl_cjk", "justmytype_intl_rtl")


@pytest.mark.parametrize(("script", "letter"), [("Hebrew", "ש"), ("Arabic", "م")])
def test_the_extra_brings_a_typeface(script, letter):
    pytest.importorskip("justmytype_intl_rtl")
    face = face_for(script)
    assert face is not None
    assert (has(face, letter), has(face, "山")) == (True, False)


def test_a_found_typeface_can_be_drawn_in_pictures():
    pytest.importorskip("justmytype_intl_rtl")
    font = ImageFont.truetype(io.BytesIO(file_of(face_for("Hebrew")).read()), 20)
    assert font.getlength("ש") > 5


def test_of_a_typeface_of_many_weights_the_regular_one_is_taken():
    pytest.importorskip("justmytype_intl_cjk")
    pytest.importorskip("uharfbuzz")
    font = TTFont(file_of(face_for("Japanese")))
    assert ("fvar" in font, font["OS/2"].usWeightClass) == (False, 400)


def forget():
    for each in (found.face_for, found.orders_leftward, found._files):  # noqa: SLF001
        each.cache_clear()


@pytest.fixture
def bare(monkeypatch, tmp_path):
    """A machine that no typeface was looked for on yet, without the extra; a folder to put some into."""
    monkeypatch.setattr(pdfmetrics, "_fonts", dict(pdfmetrics._fonts))  # noqa: SLF001
    for extra in EXTRAS:
        monkeypatch.setitem(sys.modules, extra, None)
    for key, place in (("HOME", "home"), ("WINDIR", "Windows"), ("LOCALAPPDATA", "Local")):
        monkeypatch.setenv(key, str(tmp_path / place))
    forget()
    yield tmp_path
    forget()


def put_a_typeface(path, letters):
    """A typeface that has these letters, all alike."""
    pen = TTGlyphPen(None)
    pen.moveTo((0, 0))
    for corner in ((0, 500), (500, 500), (500, 0)):
        pen.lineTo(corner)
    pen.closePath()
    font = FontBuilder(1000, isTTF=True)
    font.setupGlyphOrder([".notdef", "a"])
    font.setupCharacterMap(dict.fromkeys(map(ord, letters), "a"))
    font.setupGlyf(dict.fromkeys([".notdef", "a"], pen.glyph()))
    font.setupHorizontalMetrics(dict.fromkeys([".notdef", "a"], (600, 0)))
    font.setupHorizontalHeader(ascent=800, descent=-200)
    font.setupNameTable({"familyName": "Own", "styleName": "Regular", "psName": "Own-Regular"})
    font.setupOS2()
    font.setupPost()
    path.parent.mkdir(parents=True)
    font.save(path)


@pytest.mark.parametrize(
    ("system", "folder"),
    [
        ("win32", "Windows/Fonts"),
        ("win32", "Local/Microsoft/Windows/Fonts"),
        ("darwin", "home/Library/Fonts"),
        ("linux", "home/.fonts"),
        ("linux", "home/.local/share/fonts"),
    ],
)
def test_a_typeface_is_found_where_the_system_keeps_those_of_a_person(bare, monkeypatch, system, folder):
    monkeypatch.setattr(found, "sys", SimpleNamespace(platform=system))
    put_a_typeface(bare / folder / "NotoSansKR.ttf", "한글")
    assert face_for("Korean") is not None


@pytest.mark.parametrize(
    ("script", "serves"), [("Japanese", True), ("Chinese", True), ("Korean", True), ("Hebrew", False)]
)
def test_a_typeface_for_all_of_the_east_serves_each_of_its_scripts(bare, monkeypatch, script, serves):
    monkeypatch.setattr(found, "sys", SimpleNamespace(platform="darwin"))
    put_a_typeface(bare / "home/Library/Fonts/wqy-microhei.ttf", "あア中公한글אב")
    assert (face_for(script) is not None) is serves


def test_a_typeface_that_lacks_the_letters_it_is_called_by_is_passed_over(bare, monkeypatch):
    monkeypatch.setattr(found, "sys", SimpleNamespace(platform="darwin"))
    put_a_typeface(bare / "home/Library/Fonts/NotoSansKR.ttf", "한")
    assert face_for("Korean") is None


@pytest.mark.parametrize("lacks", ["arabic_reshaper", "bidi.algorithm"])
def test_letters_that_run_to_the_left_are_set_only_where_they_can_be_put_in_order(bare, monkeypatch, lacks):
    monkeypatch.setattr(found, "sys", SimpleNamespace(platform="darwin"))
    put_a_typeface(bare / "home/Library/Fonts/NotoSansHebrew.ttf", "אב")
    put_a_typeface(bare / "home/Library/Fonts/more/NotoSansKR.ttf", "한글")
    monkeypatch.setitem(sys.modules, lacks, None)
    assert (face_for("Hebrew"), face_for("Korean") is not None) == (None, True)
