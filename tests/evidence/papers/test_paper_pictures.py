from __future__ import annotations

import io
import zlib

import numpy as np
import pytest
from evidence.drawn_papers import SECRET, a_paper, photo, pictures_in, placed, told_by
from evidence.pictures import END, START, frame, gradient, scan, srgb_profile
from pikepdf import Array, Dictionary, Name
from PIL import Image

from claimpack.errors import BadInput
from claimpack.evidence.papers.paper_pictures import without_comments
from claimpack.evidence.pictures.picture_files import MOST_SCANS
from claimpack.pdf_limits import LARGEST_STREAM


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
    "with stray bytes between its segments": (photo()[:20] + b"\xff\x00" + photo()[20:], JPEG),
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
        (photo()[:20] + b"\xff\x00" + photo()[20:], {**JPEG, "DecodeParms": Dictionary(ColorTransform=1)}),
        (bytes(9), {"Width": 12_000, "Height": 10_001}),
        (photo(), {"Filter": Array([Name.DCTDecode, Name.FlateDecode])}),
    ],
    ids=[
        "a damaged JPEG",
        "a table with something behind it",
        "no JPEG 2000",
        "a cut JBIG2",
        "a JPEG with stray bytes whose colours are told beside it",
        "too many pixels",
        "packed in no known way",
    ],
)
def test_a_picture_that_cannot_be_proved_is_refused_by_the_name_of_its_paper(tmp_path, content, entries):
    with pytest.raises(BadInput) as refused:
        a_paper(tmp_path, lambda pdf: placed(pdf, content, **entries))
    assert refused.value.what.startswith("r.pdf ")


def test_the_largest_picture_is_taken(tmp_path):
    assert a_paper(tmp_path, lambda pdf: placed(pdf, bytes(9), Width=12_000, Height=10_000)).pages


@pytest.mark.parametrize(
    ("space", "shades"),
    [(Name.DeviceGray, 1), (Name.DeviceRGB, 3), (Array([Name.Indexed, Name.DeviceRGB, 0, b"abc"]), 1)],
    ids=["grey", "colour", "a table of colours"],
)
@pytest.mark.parametrize("packed", [False, True], ids=["as it is", "packed"])
def test_what_follows_the_last_pixel_is_cut_off(tmp_path, space, shades, packed):
    content = bytes(120 * 80 * shades) + SECRET
    stored = (zlib.compress(content), {"Filter": Name.FlateDecode}) if packed else (content, {})
    paper = a_paper(tmp_path, lambda pdf: placed(pdf, stored[0], ColorSpace=space, **stored[1]))
    assert SECRET not in told_by(paper)
    assert pictures_in(paper)[0].size == (120, 80)


SPACES = {
    "by a profile": lambda pdf: Array([Name.ICCBased, pdf.make_stream(srgb_profile(), N=3)]),
    "by inks": lambda _: Array([Name.DeviceN, Array([Name.Red, Name.Green, Name.Blue]), Name.DeviceRGB]),
}


@pytest.mark.parametrize("space", SPACES.values(), ids=SPACES)
def test_a_colour_space_tells_how_many_bytes_there_are(tmp_path, space):
    content = bytes(120 * 80 * 3) + SECRET
    assert SECRET not in told_by(a_paper(tmp_path, lambda pdf: placed(pdf, content, ColorSpace=space(pdf))))


@pytest.mark.parametrize(
    "space", [[], [Name.ICCBased], [Name.ICCBased, Name.X], [Name.DeviceN], [Name.DeviceN, Name.X]], ids=str
)
def test_a_picture_whose_colours_do_not_say_how_many_they_are_is_left_whole(tmp_path, space):
    content = b"dots" * (120 * 80)
    assert content in told_by(a_paper(tmp_path, lambda pdf: placed(pdf, content, ColorSpace=Array(space))))


