from __future__ import annotations

import hashlib
import io
import os
import re
import threading

import numpy as np
import pypdfium2
import pytest
from evidence.pictures import camera_exif, gradient, shown, srgb_profile, stored
from PIL import Image, ImageOps
from reportlab.pdfgen.canvas import Canvas

from claimpack.errors import BadInput, NotFound
from claimpack.evidence.pictures.exif import taken_at
from claimpack.evidence.pictures.photos import PrintSize, prepare, prepare_all

SMALL = PrintSize(long_edge=60)
LARGE = PrintSize(long_edge=500)
PRIVATE = re.compile(rb"Exif\0\0|GPS|MAKERNOTE|Ashby|http://ns.adobe.com|ICC_PROFILE|in the yard", re.DOTALL)


def difference(one, other):
    return np.abs(one.astype(int) - other.astype(int)).mean()


def as_a_viewer_shows(jpeg, width, height):
    buffer = io.BytesIO()
    canvas = Canvas(buffer, pagesize=(width, height))
    canvas.drawInlineImage(Image.open(io.BytesIO(jpeg)), 0, 0, width, height)
    canvas.save()
    return np.asarray(pypdfium2.PdfDocument(buffer.getvalue())[0].render().to_pil().convert("RGB"))


@pytest.mark.parametrize("size", [SMALL, LARGE], ids=["cut down", "kept in size"])
@pytest.mark.parametrize("orientation", range(1, 9))
def test_every_orientation_comes_out_upright(tmp_path, orientation, size):
    path = stored(tmp_path / "a.jpg", exif=camera_exif(orientation), quality=95)
    photo = prepare(path, "a.jpg", size)
    upright = ImageOps.exif_transpose(Image.open(path)).resize((photo.width, photo.height))
    assert difference(shown(photo.jpeg), np.asarray(upright)) < 4


@pytest.mark.parametrize("orientation", range(1, 9))
def test_a_pdf_viewer_shows_every_orientation_upright(tmp_path, orientation):
    path = stored(tmp_path / "a.jpg", exif=camera_exif(orientation), quality=95)
    photo = prepare(path, "a.jpg", LARGE)
    upright = np.asarray(ImageOps.exif_transpose(Image.open(path)))
    assert difference(as_a_viewer_shows(photo.jpeg, photo.width, photo.height), upright) < 5


@pytest.mark.parametrize("orientation", range(1, 9))
def test_every_orientation_agrees_with_another_imaging_library(tmp_path, orientation):
    pyvips = pytest.importorskip("pyvips")
    path = stored(tmp_path / "a.jpg", exif=camera_exif(orientation), quality=95)
    theirs = pyvips.Image.new_from_file(str(path)).autorot().numpy()
    assert difference(shown(prepare(path, "a.jpg", LARGE).jpeg), theirs) < 4


@pytest.mark.parametrize("orientation", [0, 9, 4711])
def test_an_orientation_without_meaning_leaves_the_picture_as_stored(tmp_path, orientation):
    photo = prepare(stored(tmp_path / "a.jpg", exif=camera_exif(orientation)), "a.jpg", LARGE)
    assert (photo.width, photo.original_width) == (120, 120)


def test_the_size_of_the_original_is_told_upright(tmp_path):
    photo = prepare(stored(tmp_path / "a.jpg", exif=camera_exif(6)), "a.jpg", SMALL)
    assert (photo.original_width, photo.original_height, photo.width, photo.height) == (80, 120, 40, 60)


@pytest.mark.parametrize("size", [SMALL, LARGE], ids=["cut down", "kept in size"])
@pytest.mark.parametrize("name", ["a.jpg", "a.png", "a.tif", "a.webp", "a.heic"])
def test_location_and_maker_notes_never_leave_the_shop(tmp_path, name, size):
    heif = pytest.importorskip("pillow_heif")
    heif.register_heif_opener()
    exif = camera_exif().tobytes()
    path = stored(tmp_path / name, exif=exif, comment="in the yard", icc_profile=srgb_profile())
    photo = prepare(path, name, size)
    read = Image.open(io.BytesIO(photo.jpeg))
    assert not PRIVATE.search(photo.jpeg)
    assert dict(read.getexif()) == {}
    assert set(read.info) <= {"jfif", "jfif_version", "jfif_unit", "jfif_density"}


@pytest.mark.parametrize(("edge", "width"), [(93, 120), (92, 92), (60, 60)])
def test_a_picture_up_to_a_third_too_long_is_kept_as_it_comes(tmp_path, edge, width):
    assert prepare(stored(tmp_path / "a.jpg"), "a.jpg", PrintSize(edge)).width == width


@pytest.mark.parametrize(("longest", "kept"), [(129, True), (130, True), (131, False)])
def test_a_picture_is_kept_as_it_comes_up_to_thirteen_tenths_of_what_print_needs(longest, kept):
    assert PrintSize(100).fits((longest, 80)) is kept


