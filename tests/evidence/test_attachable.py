from __future__ import annotations

import io

import numpy as np
import pikepdf
import pytest
from claim_folders import receipt
from evidence.pictures import camera_exif, shown, stored
from PIL import Image, PngImagePlugin

from claimpack.evidence.attachable import attachable

GPS, MAKER_NOTE = 0x8825, 0x927C


def a_jpeg(tmp_path, **options):
    return stored(tmp_path / "a.jpg", **options).read_bytes()


def told(**tags):
    """A block of tags that tells when a picture was taken, and more."""
    exif = Image.Exif()
    exif[0x0132] = "2026:02:05 09:10:00"
    for ifd, entries in tags.items():
        exif.get_ifd(int(ifd[1:], 16)).update(entries)
    return exif


def test_a_picture_with_nothing_beside_it_is_attached_as_it_is(tmp_path):
    plain = a_jpeg(tmp_path)
    assert attachable(plain)[::2] == (plain, True)


def test_the_time_it_was_taken_may_leave_the_shop(tmp_path):
    dated = a_jpeg(tmp_path, exif=told())
    assert attachable(dated)[::2] == (dated, True)


@pytest.mark.parametrize(
    "exif", [told(x8825={1: "N"}), told(x8769={MAKER_NOTE: b"x"}), camera_exif()], ids=["place", "maker note", "phone"]
)
def test_a_picture_that_tells_more_is_attached_without_it(tmp_path, exif):
    whole = a_jpeg(tmp_path, exif=exif)
    copy = attachable(whole)
    assert (copy.as_it_is, GPS in Image.open(io.BytesIO(copy.content)).getexif()) == (False, False)
    assert np.array_equal(shown(copy.content), shown(whole))


@pytest.mark.parametrize("more", [{"comment": "in the yard"}, {"xmp": b"<x/>"}])
def test_comments_and_descriptions_stay_with_the_shop(tmp_path, more):
    copy = attachable(a_jpeg(tmp_path, **more))
    assert (copy.as_it_is, b"yard" in copy.content, b"<x/>" in copy.content) == (False, False, False)


def test_what_follows_the_end_of_a_picture_stays_with_the_shop(tmp_path):
    copy = attachable(a_jpeg(tmp_path) + b"a film of the yard")
    assert (copy.as_it_is, b"yard" in copy.content) == (False, False)


def test_a_copy_is_held_the_same_way_up(tmp_path):
    exif = told(x8825={1: "N"})
    exif[0x0112] = 6
    assert Image.open(io.BytesIO(attachable(a_jpeg(tmp_path, exif=exif)).content)).getexif()[0x0112] == 6


@pytest.mark.parametrize("said", ["", "in the yard"])
def test_a_png_is_attached_without_its_texts(said):
    texts, stream = PngImagePlugin.PngInfo(), io.BytesIO()
    if said:
        texts.add_text("where", said)
    Image.new("RGB", (9, 9)).save(stream, "PNG", pnginfo=texts)
    copy = attachable(stream.getvalue())
    assert (copy.as_it_is, b"yard" in copy.content) == (not said, False)
    assert np.array_equal(shown(copy.content), shown(stream.getvalue()))


def test_a_pdf_with_nothing_but_pages_is_attached_as_it_is():
    assert attachable(receipt(), b"printed")[::2] == (receipt(), True)


def test_a_pdf_with_something_beside_its_pages_is_attached_as_printed():
    stream = io.BytesIO()
    with pikepdf.open(io.BytesIO(receipt())) as pdf:
        pdf.attachments["where.txt"] = b"in the yard"
        pdf.save(stream)
    assert attachable(stream.getvalue(), b"printed")[::2] == (b"printed", False)


@pytest.mark.parametrize("content", [b"", b"\xff\xd8 cut off", b"\x89PNG\r\n\x1a\n cut off", b"RIFF....WEBP"])
def test_what_cannot_be_cleaned_is_not_attached(content):
    assert attachable(content) is None
