"""Stamps read without the picture library are those that it reads; it is asked wherever they are not plain."""

from __future__ import annotations

import random
from pathlib import Path

import pytest
from evidence.pictures import END, START, camera_exif, frame, scan, segment, stored

from claimpack.errors import ClaimpackError
from claimpack.evidence.pictures.exif import camera_facts, taken_at
from claimpack.evidence.pictures.picture_files import open_picture
from claimpack.evidence.pictures.plain_stamps import LARGEST, plain_stamps

SAMPLES = sorted((Path(__file__).resolve().parents[3] / "sample_claims").glob("*/photos/*.jpg"))


def by_library(path):
    with open_picture(path, path.name) as source:
        return camera_facts(source.picture).taken


@pytest.mark.parametrize("path", SAMPLES, ids=lambda path: f"{path.parts[-3]}/{path.name}")
def test_every_sample_photo_is_plain_and_taken_when_the_library_says(path):
    assert plain_stamps(path) is not None
    assert taken_at(path, path.name) == by_library(path)


@pytest.mark.parametrize("seed", range(60))
def test_a_photo_changed_in_its_head_is_read_as_the_library_reads_it_or_left_to_it(tmp_path, seed):
    chance, content = (
        random.Random(seed),
        bytearray(stored(tmp_path / "a.jpg", exif=camera_exif(6).tobytes()).read_bytes()),
    )
    for _ in range(chance.randint(1, 3)):
        content[chance.randrange(2, min(len(content), 400))] = chance.choice((0, 1, 2, 0xFF, chance.randrange(256)))
    path = tmp_path / "b.jpg"
    path.write_bytes(content)
    if plain_stamps(path) is not None:
        assert taken_at(path, path.name) == by_library(path)


def test_a_photo_without_stamps_is_of_no_day(tmp_path):
    assert plain_stamps(stored(tmp_path / "a.jpg")) == {}


@pytest.mark.parametrize("name", ["a.png", "a.tif", "a.webp"])
def test_other_pictures_are_left_to_the_library(tmp_path, name):
    assert plain_stamps(stored(tmp_path / name, exif=camera_exif(6).tobytes())) is None


def test_a_block_that_is_broken_is_left_to_the_library(tmp_path):
    assert plain_stamps(stored(tmp_path / "a.jpg", exif=b"Exif\0\0broken beyond reading")) is None


def test_a_stamp_that_lies_outside_the_block_is_left_to_the_library(tmp_path):
    assert plain_stamps(stored(tmp_path / "a.jpg", exif=camera_exif(6).tobytes()[:80])) is None


def test_what_is_wrong_with_a_photo_is_told_as_ever(tmp_path):
    path = tmp_path / "a.jpg"
    path.write_bytes(b"\xff\xd8\xff\xe0 no picture")
    with pytest.raises(ClaimpackError):
        taken_at(path, path.name)


DAY, SHOT = (0x0132, 2, b"2026:02:05 09:10:00\0"), (0x9003, 2, b"2026:02:04 08:00:00\0")
SIZES = {2: 1, 3: 2, 4: 4, 7: 1}