def test_a_small_picture_is_not_enlarged(tmp_path):
    photo = prepare(stored(tmp_path / "a.png"), "a.png", PrintSize(1600))
    assert (photo.width, photo.height) == (120, 80)


def test_a_narrow_strip_keeps_at_least_one_row(tmp_path):
    photo = prepare(stored(tmp_path / "a.png", gradient(2000, 2)), "a.png", SMALL)
    assert (photo.width, photo.height) == (60, 1)


@pytest.mark.parametrize("mode", ["RGB", "L", "RGBA", "CMYK"])
def test_a_large_scan_read_in_bands_looks_like_the_whole(tmp_path, mode):
    scan = gradient(1001, 1507, mode)
    photo = prepare(stored(tmp_path / "a.tif", scan), "a.tif", PrintSize(100, 95))
    whole = scan.convert("RGB").resize((photo.width, photo.height), Image.Resampling.BICUBIC)
    assert difference(shown(photo.jpeg), np.asarray(whole)) < 3


def test_a_heic_picture_is_turned_once(tmp_path):
    pytest.importorskip("pillow_heif").register_heif_opener()
    path = stored(tmp_path / "a.heic", exif=camera_exif(6).tobytes(), quality=95)
    theirs = ImageOps.exif_transpose(Image.open(path))
    photo = prepare(path, "a.heic", LARGE)
    assert (photo.width, photo.height) == (80, 120)
    assert difference(shown(photo.jpeg), np.asarray(theirs.convert("RGB"))) < 6


def test_the_original_is_hashed_and_left_as_it_was(tmp_path):
    path = stored(tmp_path / "a.jpg", exif=camera_exif(6))
    before = path.read_bytes()
    photo = prepare(path, "a.jpg", SMALL)
    assert (photo.sha256, photo.original_bytes) == (hashlib.sha256(before).hexdigest(), len(before))
    assert path.read_bytes() == before


def test_the_same_photo_gives_the_same_bytes(tmp_path):
    path = stored(tmp_path / "a.png")
    assert prepare(path, "a.png", SMALL).jpeg == prepare(path, "a.png", SMALL).jpeg


def test_broken_exif_is_noted_and_the_picture_shown(tmp_path):
    path = stored(tmp_path / "a.jpg", exif=b"Exif\0\0broken beyond reading")
    photo = prepare(path, "a.jpg", LARGE)
    assert "is broken" in photo.notes[0]
    assert photo.taken is None


def test_photos_come_back_in_the_order_given(tmp_path):
    paths = [(f"{n}.png", stored(tmp_path / f"{n}.png", gradient(50 + n, 40))) for n in range(12)]
    assert [photo.width for photo in prepare_all(paths, LARGE)] == [50 + n for n in range(12)]


def test_progress_is_told_once_a_photo_from_the_callers_thread(tmp_path):
    told = []
    paths = [("a", stored(tmp_path / "a.jpg"))] * 5
    prepare_all(paths, SMALL, lambda: told.append(threading.current_thread()))
    assert told == [threading.current_thread()] * 5


def test_every_bad_photo_is_named_at_once(tmp_path):
    path = tmp_path / "x"
    path.write_bytes(b"my cat")
    with pytest.raises(BadInput) as refused:
        prepare_all([("a.jpg", path), ("b.jpg", stored(tmp_path / "b.jpg")), ("c.jpg", path)], SMALL)
    assert [line.split()[0] for line in refused.value.lines()[:2]] == ["a.jpg", "c.jpg"]


def test_one_photo_that_is_gone_is_refused_as_it_is_alone(tmp_path):
    with pytest.raises(NotFound):
        prepare_all([("a.jpg", tmp_path / "a.jpg"), ("b.jpg", stored(tmp_path / "b.jpg"))], SMALL)


@pytest.mark.parametrize(("size", "copied"), [(32_000_000, True), (32_000_001, False)])
def test_a_photo_so_heavy_that_it_would_fill_a_packet_is_encoded_anew(tmp_path, size, copied):
    path = stored(tmp_path / "a.jpg", quality=95)
    pixels = path.read_bytes()[-200:]
    os.truncate(path, size)
    assert (pixels in prepare(path, "a.jpg", LARGE).jpeg) is copied


def test_no_photos_are_no_work():
    assert prepare_all([], SMALL) == []


def test_the_time_of_taking_is_told_without_decoding(tmp_path):
    path = stored(tmp_path / "a.jpg", exif=camera_exif())
    path.write_bytes(path.read_bytes()[:-500])
    assert taken_at(path, path.name).isoformat() == "2026-03-14T09:05:00"


def test_a_picture_without_a_time_has_none(tmp_path):
    assert taken_at(stored(tmp_path / "a.png"), "a.png") is None