def test_a_fax_is_left_as_it_is(tmp_path):
    fax, stream = gradient().convert("1"), io.BytesIO()
    fax.save(stream, "TIFF", compression="group4")
    with Image.open(stream) as tiff:
        (at,), (size,) = tiff.tag_v2[273], tiff.tag_v2[279]
    entries = {"Filter": Name.CCITTFaxDecode, "DecodeParms": Dictionary(K=-1, Columns=120, Rows=80)}
    coded = stream.getvalue()[at : at + size]
    mono = {"ColorSpace": Name.DeviceGray, "BitsPerComponent": 1}
    assert coded in told_by(a_paper(tmp_path, lambda pdf: placed(pdf, coded, **entries, **mono)))


def test_a_jpeg_2000_tells_its_colours_where_the_paper_does_not(tmp_path):
    def change(pdf):
        del placed(pdf, jpeg_2000(), Filter=Name.JPXDecode)["/ColorSpace"]

    (shown,) = pictures_in(a_paper(tmp_path, change))
    assert abs(np.asarray(shown.convert("RGB"), int) - np.asarray(gradient(), int)).mean() < 3


def test_a_jpeg_2000_of_numbers_in_a_table_keeps_its_colours(tmp_path):
    numbers, stream = Image.frombytes("L", (120, 80), bytes([0, 1]) * 4800), io.BytesIO()
    numbers.save(stream, "JPEG2000")
    table = Array([Name.Indexed, Name.DeviceRGB, 1, bytes([200, 0, 0, 0, 0, 200])])
    paper = a_paper(tmp_path, lambda pdf: placed(pdf, stream.getvalue(), Filter=Name.JPXDecode, ColorSpace=table))
    assert set(pictures_in(paper)[0].convert("RGB").get_flattened_data()) == {(200, 0, 0), (0, 0, 200)}


def test_a_picture_is_taken_in_as_many_passes_as_a_photo_and_no_more(tmp_path):
    def in_passes(count):
        return a_paper(tmp_path, lambda pdf: placed(pdf, START + frame(0xC2) + scan() * count + END, **JPEG))

    assert in_passes(MOST_SCANS).pages
    with pytest.raises(BadInput, match="passes"):
        in_passes(MOST_SCANS + 1)


def test_a_stream_that_swells_is_refused_with_its_paper(tmp_path):
    swelling = zlib.compress(bytes(LARGEST_STREAM + 1), 1)
    with pytest.raises(BadInput, match=r"^r\.pdf "):
        a_paper(tmp_path, lambda pdf: placed(pdf, swelling, Filter=Name.FlateDecode))


def segment(number, kind, content):
    return number.to_bytes(4, "big") + bytes((kind, 0, 1)) + len(content).to_bytes(4, "big") + content


def test_comments_of_a_fax_picture_are_left_behind():
    drawn = segment(0, 48, b"page") + segment(2, 38, b"dots")
    assert without_comments(segment(0, 48, b"page") + segment(1, 62, SECRET) + segment(2, 38, b"dots")) == drawn


@pytest.mark.parametrize(("number", "size"), [(256, 1), (257, 2), (65536, 2), (65537, 4)])
@pytest.mark.parametrize("page", [1, 4])
def test_a_comment_behind_a_segment_that_refers_to_another_is_left_behind(number, size, page):
    # ITU-T T.88, 7.2.5 and 7.2.6: a number referred to has a size by the segment's own; bit 6 says that a page has four
    kind = 38 | (0x40 if page == 4 else 0)
    refers = number.to_bytes(4, "big") + bytes((kind, 0x20)) + bytes(size) + bytes(page) + bytes((0, 0, 0, 4)) + b"dots"
    assert without_comments(refers + segment(9, 62, SECRET)) == refers


@pytest.mark.parametrize(("number", "size", "count"), [(9, 1, 8), (70_000, 4, 65_537)])
def test_a_comment_behind_a_segment_that_refers_to_many_is_left_behind(number, size, count):
    # ITU-T T.88, 7.2.4: more than four are counted in four bytes, with a bit each, and one more, after them
    counted = (0xE0000000 | count).to_bytes(4, "big") + bytes(-(-(count + 1) // 8))
    many = number.to_bytes(4, "big") + b"\x26" + counted + bytes(size * count) + bytes((1, 0, 0, 0, 4)) + b"dots"
    assert without_comments(many + segment(10, 62, SECRET)) == many
