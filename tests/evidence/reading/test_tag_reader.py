from __future__ import annotations

import subprocess
import sys

import pytest
from PIL import Image, ImageOps
from shop_builders import a_picture, a_tag_code, photographed, with_tags

from claimpack.errors import NotFound
from claimpack.evidence.reading.tag_reader import search_all

PHONE = (2400, 1800)


def found(path, picture, **options):
    return search_all([(path.name, photographed(path, picture, **options))]).pictures[0]


def codes(path, picture):
    return found(path, picture).codes


@pytest.mark.parametrize("turned", [0, 7, 45, 90, 180, 263])
def test_a_tag_is_found_however_it_lies(tmp_path, turned):
    assert codes(tmp_path / "a.jpg", with_tags(a_picture(1, PHONE), "26-0041/1", turned=turned)) == ("26-0041/1",)


@pytest.mark.parametrize("blurred", [1, 2, 3])
def test_a_tag_a_little_out_of_focus_is_found(tmp_path, blurred):
    picture = with_tags(a_picture(1, PHONE), "26-0041/1", turned=11, blurred=blurred)
    assert codes(tmp_path / "a.jpg", picture) == ("26-0041/1",)


def test_a_small_tag_in_a_large_picture_is_found(tmp_path):
    picture = a_picture(1, (4032, 3024))
    tag = a_tag_code("26-0041/1")
    picture.paste(tag.resize((tag.width // 5, tag.height // 5), Image.Resampling.LANCZOS), (1900, 1700))
    assert codes(tmp_path / "a.jpg", picture) == ("26-0041/1",)


def test_a_code_128_alone_is_enough(tmp_path):
    picture, tag = a_picture(1, PHONE), a_tag_code("26-0041/1")
    bars = next(found for found in read(tag) if found.format.name == "Code128").position
    top, bottom = bars.top_left.y - 15, bars.bottom_left.y + 15
    picture.paste(tag.crop((0, top, tag.width, bottom)), (300, 300))
    assert codes(tmp_path / "a.jpg", picture) == ("26-0041/1",)


def read(picture):
    """What somebody else's scanner reads."""
    import zxingcpp

    return zxingcpp.read_barcodes(picture)


def test_two_tags_in_a_frame_are_both_found(tmp_path):
    picture = with_tags(a_picture(1, PHONE), "26-0041/1", "26-0041/2")
    assert sorted(codes(tmp_path / "a.jpg", picture)) == ["26-0041/1", "26-0041/2"]


def test_a_picture_without_a_tag_has_no_code(tmp_path):
    assert codes(tmp_path / "a.jpg", a_picture(1, PHONE)) == ()


def test_codes_that_are_none_of_ours_are_passed_over(tmp_path):
    import segno

    segno.make_qr("https://example.com/26-0041").save(str(tmp_path / "code.png"), scale=12)
    picture = Image.open(tmp_path / "code.png").convert("RGB")
    assert [len(read(picture)), codes(tmp_path / "a.jpg", picture)] == [1, ()]


def test_the_time_taken_is_told_with_the_codes(tmp_path):
    picture = found(tmp_path / "a.jpg", a_picture(1), taken="2026-03-01 09:05:00", offset="-05:00")
    assert picture.taken.isoformat() == "2026-03-01T09:05:00-05:00"


@pytest.mark.parametrize("name", ["a.png", "a.webp", "a.tiff"])
def test_other_kinds_of_picture_are_searched(tmp_path, name):
    assert codes(tmp_path / name, with_tags(a_picture(1, (1300, 1400)), "26-0041/1")) == ("26-0041/1",)


def test_files_that_are_no_pictures_are_told_apart(tmp_path):
    (tmp_path / "notes.txt").write_text("x")
    looked = search_all([("notes.txt", tmp_path / "notes.txt")])
    assert (looked[0], [file for file, _ in looked[1]]) == ((), ["notes.txt"])


def test_pictures_come_in_the_order_given_and_each_is_told(tmp_path):
    told = []
    files = [(name, photographed(tmp_path / name)) for name in ("b.jpg", "a.jpg", "c.jpg")]
    looked = search_all(files, lambda: told.append(1))
    assert ([picture.file for picture in looked.pictures], len(told)) == (["b.jpg", "a.jpg", "c.jpg"], 3)


def test_a_file_that_is_gone_is_not_found(tmp_path):
    with pytest.raises(NotFound, match="no such file"):
        search_all([("a.jpg", tmp_path / "a.jpg")])


WITHOUT = """
import sys
sys.modules["zxingcpp"] = None
from claimpack.errors import NotInstalled
from claimpack.evidence.reading.tag_reader import search_all
try:
    search_all([])
except NotInstalled as error:
    print(error.do)
"""


def test_a_machine_without_the_reader_is_told_what_to_install():
    done = subprocess.run([sys.executable, "-c", WITHOUT], capture_output=True, text=True, check=True)
    assert "zxing-cpp" in done.stdout


def test_a_code_light_on_dark_is_no_tag_of_ours(tmp_path):
    assert codes(tmp_path / "a.jpg", ImageOps.invert(with_tags(a_picture(1, PHONE), "26-0041/1"))) == ()
