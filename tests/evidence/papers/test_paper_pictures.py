from __future__ import annotations

import io
import zlib

import numpy as np
import pytest
from evidence.drawn_papers import SECRET, a_paper, photo, pictures_in, placed, told_by
from evidence.pictures import gradient
from pikepdf import Array, Dictionary, Name

from claimpack.errors import BadInput
from claimpack.evidence.papers.paper_pictures import without_comments


def jpeg_2000():
    buffer = io.BytesIO()
    gradient().save(buffer, "JPEG2000")
    box = len(SECRET) + 8
    return buffer.getvalue() + box.to_bytes(4, "big") + b"xml " + SECRET


def reserved(marker):
    photo_ = photo()
    return photo_[:2] + bytes((0xFF, marker)) + (len(SECRET) + 2).to_bytes(2, "big") + SECRET + photo_[2:]


def longer_than_it_says():
    content = photo()
    at = content.index(b"\xff\xdb")
    length = int.from_bytes(content[at + 2 : at + 4], "big")
    table = (length + len(SECRET)).to_bytes(2, "big") + content[at + 4 : at + 2 + length] + SECRET
    return content[: at + 2] + table + content[at + 2 + length :]


JPEG = {"Filter": Name.DCTDecode}
KINDS = {
    "plain": (photo(), JPEG),
    "with parameters": (photo(), {**JPEG, "DecodeParms": Dictionary(ColorTransform=1)}),
    "in a list": (photo(), {"Filter": Array([Name.DCTDecode]), "DecodeParms": Array([Dictionary(ColorTransform=1)])}),
    "packed twice": (zlib.compress(photo()), {"Filter": Array([Name.FlateDecode, Name.DCTDecode])}),
    "progressive": (photo(progressive=True), JPEG),
    "reserved by the standard": (reserved(0xF3), JPEG),
    "reserved in another place": (reserved(0x4F), JPEG),
    "after its end": (photo() + SECRET, JPEG),
    "JPEG 2000": (jpeg_2000(), {"Filter": Name.JPXDecode}),
}


@pytest.mark.parametrize(("content", "entries"), KINDS.values(), ids=KINDS)
def test_nothing_but_its_pixels_leaves_the_shop(tmp_path, content, entries):
    paper = a_paper(tmp_path, lambda pdf: placed(pdf, content, **entries))
    assert SECRET not in told_by(paper)
    (shown,) = pictures_in(paper)
    assert abs(np.asarray(shown.convert("RGB"), int) - np.asarray(gradient(), int)).mean() < 3


@pytest.mark.parametrize(
    ("content", "entries"),
    [
        (photo()[:300], JPEG),
        (longer_than_it_says(), JPEG),
        (SECRET * 100, {"Filter": Name.JPXDecode}),
        (b"\0\0\0\1", {"Filter": Name.JBIG2Decode}),
        (bytes(9), {"Width": 20_000, "Height": 20_000}),
        (photo(), {"Filter": Array([Name.DCTDecode, Name.FlateDecode])}),
    ],
    ids=[
        "a damaged JPEG",
        "a table with something behind it",
        "no JPEG 2000",
        "a cut JBIG2",
        "too many pixels",
        "packed in no known way",
    ],
)
def test_a_picture_that_cannot_be_proved_is_refused_by_the_name_of_its_paper(tmp_path, content, entries):
    with pytest.raises(BadInput) as refused:
        a_paper(tmp_path, lambda pdf: placed(pdf, content, **entries))
    assert refused.value.what.startswith("r.pdf ")


@pytest.mark.parametrize(
    ("space", "shades"),
    [(Name.DeviceGray, 1), (Name.DeviceRGB, 3), (Array([Name.Indexed, Name.DeviceRGB, 0, b"abc"]), 1)],
    ids=["grey", "colour", "a table of colours"],
)
def test_what_follows_the_last_pixel_is_cut_off(tmp_path, space, shades):
    content = bytes(120 * 80 * shades) + SECRET
    paper = a_paper(tmp_path, lambda pdf: placed(pdf, content, ColorSpace=space))
    assert SECRET not in told_by(paper)
    assert pictures_in(paper)[0].size == (120, 80)


def test_a_stream_that_swells_is_refused_with_its_paper(tmp_path):
    swelling = zlib.compress(bytes(300_000_000), 9)
    with pytest.raises(BadInput, match=r"^r\.pdf "):
        a_paper(tmp_path, lambda pdf: placed(pdf, swelling, Filter=Name.FlateDecode))


def segment(number, kind, content):
    return number.to_bytes(4, "big") + bytes((kind, 0, 1)) + len(content).to_bytes(4, "big") + content


def test_comments_of_a_fax_picture_are_left_behind():
    drawn = segment(0, 48, b"page") + segment(2, 38, b"dots")
    assert without_comments(segment(0, 48, b"page") + segment(1, 62, SECRET) + segment(2, 38, b"dots")) == drawn


def test_a_comment_behind_a_segment_that_refers_to_many_is_left_behind():
    # ITU-T T.88, 7.2.4: more than four are counted in four bytes, with a bit each, and one more, after them
    many = bytes((0, 0, 0, 9, 38, 0xE0, 0, 0, 8, 0, 0, *range(8), 1, 0, 0, 0, 4)) + b"dots"
    assert without_comments(many + segment(10, 62, SECRET)) == many
