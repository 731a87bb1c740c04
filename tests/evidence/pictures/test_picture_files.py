from __future__ import annotations

import errno
import os
import struct
import subprocess
import sys
import warnings
import zlib

import numpy as np
import pytest
from evidence.pictures import camera_exif, gradient, shown, stored
from PIL import Image

from claimpack.errors import BadInput, NotFound
from claimpack.evidence.pictures.photos import PrintSize, prepare, prepare_all
from claimpack.evidence.pictures.picture_files import LARGEST_PICTURE, MOST_SCANS, open_picture, opened

SMALL = PrintSize(long_edge=60)
LARGE = PrintSize(long_edge=500)


def test_an_animation_shows_its_first_picture(tmp_path):
    frames = [Image.new("RGB", (40, 40), colour) for colour in ("red", "blue", "green")]
    path = stored(tmp_path / "a.webp", frames[0], save_all=True, append_images=frames[1:], lossless=True)
    photo = prepare(path, "a.webp", LARGE)
    assert photo.notes == ("the first of 3 pictures in the file is shown",)
    assert np.allclose(shown(photo.jpeg)[20, 20], (255, 0, 0), atol=6)


@pytest.mark.parametrize("name", ["a.jpg", "a.png", "a.tif", "a.webp"])
def test_a_truncated_picture_is_refused_by_name(tmp_path, name):
    path = stored(tmp_path / name, Image.effect_noise((400, 300), 80).convert("RGB"))
    path.write_bytes(path.read_bytes()[: path.stat().st_size // 2])
    with pytest.raises(BadInput, match=f"photos/{name} is a damaged"):
        prepare(path, f"photos/{name}", SMALL)


def test_what_the_decoder_says_of_a_damaged_picture_is_told(tmp_path):
    path = stored(tmp_path / "a.jpg")
    path.write_bytes(path.read_bytes()[:-200])
    with pytest.raises(BadInput, match="damaged") as refused:
        prepare(path, "a.jpg", SMALL)
    assert "image file is truncated" in refused.value.why


def test_a_picture_alone_in_its_file_has_no_note(tmp_path):
    for name in ("a.jpg", "a.png"):
        assert prepare(stored(tmp_path / name), name, LARGE).notes == ()


def test_of_a_heic_with_more_pictures_in_it_the_main_one_is_shown_without_a_note(tmp_path):
    pytest.importorskip("pillow_heif").register_heif_opener()
    path = stored(tmp_path / "a.heic", save_all=True, append_images=[gradient()])
    with open_picture(path, "a.heic") as source:
        assert source.notes == ()


def test_a_file_that_cannot_be_opened_says_why_in_the_systems_words(tmp_path):
    with pytest.raises(BadInput, match="cannot be read") as refused:
        prepare(tmp_path / ("x" * 5000), "a.jpg", SMALL)
    assert refused.value.why == os.strerror(errno.ENAMETOOLONG)


def test_a_name_with_accents_is_as_good_as_any(tmp_path):
    assert prepare(stored(tmp_path / "éclat.jpg"), "photos/éclat.jpg", LARGE).file == "photos/éclat.jpg"


def test_a_missing_picture_is_named(tmp_path):
    with pytest.raises(NotFound, match=r"photos/a\.jpg"):
        prepare(tmp_path / "a.jpg", "photos/a.jpg", SMALL)


def test_a_folder_is_no_picture(tmp_path):
    with pytest.raises(BadInput, match="not a file"):
        prepare(tmp_path, "photos", SMALL)


def bomb(width, height):
    head = struct.pack(">IIBBBBB", width, height, 8, 2, 0, 0, 0)
    body = zlib.compress(bytes(1000))
    chunks = [(b"IHDR", head), (b"IDAT", body), (b"IEND", b"")]
    parts = [struct.pack(">I", len(c)) + n + c + struct.pack(">I", zlib.crc32(n + c)) for n, c in chunks]
    return b"\x89PNG\r\n\x1a\n" + b"".join(parts)


@pytest.mark.parametrize("size", [(12_000, 10_001), (60_000, 60_000)])
def test_a_bomb_is_refused_by_its_declared_size(tmp_path, size):
    path = tmp_path / "a.png"
    path.write_bytes(bomb(*size))
    with pytest.raises(BadInput, match="megapixels"):
        prepare(path, "a.png", SMALL)


def test_a_picture_below_the_limit_is_only_refused_for_its_damage(tmp_path):
    path = tmp_path / "a.png"
    path.write_bytes(bomb(12_000, 10_000))
    with pytest.raises(BadInput, match="damaged"):
        prepare(path, "a.png", SMALL)


def test_no_decoder_warning_reaches_the_user(tmp_path, recwarn):
    exif = camera_exif().tobytes()
    path = stored(tmp_path / "a.jpg", exif=exif[: len(exif) // 2])
    prepare(path, "a.jpg", LARGE)
    assert [str(warning.message) for warning in recwarn] == []


def test_the_warning_filters_of_others_come_back(tmp_path):
    paths = [("a", stored(tmp_path / "a.jpg"))] * 8
    before = list(warnings.filters)
    prepare_all(paths, SMALL)
    assert warnings.filters == before


def test_a_camera_may_take_a_jpeg_larger_than_a_scan(tmp_path):
    path = stored(tmp_path / "a.jpg")
    content = bytearray(path.read_bytes())
    frame = content.index(b"\xff\xc0")
    content[frame + 5 : frame + 9] = struct.pack(">HH", 12_288, 16_384)
    path.write_bytes(content)
    with open_picture(path, "a.jpg") as source:
        assert source.picture.size == (16_384, 12_288)


def test_heic_without_its_reader_says_what_to_install(tmp_path):
    path = tmp_path / "a.heic"
    path.write_bytes(b"\0\0\0\x18ftypheic\0\0\0\0mif1heic")
    script = (
        "import sys; sys.modules['pi_heif'] = None\n"
        "from pathlib import Path\n"
        "from claimpack.errors import NotInstalled\n"
        "from claimpack.evidence.pictures.picture_files import open_picture\n"
        "try: open_picture(Path(sys.argv[1]), 'a.heic').__enter__()\n"
        "except NotInstalled as error: print(error.do)\n"
    )
    told = subprocess.run([sys.executable, "-c", script, str(path)], capture_output=True, text=True, check=True)
    assert "pi-heif" in told.stdout


@pytest.mark.skipif(sys.platform != "linux", reason="elsewhere the system itself keeps such names away")
def test_a_name_that_is_no_text_is_refused(tmp_path):
    path = stored(tmp_path / "a.jpg").rename(tmp_path / "\udcff.jpg")
    with pytest.raises(BadInput, match="name holds bytes"), open_picture(path, path.name):
        pass


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="no pipes on this system")
def test_a_pipe_is_refused_without_waiting_for_it(tmp_path):
    os.mkfifo(tmp_path / "a.jpg")
    with pytest.raises(BadInput, match="not a file"):
        prepare(tmp_path / "a.jpg", "a.jpg", SMALL)


def test_a_webp_bomb_is_refused_by_its_declared_size(tmp_path):
    path = stored(tmp_path / "a.webp", gradient(mode="RGBA"), exif=camera_exif().tobytes())
    content = bytearray(path.read_bytes())
    content[24:30] = (16_382).to_bytes(3, "little") * 2
    path.write_bytes(content)
    with pytest.raises(BadInput, match="megapixels"):
        prepare(path, "a.webp", SMALL)


def test_a_scan_whose_second_page_is_broken_is_refused(tmp_path):
    path = stored(tmp_path / "a.tif", save_all=True, append_images=[gradient()])
    content = path.read_bytes()
    second = struct.pack("<HHII", 256, 4, 1, 120)
    path.write_bytes(content[: content.rindex(second)] + b"\xff" * 4 + content[content.rindex(second) + 4 :])
    with pytest.raises(BadInput, match="damaged TIFF"):
        prepare(path, "a.tif", SMALL)


def in_passes(path, passes):
    """A picture whose last pass over all of it is said again and again."""
    content = stored(path, progressive=True, quality=90).read_bytes()
    last = content[content.rindex(b"\xff\xda") : -2]
    path.write_bytes(content[:-2] + last * (passes - content.count(b"\xff\xda")) + content[-2:])
    return path


def test_a_picture_in_as_many_passes_as_are_taken(tmp_path):
    assert prepare(in_passes(tmp_path / "a.jpg", MOST_SCANS), "a.jpg", SMALL).width == 60


def test_a_picture_in_more_passes_is_refused(tmp_path):
    with pytest.raises(BadInput, match="more than 64 passes"):
        prepare(in_passes(tmp_path / "a.jpg", MOST_SCANS + 1), "a.jpg", SMALL)


def test_passes_hidden_behind_damage_count(tmp_path):
    path = in_passes(tmp_path / "a.jpg", 300)
    content = path.read_bytes()
    first = content.index(b"\xff\xda")
    path.write_bytes(content[:first] + b"\0\0" + content[first:])
    with pytest.raises(BadInput, match="passes"):
        prepare(path, "a.jpg", SMALL)


def resized(path, width, height, **options):
    """A JPEG that says it has other measures."""
    content = bytearray(stored(path, **options).read_bytes())
    frame = content.index(b"\xff\xc2" if options.get("progressive") else b"\xff\xc0")
    content[frame + 5 : frame + 9] = struct.pack(">HH", height, width)
    path.write_bytes(content)
    return path


def test_a_picture_in_several_passes_may_have_half_as_many_pixels(tmp_path):
    with pytest.raises(BadInput, match="megapixels"):
        prepare(resized(tmp_path / "a.jpg", 12_000, 10_001, progressive=True), "a.jpg", SMALL)


def test_a_file_as_large_as_a_picture_may_be_is_opened(tmp_path):
    (tmp_path / "a.jpg").touch()
    os.truncate(tmp_path / "a.jpg", LARGEST_PICTURE)
    with opened(tmp_path / "a.jpg", "a.jpg") as stream:
        assert stream.readable()


def test_a_file_larger_than_any_picture_is_refused_unread(tmp_path):
    with (tmp_path / "a.jpg").open("wb") as stream:
        stream.truncate(LARGEST_PICTURE + 1)
    with pytest.raises(BadInput, match="larger than 400 MB"):
        prepare(tmp_path / "a.jpg", "a.jpg", SMALL)