def directory(order, entries, at, following=bytes(4)):
    """A directory that begins so far into its block, and the values too long for it behind (TIFF 6.0, section 2)."""
    values, listed = b"", len(entries).to_bytes(2, order)
    for tag, kind, value in entries:
        placed = (at + 2 + 12 * len(entries) + len(following) + len(values)).to_bytes(4, order)
        count = (len(value) // SIZES[kind]).to_bytes(4, order)
        listed += tag.to_bytes(2, order) + kind.to_bytes(2, order) + count
        listed += value.ljust(4, b"\0") if len(value) <= 4 else placed
        values += value if len(value) > 4 else b""
    return listed + following + values


def block(*entries, inner=(), order="little", pointer=4):
    """A block of EXIF with one directory, and another inside it if it has entries."""
    start = (b"II*\0" if order == "little" else b"MM\0*") + (8).to_bytes(4, order)
    if inner:
        at = 8 + len(directory(order, [*entries, (0x8769, pointer, bytes(SIZES[pointer]))], 8))
        entries = (*entries, (0x8769, pointer, at.to_bytes(SIZES[pointer], order)))
        return start + directory(order, entries, 8) + directory(order, inner, at)
    return start + directory(order, entries, 8)


def stamps(tmp_path, *parts):
    """The stamps of a picture with these segments before its scan."""
    path = tmp_path / "a.jpg"
    path.write_bytes(START + b"".join(parts) + scan() + END)
    return plain_stamps(path)


def exif(told):
    return segment(0xE1, b"Exif\0\0" + told)


READ = {0x0132: "2026:02:05 09:10:00\0", 0x9003: "2026:02:04 08:00:00\0"}


@pytest.mark.parametrize("order", ["little", "big"])
def test_stamps_are_read_from_both_directories_in_either_order_of_bytes(tmp_path, order):
    assert stamps(tmp_path, exif(block(DAY, inner=[SHOT], order=order)), frame()) == READ


@pytest.mark.parametrize(
    ("told", "read"),
    [
        (block(DAY), {0x0132: READ[0x0132]}),
        (block(inner=[(0x9010, 2, b"+1\0")]), {0x9010: "+1\0"}),
        (block(inner=[(0x9011, 2, b"+01\0")]), {0x9011: "+01\0"}),
        (block(DAY, inner=[(0x0132, 2, b"1999:01:01 00:00:00\0")]), {0x0132: READ[0x0132]}),
        (block((0x010F, 2, b"Ashby Optical\0"), DAY), {0x0132: READ[0x0132]}),
        (block(inner=[(0x9003, 2, b"")]), {}),
    ],
    ids=["one", "short", "of four bytes", "the file's before the other", "beside others", "empty"],
)
def test_a_stamp_is_read_wherever_its_tag_stands(tmp_path, told, read):
    assert stamps(tmp_path, exif(told), frame()) == read


@pytest.mark.parametrize(
    "told",
    [
        block(DAY, DAY),
        block((0x0132, 7, DAY[2])),
        block(DAY, inner=[SHOT], pointer=3),
        block(DAY, (0x8769, 7, (8).to_bytes(4, "little"))),
        block(DAY, (0x8769, 4, (8).to_bytes(8, "little"))),
        block(DAY)[:-1],
        block((0x010F, 2, b"ab\0"))[:-1],
        block()[:8] + b"\2\0\x32\1\2\0\x14\0\0\0" + bytes(4) + b"\x0f\1\2\0\x14\0\0\0" + bytes(8),
        b"XX" + block(DAY)[2:],
    ],
    ids=[
        "twice",
        "no text",
        "a short place",
        "a place of another kind",
        "two places",
        "cut",
        "no next one",
        "values over one another",
        "no order",
    ],
)
def test_a_block_that_is_not_plain_is_left_to_the_library(tmp_path, told):
    assert stamps(tmp_path, exif(told), frame()) is None


@pytest.mark.parametrize(
    ("parts", "plain"),
    [
        ([frame()], True),
        ([frame(components=1)], True),
        ([frame(components=4)], False),
        ([frame(), frame()], False),
        ([frame(bits=12)], False),
        ([], False),
        ([frame(high=0)], False),
        ([frame(high=10_000, wide=10_000)], True),
        ([frame(high=10_000, wide=10_001)], False),
        ([segment(0xE0, b"JFIF\0" + bytes(9)), frame()], True),
        ([segment(0xE0, b"JFIF\0" + bytes(8)), frame()], False),
        ([segment(0xE0, b"JFXX"), frame()], True),
        ([segment(0xE2, b"ICC_PROFILE\0\1\1"), frame()], True),
        ([segment(0xE2, b"ICC_PROFILE\0\1"), frame()], False),
        ([segment(0xED, b"Photoshop"), frame()], False),
        ([frame(0xC2), *[scan()] * 31], True),
        ([frame(0xC2), *[scan()] * 32], False),
    ],
)
def test_only_a_picture_the_library_finds_no_fault_with_is_read_without_it(tmp_path, parts, plain):
    assert stamps(tmp_path, *parts) == ({} if plain else None)


def test_two_blocks_and_files_that_are_none_are_left_to_the_library(tmp_path):
    assert stamps(tmp_path, exif(block(DAY)), exif(block(DAY)), frame()) is None
    assert plain_stamps(tmp_path) is None
    assert plain_stamps(tmp_path / "none.jpg") is None


def test_a_file_too_large_to_be_read_whole_is_left_to_the_library(tmp_path):
    path = tmp_path / "a.jpg"
    path.write_bytes(START + frame() + scan() + END)
    with path.open("r+b") as file:
        file.truncate(LARGEST + 1)
    assert plain_stamps(path) is None
