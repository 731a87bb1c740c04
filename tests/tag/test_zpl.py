"""Labels are read back by a decoder of the test's own, and the codes on them by another library's."""

from __future__ import annotations

import re

import pytest
import zxingcpp
from PIL import Image, ImageChops

from claimpack.tag.draw import tag_picture
from claimpack.tag.zpl import tag_zpl

LABEL = re.compile(rb"\^XA\n\^PW(\d+)\n\^LL(\d+)\n\^LH0,0\n\^FO0,0\^GFA,(\d+),(\d+),(\d+),([0-9A-F]+)\^FS\n\^XZ\n")


def decoded(label):
    """The picture that a printer burns: a set bit is a black dot."""
    width, length, told, counted, across = map(int, LABEL.fullmatch(label).groups()[:5])
    dots = bytes.fromhex(LABEL.fullmatch(label)[6].decode())
    assert len(dots) == told == counted == across * length
    return Image.frombytes("1", (across * 8, length), bytes(byte ^ 0xFF for byte in dots)), width


@pytest.mark.parametrize("dpi", [203, 300])
def test_both_codes_are_read_from_the_dots(a_tag, a_stock, dpi):
    picture, _ = decoded(tag_zpl([a_tag()], a_stock("label-4x6"), dpi))
    assert {code.text for code in zxingcpp.read_barcodes(picture.convert("L"))} == {"26-0041/1"}


def test_the_dots_are_those_of_the_picture_and_what_fills_up_a_row_is_white(a_tag, a_stock):
    stock = a_stock("roll-62mm")
    picture, width = decoded(tag_zpl([a_tag()], stock, 300))
    drawn = tag_picture(a_tag(), stock, 300)
    burnt, beyond = picture.crop((0, 0, width, drawn.height)), picture.crop((width, 0, picture.width, picture.height))
    assert ImageChops.difference(burnt.convert("L"), drawn.convert("L")).getbbox() is None
    assert (picture.width > width == drawn.width, beyond.convert("L").getextrema()) == (True, (255, 255))


def test_several_tags_are_labels_one_behind_the_other(a_tag, a_stock):
    written = tag_zpl([a_tag(), a_tag(place=2)], a_stock("label-4x6"), 203)
    assert len(LABEL.findall(written)) == 2
