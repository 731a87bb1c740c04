import numpy as np
import pytest
from PIL import Image, ImageEnhance, ImageFilter

from claimpack.core.clauses.picture_doubts import USUAL, picture_doubts
from claimpack.errors import BadInput
from claimpack.evidence.pictures.measuring import measured, measured_all, measures


def a_scene(size=(1200, 900)):
    """Hard edges of many shades, as parts on a bench have."""
    shades = np.random.default_rng(5).integers(20, 230, (size[1] // 30, size[0] // 30), dtype=np.uint8)
    return Image.fromarray(shades).resize(size, Image.Resampling.NEAREST).convert("RGB")


def doubts(tmp_path, picture, name="a.jpg"):
    picture.save(tmp_path / name)
    return [doubt.key for doubt in picture_doubts(measured(tmp_path / name, name), "", USUAL)]


def half_in_focus():
    scene = a_scene()
    soft = scene.filter(ImageFilter.GaussianBlur(12))
    soft.paste(scene.crop((500, 300, 900, 600)), (500, 300))
    return soft


def moved():
    """A scene over which the camera moved sideways."""
    return a_scene().filter(ImageFilter.BoxBlur((15, 0)))


def blurred(radius=5):
    return a_scene().filter(ImageFilter.GaussianBlur(radius))


def lit(factor):
    return ImageEnhance.Brightness(a_scene()).enhance(factor)


@pytest.mark.parametrize(
    ("picture", "told"),
    [
        (a_scene, []),
        (half_in_focus, []),
        (lambda: Image.new("RGB", (900, 700), "#888888"), []),
        (lambda: lit(0.15), ["dark"]),
        (lambda: lit(4), ["burnt"]),
        (blurred, ["blurred"]),
        (lambda: blurred(40), ["blurred"]),
        (moved, ["blurred"]),
        (lambda: a_scene((480, 360)), ["small"]),
    ],
    ids=["sharp", "one part in focus", "a blank wall", "dark", "burnt", "blurred", "fogged", "moved", "small"],
)
def test_a_picture_is_doubted_for_what_is_wrong_with_it(tmp_path, picture, told):
    assert doubts(tmp_path, picture()) == told


def test_a_lamp_in_a_twentieth_of_a_picture_is_not_taken_for_its_light():
    lit_by, lit_more = (Image.new("L", (100, 100), 60) for _ in range(2))
    lit_by.paste(255, (0, 0, 100, 5))
    lit_more.paste(255, (0, 0, 100, 6))
    assert [measures(each, each.size).brightest for each in (lit_by, lit_more)] == [round(60 / 0.255), 1000]


def in_parts(ground, count):
    """A picture of 36 parts, the first of which show something sharp."""
    sharp = parts_on_a_bench()
    for part in range(count):
        left, top = 100 * (part % 6), 100 * (part // 6)
        box = (left + 8, top + 8, left + 92, top + 92)
        ground.paste(sharp.crop(box), box)
    return ground


def parts_on_a_bench():
    return a_scene((1800, 1800)).convert("L").resize((600, 600), Image.Resampling.NEAREST)


def a_blank_wall():
    return Image.new("L", (600, 600), 120)


def is_blurred(picture):
    measured = measures(picture, picture.size)
    return "blurred" in [doubt.key for doubt in picture_doubts(measured, "", USUAL)]


@pytest.mark.parametrize(("count", "blurred"), [(4, True), (5, False), (6, False)])
def test_a_picture_is_sharp_enough_with_five_parts_in_focus(count, blurred):
    fogged = parts_on_a_bench().filter(ImageFilter.GaussianBlur(6))
    assert is_blurred(in_parts(fogged, count)) is blurred


def test_a_plate_on_a_blank_wall_is_judged_alone():
    plate = in_parts(a_blank_wall(), 1)
    assert (is_blurred(plate), is_blurred(plate.filter(ImageFilter.GaussianBlur(6)))) == (False, True)


@pytest.mark.parametrize(("narrow", "told"), [(11, False), (12, True)])
def test_a_strip_too_narrow_to_be_cut_in_parts_is_not_judged(narrow, told):
    strip = Image.effect_noise((narrow, 40), 80)
    assert bool(measures(strip, strip.size).blurred) is told


def test_other_kinds_of_picture_are_measured_in_a_process_of_their_own(tmp_path):
    assert doubts(tmp_path, blurred(), "a.webp") == ["blurred"]


def test_pictures_are_measured_in_the_order_given(tmp_path):
    for width in (800, 900):
        a_scene((width, 600)).save(tmp_path / f"{width}.jpg")
    named = [(f"{width}.jpg", tmp_path / f"{width}.jpg") for width in (900, 800)]
    assert [picture.width for picture in measured_all(named)] == [900, 800]


def test_a_damaged_picture_is_refused(tmp_path):
    a_scene().save(tmp_path / "a.jpg")
    (tmp_path / "cut.jpg").write_bytes((tmp_path / "a.jpg").read_bytes()[:9000])
    with pytest.raises(BadInput, match="damaged"):
        measured(tmp_path / "cut.jpg", "cut.jpg")
