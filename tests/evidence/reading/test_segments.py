"""The displays of the sample claims' hour meters, as they are and spoilt."""

from __future__ import annotations

from pathlib import Path

import pytest
from PIL import Image, ImageDraw, ImageOps

from claimpack.evidence.reading.segments import display_in

pytest.importorskip("cv2", reason="the extra `read` is not installed, so no display was read")

SAMPLES = Path(__file__).parents[3] / "sample_claims"


def a_meter(claim="26-0068-hour-limit"):
    with Image.open(SAMPLES / claim / "photos" / "hour-meter.jpg") as picture:
        return ImageOps.exif_transpose(picture).convert("RGB")


def read(picture):
    return [line.text for line in display_in(picture)]


@pytest.mark.parametrize(("claim", "hours"), [("26-0068-hour-limit", "512.6"), ("26-0080-mower-engine", "86.3")])
def test_the_hours_on_a_display_are_read(claim, hours):
    assert read(a_meter(claim)) == [hours]


def test_a_display_upside_down_is_not_read():
    assert read(a_meter().rotate(180)) == []


def test_where_a_segment_is_half_gone_nothing_is_read():
    picture = a_meter()
    ImageDraw.Draw(picture).line([(546, 425), (541, 450)], fill=(150, 160, 130), width=18)
    assert read(picture) == []


def test_without_its_point_a_number_is_left_alone():
    picture = a_meter()
    ImageDraw.Draw(picture).ellipse([652, 508, 673, 529], fill=(215, 225, 195))
    assert read(picture) == []


def test_a_picture_without_a_display_shows_no_number():
    assert read(Image.new("RGB", (900, 700), (90, 90, 90))) == []


# which segments are on: from the top clockwise, the middle last
SHAPES = {
    "0": "abcdef",
    "1": "bc",
    "2": "abdeg",
    "3": "abcdg",
    "4": "bcfg",
    "5": "acdfg",
    "6": "acdefg",
    "7": "abc",
    "8": "abcdefg",
    "9": "abcdfg",
    "b": "cdefg",
    "T": "abcf",
    "q": "abcfg",
    "E": "adefg",
}
GROUND, LIGHT, DARK = (90, 92, 95), (215, 225, 195), (30, 34, 28)


def digit(pen, shape, left, top, wide, tall, ink, inset=12, thick=18):
    """One digit, its segments a crack apart; those that lie begin so far inside it."""
    middle = top + tall / 2
    right, bottom = left + wide, top + tall
    bars = {
        "a": (left + inset, top, right - inset, top + thick),
        "d": (left + inset, bottom - thick, right - inset, bottom),
        "g": (left + inset, middle - thick / 2, right - inset, middle + thick / 2),
        "f": (left, top + 2, left + thick, middle - 4),
        "b": (right - thick, top + 2, right, middle - 4),
        "e": (left, middle + 4, left + thick, bottom - 2),
        "c": (right - thick, middle + 4, right, bottom - 2),
    }
    for segment in SHAPES[shape]:
        pen.rectangle(bars[segment], fill=ink)


