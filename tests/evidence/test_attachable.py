from __future__ import annotations

import io
import zlib

import numpy as np
import pikepdf
import pytest
from claim_folders import receipt
from evidence.pictures import camera_exif, shown, stored
from PIL import Image, PngImagePlugin

from claimpack.evidence.attachable import attachable
from claimpack.evidence.pictures.jpeg_segments import without_metadata

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
    copy = attachable(original := a_jpeg(tmp_path, exif=exif)).content
    assert Image.open(io.BytesIO(copy)).getexif()[0x0112] == 6
    assert without_metadata(copy) == without_metadata(original)


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


def test_a_png_cut_off_in_its_last_bytes_is_not_attached(tmp_path):
    assert attachable(stored(tmp_path / "a.png").read_bytes()[:-1]) is None


@pytest.mark.parametrize("content", [b"", b"\xff\xd8 cut off", b"\x89PNG\r\n\x1a\n cut off", b"RIFF....WEBP"])
def test_what_cannot_be_cleaned_is_not_attached(content):
    assert attachable(content) is None


def held(block):
    """A block of EXIF as the segment that holds it."""
    return b"\xff\xe1" + (len(block) + 8).to_bytes(2, "big") + b"Exif\0\0" + block


DATED = told().tobytes().removeprefix(b"Exif\0\0")
WITH_THUMBNAIL = (
    DATED[:8]
    + b"\0\1"
    + DATED[10:22]
    + len(DATED).to_bytes(4, "big")
    + DATED[26:]
    + b"\0\1\x01\x03\0\3\0\0\0\1\0\6\0\0\0\0\0\0"
)


@pytest.mark.parametrize(
    ("blocks", "as_it_is"),
    [
        ((DATED,), True),
        ((DATED + bytes(64),), True),
        ((DATED + bytes(120),), False),
        ((DATED, DATED), False),
        ((b"broken beyond reading",), False),
        ((WITH_THUMBNAIL,), False),
    ],
    ids=["dated", "as laid out by another writer", "room to hide in", "two blocks", "not read", "a thumbnail"],
)
def test_exif_that_may_hide_something_stays_with_the_shop(tmp_path, blocks, as_it_is):
    plain = without_metadata(a_jpeg(tmp_path))
    assert attachable(plain[:2] + b"".join(map(held, blocks)) + plain[2:]).as_it_is is as_it_is


def a_pdf(change=lambda pdf: None, **saved):
    """The receipt with something changed in it."""
    stream = io.BytesIO()
    with pikepdf.open(io.BytesIO(receipt())) as pdf:
        change(pdf)
        pdf.save(stream, **saved)
    return stream.getvalue()


def with_image(content, **keys):
    """A change that puts a picture on the first page."""

    def change(pdf):
        keys_told = {f"/{key}": value for key, value in keys.items()}
        image = pdf.make_stream(content, {"/Type": pikepdf.Name.XObject, "/Width": 120, "/Height": 80, **keys_told})
        pdf.pages[0].Resources["/XObject"] = pikepdf.Dictionary({"/Im0": image})

    return change


IMAGE, JPEG_FILTER = pikepdf.Name.Image, pikepdf.Name.DCTDecode
DEFLATED = pikepdf.Array([pikepdf.Name.FlateDecode, JPEG_FILTER])


def indirect_box(pdf):
    pdf.pages[0].MediaBox = pdf.make_indirect(pdf.pages[0].MediaBox)


def described(pdf):
    pdf.pages[0]["/PieceInfo"] = pikepdf.Dictionary()


def with_metadata(pdf):
    pdf.Root.Metadata = pdf.make_stream(b"<x/>")


def plain_jpeg(tmp_path):
    return without_metadata(a_jpeg(tmp_path))


@pytest.mark.parametrize(
    ("made", "as_it_is"),
    [
        (lambda _: a_pdf(indirect_box), True),
        (lambda _: a_pdf(described), False),
        (lambda _: a_pdf(with_metadata), False),
        (lambda _: a_pdf(encryption=pikepdf.Encryption(owner="a", user="")), False),
        (lambda _: a_pdf() + b"\n%%EOF\n", False),
        (lambda _: a_pdf()[:200], False),
        (lambda _: a_pdf(with_image(bytes(28800), Subtype=IMAGE)), True),
        (lambda _: a_pdf(with_image(b"q Q", Subtype=pikepdf.Name.Form)), True),
        (lambda at: a_pdf(with_image(plain_jpeg(at), Subtype=IMAGE, Filter=JPEG_FILTER)), True),
        (lambda at: a_pdf(with_image(a_jpeg(at, exif=camera_exif()), Subtype=IMAGE, Filter=JPEG_FILTER)), False),
        (lambda at: a_pdf(with_image(a_jpeg(at, exif=camera_exif()), Filter=JPEG_FILTER)), False),
        (lambda at: a_pdf(with_image(zlib.compress(plain_jpeg(at)), Subtype=IMAGE, Filter=DEFLATED)), False),
        (lambda _: a_pdf(with_image(b"boxes", Subtype=IMAGE, Filter=pikepdf.Name.JPXDecode)), False),
        (lambda _: a_pdf(with_image(b"q Q", Subtype=IMAGE, PieceInfo=pikepdf.Dictionary())), False),
    ],
    ids=[
        "a number apart",
        "what its writer kept",
        "metadata",
        "encrypted",
        "an earlier state",
        "cut off",
        "dots",
        "a form",
        "a plain picture",
        "a picture that tells more",
        "a picture that does not say it is one",
        "a picture packed twice",
        "a picture of boxes",
        "a picture with what its writer kept",
    ],
)
def test_a_pdf_is_attached_as_it_is_where_all_in_it_is_known_to_tell_nothing_more(tmp_path, made, as_it_is):
    original = made(tmp_path)
    assert attachable(original, b"printed")[::2] == (original if as_it_is else b"printed", as_it_is)
