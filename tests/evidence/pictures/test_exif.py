from __future__ import annotations

import pytest
from evidence.pictures import camera_exif, stored
from PIL import Image

from claimpack.evidence.pictures.exif import camera_facts, moment
from claimpack.evidence.pictures.picture_files import open_picture


def facts(tmp_path, exif):
    return camera_facts(Image.open(stored(tmp_path / "a.jpg", exif=exif)))


@pytest.mark.parametrize(
    ("tags", "taken"),
    [
        ({0x9003: "2026:03:14 09:05:00", 0x9004: "2026:03:15 09:05:00"}, "2026-03-14T09:05:00"),
        ({0x9003: "    :  :     :  :  ", 0x9004: "2026:03:15 09:05:00"}, "2026-03-15T09:05:00"),
        ({0x9004: "2026:03:15 09:05:00", 0x9012: "+01:00", 0x9011: "-05:00"}, "2026-03-15T09:05:00+01:00"),
    ],
    ids=["original first", "digitized when the original is blank", "each with its own offset"],
)
def test_the_first_stamp_with_a_meaning_counts(tmp_path, tags, taken):
    exif = Image.Exif()
    exif.get_ifd(0x8769).update(tags)
    assert facts(tmp_path, exif).taken.isoformat() == taken


def test_the_file_stamp_counts_when_no_other_is_there(tmp_path):
    exif = Image.Exif()
    exif[0x0132] = "2026:03:16 10:00:00"
    assert facts(tmp_path, exif).taken.isoformat() == "2026-03-16T10:00:00"


@pytest.mark.parametrize("name", ["a.png", "a.webp", "a.tif"])
def test_facts_are_read_from_every_container(tmp_path, name):
    read = camera_facts(Image.open(stored(tmp_path / name, exif=camera_exif(6).tobytes())))
    assert (read.orientation, read.taken.isoformat()) == (6, "2026-03-14T09:05:00")


@pytest.mark.parametrize(
    "stamp", ["2026:02:30 09:05:00", "2026:13:01 09:05:00", "2026:03:14 25:00:00", "2026:03:14", "", None, 7, b"x"]
)
def test_a_stamp_no_calendar_has_is_unknown(stamp):
    assert moment(stamp) is None


@pytest.mark.parametrize("offset", ["", "   :  ", "Z", "+99:00", "-5", None, 5])
def test_an_offset_without_meaning_leaves_the_local_time(offset):
    assert moment("2026:03:14 09:05:00", offset).isoformat() == "2026-03-14T09:05:00"


@pytest.mark.parametrize("name", ["a.jpg", "a.png"])
def test_a_broken_block_is_told(tmp_path, name):
    path = stored(tmp_path / name, exif=b"Exif\0\0broken beyond reading")
    assert camera_facts(Image.open(path)).broken


def test_no_block_is_not_a_broken_one(tmp_path):
    assert not camera_facts(Image.open(stored(tmp_path / "a.jpg"))).broken


@pytest.mark.parametrize("orientation", [3, 6, 8])
def test_nothing_is_left_to_turn_of_a_heic_that_its_decoder_turned(tmp_path, orientation):
    pytest.importorskip("pillow_heif").register_heif_opener()
    path = stored(tmp_path / "a.heic", exif=camera_exif(orientation).tobytes())
    with open_picture(path, "a.heic") as source:
        assert camera_facts(source.picture).orientation == 1
