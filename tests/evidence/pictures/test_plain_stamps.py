"""Stamps read without the picture library are those that it reads; it is asked wherever they are not plain."""

from __future__ import annotations

import random
from pathlib import Path

import pytest
from evidence.pictures import camera_exif, stored

from claimpack.errors import ClaimpackError
from claimpack.evidence.pictures.exif import camera_facts, taken_at
from claimpack.evidence.pictures.picture_files import open_picture
from claimpack.evidence.pictures.plain_stamps import plain_stamps

SAMPLES = sorted((Path(__file__).resolve().parents[3] / "sample_claims").glob("*/photos/*.jpg"))


def by_library(path):
    with open_picture(path, path.name, hashed=False) as source:
        return camera_facts(source.picture).taken


@pytest.mark.parametrize("path", SAMPLES, ids=lambda path: f"{path.parts[-3]}/{path.name}")
def test_every_sample_photo_is_plain_and_taken_when_the_library_says(path):
    assert plain_stamps(path) is not None
    assert taken_at(path) == by_library(path)


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
        assert taken_at(path) == by_library(path)


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
        taken_at(path)