def display(said, size=None, light=LIGHT, ink=DARK, slant=0.0, rise=0, drawn=None, **odd):
    """A display with digits 80 wide and 150 high, a point before the last, on a plate twice as wide and high.

    Points lie as high as `rise` says above the foot; `odd` changes a digit by its place: how much lower or less tall.
    """
    count = sum(mark in SHAPES for mark in said)
    wide, high = size or (60 + 110 * count, 220)
    shown = Image.new("RGB", (wide, high), light)
    pen, x = ImageDraw.Draw(shown), 40
    for place, mark in enumerate(said):
        if mark == ".":
            pen.ellipse((x - 24, 164 - rise, x - 6, 182 - rise), fill=ink)
            continue
        change = odd.get(f"at_{place}", (0, 0))
        digit(pen, mark, x, 32 + change[0], 80, 150 - change[1], ink, **(drawn or {}))
        x += 110
    if slant:
        shown = shown.transform(
            (wide, high), Image.Transform.AFFINE, (1, slant, -slant * high / 2, 0, 1, 0), fillcolor=light
        )
    plate = Image.new("RGB", (2 * wide, 2 * high), GROUND)
    plate.paste(shown, (wide // 2, high // 2))
    return plate


@pytest.mark.parametrize("said", ["12.3", "78.9", "60.1", "01.0", "45.6", "50.6", "123.4", "804739.2"])
def test_every_digit_is_read(said):
    assert read(display(said)) == [said]


def test_the_first_hours_of_a_new_machine_are_read():
    assert read(display("4.2", size=(390, 220))) == ["4.2"]


@pytest.mark.parametrize(("drawn", "meant"), [("12b.0", "126.0"), ("T3.0", "73.0"), ("q2.q", "92.9")])
def test_digits_are_read_in_either_way_of_drawing_them(drawn, meant):
    assert read(display(drawn)) == [meant]


@pytest.mark.parametrize(("said", "slant"), [("512.6", 0.1), ("512.6", 0.2), ("81.3", 0.2), ("51.7", 0.3)])
def test_digits_that_lean_are_read(said, slant):
    assert read(display(said, slant=slant)) == [said]


def test_digits_whose_segments_stand_apart_are_read():
    assert read(display("520.6", drawn={"inset": 23})) == ["520.6"]


def test_digits_of_thin_segments_are_read():
    assert read(display("520.6", drawn={"thick": 8, "inset": 6})) == ["520.6"]


def test_it_is_told_where_the_display_lies():
    (found,) = display_in(display("512.6"))
    assert found.spot == pytest.approx((0.25, 0.25, 0.5, 0.5), abs=0.01)


def side_by_side(*pictures):
    """Pictures beside one another."""
    whole = Image.new("RGB", (sum(one.width for one in pictures), max(one.height for one in pictures)), GROUND)
    x = 0
    for one in pictures:
        whole.paste(one, (x, 0))
        x += one.width
    return whole


def test_of_two_displays_that_differ_none_is_told():
    assert read(side_by_side(display("12.3"), display("12.3"))) == ["12.3"]
    assert read(side_by_side(display("12.3"), display("78.9"))) == []


@pytest.mark.parametrize("said", ["1234567.8", "12.34", "1.2.3", "12E.0", "1234", ".12"])
def test_what_is_no_number_of_hours_is_left_alone(said):
    assert read(display(said)) == []


def test_a_point_above_the_foot_is_none():
    assert read(display("512.6", rise=60)) == []


@pytest.mark.parametrize("change", [(25, 25), (22, 0)], ids=["less tall", "lower"])
def test_digits_of_different_height_or_level_are_left_alone(change):
    assert read(display("512.6", at_2=change)) == []


@pytest.mark.parametrize(("ink", "told"), [((150, 160, 135), ["512.6"]), ((185, 195, 165), [])])
def test_marks_that_are_hardly_darker_than_the_display_are_left_alone(ink, told):
    assert read(display("512.6", ink=ink)) == told


@pytest.mark.parametrize(("size", "told"), [((390, 220), ["12.3"]), ((390, 275), []), ((1900, 220), [])])
def test_an_area_of_the_shape_of_no_display_is_left_alone(size, told):
    assert read(display("12.3", size=size)) == told


def test_a_display_under_a_hand_is_left_alone():
    picture = display("12.3")
    ImageDraw.Draw(picture).polygon([(190, 340), (420, 340), (500, 250), (260, 180)], fill=GROUND)
    assert read(picture) == []


@pytest.mark.parametrize(("share", "told"), [(6, ["12.3"]), (16, [])])
def test_a_display_far_away_is_left_alone(share, told):
    near = display("12.3")
    whole = Image.new("RGB", (near.width * share // 2, near.height * share // 2), GROUND)
    whole.paste(near, (20, 20))
    assert read(whole) == told


def test_a_blot_in_a_digit_is_no_digit_and_a_speck_beside_it_is_nothing():
    blotted, specked = display("50.6"), display("50.6")
    left, top = 390 // 2 + 40, 220 // 2 + 32
    ImageDraw.Draw(blotted).rectangle((left + 110 + 24, top + 24, left + 110 + 56, top + 60), fill=DARK)
    ImageDraw.Draw(specked).rectangle((left + 92, top + 20, left + 98, top + 24), fill=DARK)
    assert (read(blotted), read(specked)) == ([], ["50.6"])


@pytest.mark.parametrize(("wide", "high"), [(14, 5), (16, 4), (20, 3)])
def test_a_scratch_at_the_foot_is_no_second_point(wide, high):
    scratched = display("50.6")
    left, top = 390 // 2 + 124, 220 // 2 + 162
    ImageDraw.Draw(scratched).rectangle((left, top, left + wide, top + high), fill=DARK)
    assert read(scratched) == ["50.6"]


def test_a_display_brighter_than_a_light_plate_is_read():
    picture = display("12.3", light=(255, 255, 255))
    bright = picture.point(lambda value: 170 if 85 < value < 100 else value)
    dark = Image.new("RGB", (picture.width * 2, picture.height * 2), (20, 20, 20))
    dark.paste(bright, (100, 100))
    assert read(dark) == ["12.3"]
