"""Orientation and time stamps as the Exif standard and Pillow's own transpose have them."""

from __future__ import annotations

import io
from datetime import UTC, datetime

import numpy as np
import pytest
from PIL import ExifTags, Image, ImageOps

from claimpack.evidence.pictures.exif import camera_facts, moment, taken_at
from claimpack.evidence.pictures.photos import PrintSize, prepare

FULL = PrintSize(long_edge=96, quality=95)
LETTERS = "ABC/DEF"
SHADES = {letter: 20 + 40 * number for number, letter in enumerate("ABCDEF")}


def rows(text, cell=16):
    shades = np.array([[SHADES[letter] for letter in row] for row in text.split("/")], np.uint8)
    return Image.fromarray(np.kron(shades, np.ones((cell, cell), np.uint8)))


def letters(jpeg, cell=16):
    pixels = np.asarray(Image.open(io.BytesIO(jpeg)).convert("L"), int)[cell // 2 :: cell, cell // 2 :: cell]
    return "/".join("".join(min(SHADES, key=lambda k: abs(SHADES[k] - shade)) for shade in row) for row in pixels)


def photographed(path, orientation=None, **stamps):
    exif = Image.Exif()
    if orientation is not None:
        exif[ExifTags.Base.Orientation] = orientation
    exif.get_ifd(ExifTags.IFD.Exif).update({ExifTags.Base[name]: value for name, value in stamps.items()})
    rows(LETTERS).save(path, quality=95, exif=exif)
    return path


# F2, F5: rows of a 3 x 2 picture after each orientation.
TURNED = {
    1: "ABC/DEF",
    2: "CBA/FED",
    3: "FED/CBA",
    4: "DEF/ABC",
    5: "AD/BE/CF",
    6: "DA/EB/FC",
    7: "FC/EB/DA",
    8: "CF/BE/AD",
}


@pytest.mark.source("JEITA CP-3451 (Exif 2.2) p. 18, tag 274; Pillow ImageOps.exif_transpose")
@pytest.mark.parametrize(("orientation", "expected"), TURNED.items())
def test_rows_and_columns_stand_where_the_standard_puts_them(tmp_path, orientation, expected):
    path = photographed(tmp_path / "a.jpg", orientation)
    assert letters(prepare(path, "a.jpg", FULL).jpeg) == expected


@pytest.mark.source("Pillow ImageOps.exif_transpose")
@pytest.mark.parametrize("orientation", range(1, 9))
def test_pillow_turns_the_same_way(tmp_path, orientation):
    path = photographed(tmp_path / "a.jpg", orientation)
    theirs = np.asarray(ImageOps.exif_transpose(Image.open(path)), int)
    ours = np.asarray(Image.open(io.BytesIO(prepare(path, "a.jpg", FULL).jpeg)), int)
    assert np.abs(ours - theirs).max() <= 6


@pytest.mark.source("JEITA CP-3451 (Exif 2.2) p. 18: default 1, other values reserved")
@pytest.mark.parametrize("orientation", [None, 0, 9])
def test_no_orientation_and_a_reserved_one_mean_top_left(tmp_path, orientation):
    path = photographed(tmp_path / "a.jpg", orientation)
    assert letters(prepare(path, "a.jpg", FULL).jpeg) == LETTERS


@pytest.mark.source("Pillow ImageOps.exif_transpose: width and height swapped for 5 to 8")
@pytest.mark.parametrize(("orientation", "size"), [(4, (48, 32)), (5, (32, 48)), (8, (32, 48))])
def test_orientations_from_five_swap_width_and_height(tmp_path, orientation, size):
    photo = prepare(photographed(tmp_path / "a.jpg", orientation), "a.jpg", FULL)
    assert (photo.width, photo.height) == (photo.original_width, photo.original_height) == size


@pytest.mark.source("Pillow ImageOps.exif_transpose: the tag is removed after turning")
@pytest.mark.parametrize("orientation", range(1, 9))
def test_no_orientation_is_left_to_turn_the_picture_again(tmp_path, orientation):
    photo = prepare(photographed(tmp_path / "a.jpg", orientation), "a.jpg", FULL)
    assert ExifTags.Base.Orientation not in Image.open(io.BytesIO(photo.jpeg)).getexif()


@pytest.mark.source("Pillow ExifTags: 0x9003 original, 0x9004 digitized, 0x0132 date and time, 0x8769 Exif IFD")
@pytest.mark.parametrize("tag", [0x9003, 0x9004])
def test_the_stamps_are_read_from_their_numbers(tmp_path, tag):
    exif = Image.Exif()
    exif.get_ifd(0x8769)[tag] = "2026:03:14 09:05:00"
    rows(LETTERS).save(tmp_path / "a.jpg", exif=exif)
    assert taken_at(tmp_path / "a.jpg", "a.jpg").isoformat() == "2026-03-14T09:05:00"


@pytest.mark.memory
def test_a_stamp_without_offset_has_no_zone(tmp_path):
    # Exif 2.3: "2026:03:14 09:05:00", nineteen characters and a NUL.
    path = photographed(tmp_path / "a.jpg", DateTimeOriginal="2026:03:14 09:05:00")
    assert taken_at(path, path.name).isoformat() == "2026-03-14T09:05:00"


@pytest.mark.memory
def test_an_offset_makes_it_a_moment(tmp_path):
    # Exif 2.31: OffsetTimeOriginal -05:00, so 14:05 in Greenwich.
    path = photographed(tmp_path / "a.jpg", DateTimeOriginal="2026:03:14 09:05:00", OffsetTimeOriginal="-05:00")
    assert taken_at(path, path.name) == datetime(2026, 3, 14, 14, 5, tzinfo=UTC)


@pytest.mark.memory
@pytest.mark.parametrize("stamp", ["    :  :     :  :  ", "0000:00:00 00:00:00", "Sunday, 11am", " " * 19, "\0" * 19])
def test_blanks_zeros_and_free_text_are_an_unknown_date(stamp):
    # Exif 2.3: unknown is written as blanks; the free text stands in a public Exif test file.
    assert moment(stamp) is None


@pytest.mark.source("Pillow ExifTags.GPS: 0x8825, tags 1 to 4")
@pytest.mark.parametrize("orientation", [1, 6], ids=["copied", "turned"])
def test_the_place_is_stripped(tmp_path, orientation):
    exif = Image.Exif()
    exif[0x0112] = orientation
    exif.get_ifd(0x8825).update({1: "N", 2: (51.0, 30.0, 0.0), 3: "W", 4: (0.0, 7.0, 0.0)})
    rows(LETTERS).save(tmp_path / "a.jpg", exif=exif)
    assert camera_facts(Image.open(tmp_path / "a.jpg")).orientation == orientation
    read = Image.open(io.BytesIO(prepare(tmp_path / "a.jpg", "a.jpg", FULL).jpeg))
    assert dict(read.getexif().get_ifd(0x8825)) == {}
