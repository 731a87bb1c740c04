from __future__ import annotations

import io

import numpy as np
import pytest
from evidence.pictures import camera_exif, gradient, shown, srgb_profile, stored

from claimpack.evidence.pictures.jpeg_segments import without_metadata
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
