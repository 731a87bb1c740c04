from __future__ import annotations

import io

import numpy as np
import pytest
from evidence.pictures import END, START, camera_exif, frame, gradient, scan, segment, shown, srgb_profile, stored

from claimpack.evidence.pictures.jpeg_segments import scan_count, up_to_the_scan, without_metadata
from claimpack.evidence.pictures.photos import PrintSize, prepare

SMALL = PrintSize(long_edge=60)
LARGE = PrintSize(long_edge=500)


def scan_of(jpeg):
    return jpeg[jpeg.index(b"\xff\xda") :]


def test_an_upright_picture_small_enough_is_not_encoded_again(tmp_path):
    path = stored(tmp_path / "a.jpg", exif=camera_exif(), icc_profile=srgb_profile(), comment="in the yard")
    assert scan_of(prepare(path, "a.jpg", LARGE).jpeg) == scan_of(path.read_bytes())


def test_a_progressive_picture_is_copied_scan_by_scan(tmp_path):
    path = stored(tmp_path / "a.jpg", progressive=True, exif=camera_exif())
    photo = prepare(path, "a.jpg", LARGE)
    assert scan_of(photo.jpeg) == scan_of(path.read_bytes())
    assert np.array_equal(shown(photo.jpeg), shown(path.read_bytes()))


def test_what_follows_the_end_of_the_picture_is_left_behind(tmp_path):
    path = stored(tmp_path / "a.jpg")
    plain = path.read_bytes()
    path.write_bytes(plain + b"a film of the yard")
    assert prepare(path, "a.jpg", LARGE).jpeg.endswith(plain[-20:])


def jpeg(**options):
    buffer = io.BytesIO()
    gradient().save(buffer, "JPEG", **options)
    return buffer.getvalue()


def test_the_copy_shows_the_same_pixels():
    original = jpeg(exif=camera_exif(), comment="in the yard")
    assert np.array_equal(shown(without_metadata(original)), shown(original))


def test_the_adobe_segment_stays_for_it_tells_the_colours():
    buffer = io.BytesIO()
    gradient(mode="CMYK").save(buffer, "JPEG")
    assert np.array_equal(shown(without_metadata(buffer.getvalue())), shown(buffer.getvalue()))


def test_restart_markers_do_not_end_the_scan():
    original = jpeg(restart_marker_rows=1)
    assert scan_of(without_metadata(original)) == scan_of(original)


def test_a_thumbnail_in_the_first_segment_is_left_behind():
    original = jpeg()
    thumbnail = b"\xff\xe0\x00\x13JFIF\x00\x01\x01\x00\x00\x01\x00\x01\x01\x01abc"
    assert b"abc" not in without_metadata(original[:2] + thumbnail + original[20:])[:40]


@pytest.mark.parametrize("length", [0, 1, 2, 3, 10, 30, 200, 700, -2, -1])
def test_a_picture_cut_anywhere_is_not_copied(length):
    assert without_metadata(jpeg()[:length]) is None


@pytest.mark.parametrize("frame", [0xC3, 0xC9], ids=["lossless", "arithmetic"])
def test_coding_that_a_pdf_does_not_show_is_not_copied(frame):
    original = jpeg()
    assert without_metadata(original.replace(b"\xff\xc0", bytes([0xFF, frame]), 1)) is None


TABLE = b"\0" + bytes([1]) + bytes(15) + b"\7"


@pytest.mark.parametrize(
    "part",
    [
        segment(0xDB, bytes(65)),
        segment(0xDB, b"\x10" + bytes(128)),
        segment(0xDB, bytes(65) + b"\x11" + bytes(128)),
        segment(0xC4, TABLE),
        segment(0xC4, TABLE + TABLE),
        segment(0xDD, bytes(2)),
        segment(0xEE, b"Adobe" + bytes(7)),
        b"\xff\xff" + segment(0xDD, bytes(2)),
    ],
    ids=["quantizing", "of 16 bits", "both", "huffman", "two", "restart", "adobe", "fill bytes before"],
)
def test_segments_that_draw_are_copied_as_they_are(part):
    rest = frame() + scan() + END
    assert without_metadata(START + part + rest) == START + part.removeprefix(b"\xff\xff") + rest


@pytest.mark.parametrize(
    "part",
    [
        segment(0xFE, b"in the yard"),
        segment(0xFE, b""),
        segment(0xE1, b"Exif\0\0"),
        segment(0xE0, b"JFXX\0" + bytes(9)),
        segment(0xEE, b"Adobe" + bytes(8)),
        segment(0xEE, b"Yards" + bytes(7)),
        segment(0xF7, b"yard"),
    ],
    ids=["comment", "empty comment", "exif", "other start", "long adobe", "not adobe", "unknown"],
)
def test_segments_that_draw_nothing_are_left_behind(part):
    rest = frame() + scan() + END
    assert without_metadata(START + part + rest) == START + rest


@pytest.mark.parametrize(
    "whole",
    [
        segment(0xDB, bytes(66)) + frame() + scan() + END,
        segment(0xDB, b"\x10" + bytes(65)) + frame() + scan() + END,
        segment(0xC4, TABLE + b"\0") + frame() + scan() + END,
        segment(0xDD, bytes(3)) + frame() + scan() + END,
        frame(more=b"yard") + scan() + END,
        frame() + scan(more=b"yard") + END,
        frame(bits=12) + scan() + END,
        frame(0xC1, bits=12) + scan() + END,
        b"\0" + frame() + scan() + END,
        frame() + scan(),
        frame()[:-1],
    ],
    ids=["table", "wide", "huffman", "restart", "frame", "scan", "12 bits", "extended", "gap", "no end", "cut"],
)
def test_a_picture_that_holds_more_than_it_says_or_is_not_whole_is_not_copied(whole):
    assert without_metadata(START + whole) is None


@pytest.mark.parametrize(
    ("whole", "count"),
    [
        (frame() + scan() + END, 1),
        (frame() + scan(1) * 3 + END, 3),
        (frame(components=1) + scan(1) + scan(1) + END, 1),
        (frame(0xC2) + scan() + END, 1),
        (frame(0xC2) + scan() * 4 + END, 4),
        (frame(0xC2) + scan() * 5 + END, 5),
        (frame(0xC2) + scan() * 9 + END, 5),
        (frame(0xC2) + b"\0" + scan() * 9, 9),
        (b"\0" + scan() * 2, 2),
        (frame() + END, 0),
    ],
    ids=["one", "a colour each", "grey", *("progressive",) * 4, "a gap", "no picture", "no scan"],
)
def test_scans_are_counted_no_further_than_one_above_the_most(whole, count):
    assert scan_count(START + whole, 4) == count


@pytest.mark.parametrize("part", [segment(0xFE, b"c"), segment(0xE5, b"a"), segment(0xDD, bytes(2)), b""])
def test_what_stands_before_the_scan_ends_with_the_head_of_the_scan(part):
    found = up_to_the_scan(START + part + frame() + scan() + b"not looked at")
    assert b"".join(content for _, content in found) == part + frame() + scan()[:-4]


@pytest.mark.parametrize("part", [END, segment(0xF7, b"x"), segment(0xDD, bytes(3)), frame(0xC3), b"\0"])
def test_what_no_plain_picture_has_before_its_scan_is_refused(part):
    with pytest.raises(ValueError, match=r"."):
        up_to_the_scan(START + part + frame() + scan() + END)
