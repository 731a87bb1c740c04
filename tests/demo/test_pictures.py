"""Pictures of the invented shop show what the claim tells, where somebody would look for it."""

import io
from functools import cache
from itertools import pairwise
from random import Random

import pytest
from PIL import Image
from pypdf import PdfReader

from claimpack.demo.pictures import SIZE, picture_of, receipt_of

KEYS = {
    "unit": {
        "kind": "cut-off saw",
        "model": "CS-70",
        "serials": [{"role": "unit", "value": "HC70-118-24411"}, {"role": "engine", "value": "E70-51234"}],
    },
    "owner": {"name": "Maud Ellery"},
    "dates": {"purchased": "2026-03-02"},
}
ORANGE, GREY, STEEL, DARK = (196, 92, 40), (196, 198, 200), (176, 180, 184), (30, 31, 34)


class Middle(Random):
    """Chance that takes the middle of all there is, the first of what is to choose from, and lets no shadow fall."""

    def randint(self, a, b):
        return 255 if (a, b) == (70, 255) else (a + b) // 2

    def uniform(self, a, b):
        return (a + b) / 2

    def choice(self, seq):
        return seq[0]


class Askew(Middle):
    def uniform(self, a, b):
        return b


class Least(Middle):
    def randint(self, a, b):
        return 255 if (a, b) == (70, 255) else a


@cache
def drawn(shot, damage="scored", draw=Middle):
    story = {"picture": {"damage": damage, "colour": list(ORANGE)}, "unit": {"model": "CS-70"}}
    return Image.open(io.BytesIO(picture_of(shot, KEYS, story, draw()))).convert("RGB")


def seen(picture, place):
    """The colour about a place, without the grain of the picture's format."""
    left, top = place
    return picture.crop((left - 4, top - 4, left + 5, top + 5)).resize((1, 1), Image.Resampling.BOX).getpixel((0, 0))


def is_like(colour, other):
    return all(abs(one - two) < 24 for one, two in zip(colour, other, strict=True))


