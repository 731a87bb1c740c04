from __future__ import annotations

import numpy as np
import pytest
from evidence.pictures import SRGB, gradient, matrix_profile, p3_profile, shown, srgb_profile, stored
from PIL import Image

from claimpack.evidence.pictures.colour import eight_bit, is_srgb
from claimpack.evidence.pictures.photos import PrintSize, prepare

SMALL = PrintSize(long_edge=60)
LARGE = PrintSize(long_edge=500)


def difference(one, other):
    return np.abs(one.astype(int) - other.astype(int)).mean()


def test_a_wide_colour_space_becomes_srgb(tmp_path):
    path = stored(tmp_path / "a.jpg", Image.new("RGB", (64, 64), (200, 100, 50)), icc_profile=p3_profile(), quality=98)
    # By hand: linear 0.5776, 0.1274, 0.0319 through the P3-to-sRGB matrix gives 0.6789, 0.1085, 0.0136.
    assert np.allclose(shown(prepare(path, "a.jpg", LARGE).jpeg)[32, 32], (215, 93, 31), atol=3)


def test_a_red_outside_srgb_becomes_its_purest_red(tmp_path):
    path = stored(tmp_path / "a.png", Image.new("RGB", (64, 64), (255, 0, 0)), icc_profile=p3_profile())
    assert np.allclose(shown(prepare(path, "a.png", LARGE).jpeg)[32, 32], (255, 0, 0), atol=3)


def test_a_broken_colour_profile_is_noted_and_taken_as_srgb(tmp_path):
    path = stored(tmp_path / "a.jpg", icc_profile=b"not a profile at all" * 20, quality=95)
    photo = prepare(path, "a.jpg", SMALL)
    assert photo.notes == ("its colour profile is broken; the colours are taken as sRGB",)
    assert difference(shown(photo.jpeg), np.asarray(gradient().resize((60, 40)))) < 4


def test_printing_colours_become_srgb_with_a_note(tmp_path):
    photo = prepare(stored(tmp_path / "a.jpg", gradient(mode="CMYK"), quality=95), "a.jpg", LARGE)
    assert "printing colours" in photo.notes[0]
    assert difference(shown(photo.jpeg), np.asarray(gradient())) < 4


@pytest.mark.parametrize("mode", ["RGBA", "LA", "P"])
def test_what_is_transparent_becomes_white(tmp_path, mode):
    clear = Image.new("RGBA", (64, 64), (0, 0, 0, 0)).convert(mode)
    options = {"transparency": 0} if mode == "P" else {}
    photo = prepare(stored(tmp_path / "a.png", clear, **options), "a.png", LARGE)
    assert shown(photo.jpeg).min() > 250


@pytest.mark.parametrize(("mode", "white"), [("F", 1.0), ("F", 255.0), ("I", 255), ("I", 65535), ("I", 1_000_000)])
def test_deep_greys_run_from_black_to_white_whatever_their_white_is(mode, white):
    deep = Image.new(mode, (3, 1), white)
    deep.putpixel((0, 0), 0)
    deep.putpixel((1, 0), white / 2 if mode == "F" else white // 2)
    black, middle, brightest = eight_bit(deep).tobytes()
    assert (black, middle in (127, 128), brightest) == (0, True, 255)


@pytest.mark.parametrize("profile", [srgb_profile(), p3_profile()], ids=["srgb", "wide"])
def test_a_grey_picture_with_a_colour_profile_is_grey_all_the_same(tmp_path, profile):
    path = stored(tmp_path / "a.jpg", gradient(mode="L"), icc_profile=profile, quality=95)
    photo = prepare(path, "a.jpg", LARGE)
    assert photo.notes == ()
    assert difference(shown(photo.jpeg)[:, :, 0], np.asarray(gradient(mode="L"))) < 2


def test_a_picture_of_few_colours_keeps_them(tmp_path):
    path = stored(tmp_path / "a.png", Image.new("RGB", (64, 64), (200, 60, 20)).convert("P"))
    assert np.allclose(shown(prepare(path, "a.png", LARGE).jpeg)[32, 32], (204, 51, 0), atol=25)


def test_sixteen_bit_grey_keeps_its_middle(tmp_path):
    deep = Image.fromarray(np.linspace(0, 65535, 6400).reshape(64, 100).astype(np.uint16))
    grey = shown(prepare(stored(tmp_path / "a.png", deep), "a.png", LARGE).jpeg)
    assert abs(grey[32, 50, 0] - 129) < 3
    assert grey[0, 0, 0] < 4
    assert grey[63, 99, 0] > 251


@pytest.mark.parametrize("mode", ["1", "L", "P", "I", "F", "RGBX", "LAB", "YCbCr"])
def test_every_way_of_storing_pixels_is_shown(tmp_path, mode):
    picture = gradient().convert("RGB") if mode == "LAB" else gradient().convert(mode)
    path = stored(tmp_path / "a.tif", picture)
    assert prepare(path, "a.tif", LARGE).width == 120


def test_a_profile_that_says_srgb_changes_nothing():
    assert is_srgb(srgb_profile())
    assert is_srgb(None)


@pytest.mark.parametrize(("power", "seen"), [(2.45, False), (2.48, True)])
def test_a_profile_of_which_no_eye_sees_a_change_is_as_good_as_none(power, seen):
    # By littleCMS: of 255 shades no probe changes by more than two with the first, one by three with the second.
    assert is_srgb(matrix_profile(SRGB, power)) is not seen


@pytest.mark.parametrize("profile", [p3_profile(), b"not a profile"], ids=["wide", "broken"])
def test_another_profile_or_a_broken_one_is_not_srgb(profile):
    assert not is_srgb(profile)


def test_a_profile_for_other_pixels_is_noted(tmp_path):
    path = stored(tmp_path / "a.jpg", gradient(mode="CMYK"), icc_profile=srgb_profile())
    assert "broken" in prepare(path, "a.jpg", LARGE).notes[0]
