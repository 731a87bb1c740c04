from __future__ import annotations

import hashlib
import random
from pathlib import Path

import numpy as np
import pytest
from evidence.pictures import camera_exif, gradient, stored
from PIL import Image, ImageEnhance
from shop_builders import a_picture

from claimpack.core.values.likeness import cuts, show_one_scene, whole
from claimpack.errors import BadInput, NotFound
from claimpack.evidence.pictures.likeness import CUTS, likeness, look_at

SAMPLES = Path(__file__).parents[3] / "sample_claims"


def seen(path, picture=None, **options):
    return look_at(stored(path, picture, **options), path.name)


def unlike(first, second):
    """How many of the 64 bits of the whole differ."""
    return (whole(first) ^ whole(second)).bit_count()


def a_scene(seed):
    """Patches of light, as on a bench."""
    return Image.frombytes("L", (12, 9), random.Random(seed).randbytes(108)).resize(
        (480, 360), Image.Resampling.BICUBIC
    )


def test_it_is_hexadecimal_digits_of_the_whole_its_detail_and_its_cuts(tmp_path):
    assert len(bytes.fromhex(seen(tmp_path / "a.jpg").likeness)) == 8 + 32 + 8 * len(CUTS)


def test_each_bit_tells_whether_a_neighbour_is_brighter():
    rising = Image.linear_gradient("L").rotate(90).resize((9, 8))
    falling = rising.transpose(Image.Transpose.FLIP_LEFT_RIGHT)
    assert (likeness(rising)[:16], likeness(falling)[:16]) == ("f" * 16, "0" * 16)


def test_a_flat_picture_gives_zeros():
    assert set(likeness(Image.new("RGB", (50, 40), "red"))) == {"0"}


@pytest.mark.parametrize(
    "turn", [Image.Transpose.ROTATE_90, Image.Transpose.ROTATE_180, Image.Transpose.FLIP_LEFT_RIGHT]
)
def test_a_picture_turned_or_mirrored_shows_the_same_scene(turn):
    upright = a_scene(3)
    assert show_one_scene(cuts(likeness(upright)), cuts(likeness(upright.transpose(turn))))


def test_a_cut_of_a_picture_shows_the_same_scene():
    upright = a_scene(3)
    part = upright.crop((int(upright.width * 0.2), 0, upright.width, int(upright.height * 0.8)))
    assert show_one_scene(cuts(likeness(upright)), cuts(likeness(part)))


def test_another_picture_shows_another_scene():
    assert not show_one_scene(cuts(likeness(a_scene(3))), cuts(likeness(a_scene(4))))


def test_two_machines_of_one_model_on_one_bench_are_surely_no_one_scene():
    one, other = (
        cuts(likeness(Image.open(SAMPLES / claim / "photos" / "whole.jpg")))
        for claim in ("26-0110-approval-first", "26-0116-campaign")
    )
    assert show_one_scene(one, other)
    assert not show_one_scene(one, other, surely=True)


def test_what_grows_brighter_evenly_shows_no_scene():
    assert not cuts(likeness(a_picture(3)))


def a_picture_of_waves(count):
    """So many of the slowest waves of a discrete cosine transform over 16 x 16, each as strong as the others."""
    order = sorted(((y, x) for y in range(8) for x in range(8)), key=max)[1 : count + 1]
    cosines = [np.cos(np.pi * (2 * np.arange(16) + 1) * wave / 32) for wave in range(8)]
    signs = np.random.default_rng(1).choice([-1, 1], count)
    shades = sum(sign * np.outer(cosines[y], cosines[x]) for sign, (y, x) in zip(signs, order, strict=True))
    return Image.fromarray(np.round(128 + shades * 120 / abs(shades).max()).astype(np.uint8))


@pytest.mark.parametrize(("count", "shows"), [(39, False), (40, True), (63, True)])
def test_a_picture_of_too_few_waves_shows_no_scene(count, shows):
    first_cut = likeness(a_picture_of_waves(count))[80:96]
    assert (first_cut != "0" * 16) is shows


@pytest.mark.parametrize("quality", [95, 60, 30])
def test_the_same_picture_pressed_harder_is_alike(tmp_path, quality):
    whole, pressed = (seen(tmp_path / name, a_picture(3), quality=q) for name, q in (("a.jpg", 95), ("b.jpg", quality)))
    assert unlike(whole.likeness, pressed.likeness) <= 4


def test_the_same_picture_small_and_pale_is_alike(tmp_path):
    whole = seen(tmp_path / "a.jpg", a_picture(3))
    pale = ImageEnhance.Brightness(a_picture(3).resize((300, 233))).enhance(0.8)
    assert unlike(whole.likeness, seen(tmp_path / "b.png", pale).likeness) <= 4


def test_another_picture_is_not_alike(tmp_path):
    other = gradient(900, 700).transpose(Image.Transpose.FLIP_LEFT_RIGHT)
    assert unlike(seen(tmp_path / "a.jpg", a_picture(3)).likeness, seen(tmp_path / "b.jpg", other).likeness) > 12


def test_a_picture_held_sideways_is_alike_to_it_upright(tmp_path):
    sideways = a_picture(3).transpose(Image.Transpose.ROTATE_90)
    lying = seen(tmp_path / "a.jpg", sideways, exif=camera_exif(6))
    assert unlike(lying.likeness, seen(tmp_path / "b.jpg", a_picture(3)).likeness) <= 4


@pytest.mark.parametrize(("orientation", "size"), [(4, (120, 80)), (5, (80, 120))])
def test_the_size_seen_is_that_of_the_picture_upright(tmp_path, orientation, size):
    looked = seen(tmp_path / "a.jpg", gradient(120, 80), exif=camera_exif(orientation))
    assert (looked.width, looked.height) == size


def test_what_was_seen_names_content_size_and_time(tmp_path):
    path = stored(tmp_path / "a.jpg", gradient(120, 80), exif=camera_exif(6))
    looked = look_at(path, "a.jpg")
    content = path.read_bytes()
    assert (looked.sha256, looked.bytes, looked.width, looked.height, looked.taken.isoformat()) == (
        *(hashlib.sha256(content).hexdigest(), len(content), 80, 120),
        "2026-03-14T09:05:00",
    )


@pytest.mark.parametrize("mode", ["1", "L", "P", "RGBA", "I;16", "LA"])
def test_pictures_of_every_mode_are_looked_at(tmp_path, mode):
    picture = Image.new(mode, (64, 48)) if mode == "I;16" else gradient(64, 48).convert(mode)
    assert seen(tmp_path / "a.png", picture).width == 64


def test_a_picture_that_is_cut_off_is_found_out(tmp_path):
    path = stored(tmp_path / "a.jpg", a_picture(3))
    path.write_bytes(path.read_bytes()[:-2000])
    with pytest.raises(BadInput, match="damaged JPEG"):
        look_at(path, "a.jpg")


def test_a_file_that_is_not_there_is_not_found(tmp_path):
    with pytest.raises(NotFound, match="no such file"):
        look_at(tmp_path / "a.jpg", "a.jpg")