def extent(picture, colour):
    """The box about all that has a colour."""
    near = [
        picture.getchannel(nth).point([255 if abs(value - wanted) < 30 else 0 for value in range(256)])
        for nth, wanted in enumerate(colour)
    ]
    both = Image.merge("RGB", near).convert("L").point([255 if value > 250 else 0 for value in range(256)])
    return both.resize((SIZE[0] // 8, SIZE[1] // 8), Image.Resampling.BOX).point([0] * 200 + [255] * 56).getbbox()


@pytest.mark.parametrize("shot", ["serial plate", "whole unit", "failed part"])
def test_every_shot_is_a_jpeg_of_one_size_by_whatever_chance(shot):
    for seed in range(4):
        content = picture_of(
            shot, KEYS, {"picture": {"damage": "split", "colour": [9, 9, 9]}, "unit": KEYS["unit"]}, Random(seed)
        )
        with Image.open(io.BytesIO(content)) as picture:
            assert (picture.format, picture.size) == ("JPEG", SIZE)


def test_a_unit_is_as_wide_and_high_as_chance_says_and_of_its_paint():
    left, top, right, bottom = extent(drawn("whole unit"), ORANGE)
    assert (left * 8, right * 8) == pytest.approx((195, 195 + 520), abs=16)
    assert (top * 8, bottom * 8) == pytest.approx((195, 195 + 290), abs=16)


@pytest.mark.parametrize(
    ("place", "colour"),
    [
        ((195 + 140, 195 - 60), DARK),
        ((195 + 245, 195 - 20), DARK),
        ((195 + 150, 195 + 30), DARK),
        ((195 + 60 + 75, 195 + 290 + 60), (38, 38, 40)),
        ((195 + 520 - 210 + 75, 195 + 290 + 60), (38, 38, 40)),
        ((195 + 70 + 6, 195 + 290 + 15), STEEL),
        ((195 + 520 - 210 + 6, 195 + 290 + 15), STEEL),
        ((195 + 70 + 144, 195 + 290 + 15), STEEL),
        ((195 + 70 + 75, 195 + 290 - 54), STEEL),
        ((195 + 70 + 75, 195 + 290 + 84), STEEL),
        ((195 + 300, 195 + 70), ORANGE),
    ],
    ids=[
        "tank",
        "end of the tank",
        "foot of the tank",
        "wheel",
        "other wheel",
        "rim",
        "other rim",
        "its right",
        "its top",
        "its foot",
        "body",
    ],
)
def test_a_unit_has_a_tank_on_its_left_half_and_two_wheels_under_it(place, colour):
    assert is_like(seen(drawn("whole unit"), place), colour)


@pytest.mark.parametrize(
    "place", [(195 + 30, 195 - 40), (195 + 300, 195 - 40), (195 + 150, 195 - 110), (195 + 260, 540)]
)
def test_beside_the_tank_and_between_the_wheels_is_the_bench(place):
    red, green, blue = seen(drawn("whole unit"), place)
    assert 40 < blue < green < red < 150


def test_the_model_stands_in_white_on_the_body():
    body = drawn("whole unit").crop((195 + 8, 195 + 150, 195 + 512, 195 + 230)).convert("L")
    left, _, right, _ = body.point([0] * 200 + [255] * 56).getbbox()
    assert 80 <= left <= 96
    assert 250 < right < 480


@pytest.mark.parametrize(("damage", "corner"), [("scored", False), ("cracked", False), ("split", True)])
def test_a_scored_or_cracked_part_is_round_and_any_other_square(damage, corner):
    # a corner of the square about it, inside its line
    assert is_like(seen(drawn("failed part", damage), (510 - 225 + 20, 380 - 225 + 20)), (150, 154, 158)) is corner


@pytest.mark.parametrize("draw", [Middle, Least], ids=["middle", "small"])
def test_a_part_has_a_face_within_its_rim_on_every_side(draw):
    x, y, size = (draw().randint(320, 700), draw().randint(290, 470), draw().randint(170, 280))
    picture = drawn("failed part", "split", draw)
    for across, down in ((-1, 0), (1, 0), (0, -1), (0, 1)):
        assert is_like(seen(picture, (x + across * (size - 45), y + down * (size - 45))), (150, 154, 158))
    # beside the crack
    for across, down in ((-1, 1), (1, -1)):
        assert is_like(seen(picture, (x + across * (size - 110), y + down * (size - 110))), GREY)


def test_a_crack_runs_across_a_part_from_the_left_and_downwards():
    picture = drawn("failed part").convert("L")
    begins, ends = 510 - 112, 510 - 112 + 7 * (225 // 7)
    dark = [x for x in range(begins, ends, 4) if min(picture.getpixel((x, y)) for y in range(240, 470)) < 90]
    assert len(dark) > 50
    first = min(range(240, 470), key=lambda y: picture.getpixel((begins + 3, y)))
    last = min(range(240, 520), key=lambda y: picture.getpixel((ends - 3, y)))
    assert (first, last) == (pytest.approx(380 - 130, abs=12), pytest.approx(380 - 130 + 7 * 30, abs=12))


def test_a_plate_says_model_and_serials_in_lines_of_their_own():
    plate = drawn("serial plate").convert("L")
    left, top = 90 - 35, 170 - 40
    rows = [min(plate.crop((left + 48, y, left + 700, y + 1)).tobytes()) < 70 for y in range(top + 20, top + 375)]
    assert sum(1 for before, after in pairwise(rows) if after and not before) == 3


def test_the_plate_lies_where_chance_puts_it_with_a_line_about_it():
    plate = drawn("serial plate")
    left, top, wide, high = 90 - 35, 170 - 40, 790, 390
    assert all(
        is_like(seen(plate, place), STEEL) for place in ((left + 20, top + 25), (left + wide - 30, top + high - 30))
    )
    for place in (
        (left + 400, top + 10),
        (left + 400, top + high - 11),
        (left + 10, top + 200),
        (left + wide - 11, top + 200),
    ):
        assert min(plate.convert("L").crop((place[0] - 5, place[1] - 5, place[0] + 6, place[1] + 6)).tobytes()) < 90
    assert not is_like(seen(plate, (left + wide + 20, top + 200)), STEEL)
    assert not is_like(seen(plate, (left + 400, top + high + 20)), STEEL)


def test_a_plate_askew_is_whole():
    # its corners reach further out: 790 cos 9 + 390 sin 9 is 841, 390 cos 9 + 790 sin 9 is 509
    plate, (left, top) = drawn("serial plate", draw=Askew), (90 - 35, 170 - 40)
    assert is_like(seen(plate, (left + 830, top + 40)), STEEL)
    assert is_like(seen(plate, (left + 100, top + 500)), STEEL)


def test_a_bench_is_lit_in_its_middle_and_dark_at_its_rim():
    light = drawn("failed part", draw=Middle).convert("L")
    rim = drawn("failed part", draw=Least).convert("L")
    assert light.getpixel((900, 40)) > rim.getpixel((20, 740)) + 10


def test_a_bench_is_warm_in_colour():
    red, green, blue = seen(drawn("failed part"), (900, 60))
    assert red > green > blue


def test_a_receipt_tells_the_day_the_unit_and_its_owner_a_line_each():
    lines = PdfReader(io.BytesIO(receipt_of(KEYS))).pages[0].extract_text().splitlines()
    assert [line.strip() for line in lines if line.strip()] == [
        "Canal Side Tools, Ashby",
        "RECEIPT",
        "Date  2026-03-02",
        "cut-off saw CS-70",
        "unit HC70-118-24411",
        "engine E70-51234",
        "Sold to  Maud Ellery",
        "Paid in full",
    ]


def test_a_receipt_is_read_from_its_head_down():
    heights = []
    page = PdfReader(io.BytesIO(receipt_of(KEYS))).pages[0]
    page.extract_text(visitor_text=lambda text, _, where, *__: heights.append(where[5]) if text.strip() else None)
    assert heights == sorted(heights, reverse=True)
    assert 0 < heights[-1] < heights[0] < page.mediabox.height


def test_a_receipt_without_a_day_says_that_it_is_cut_off():
    text = PdfReader(io.BytesIO(receipt_of({**KEYS, "dates": {}}))).pages[0].extract_text()
    assert "(cut off)" in text
