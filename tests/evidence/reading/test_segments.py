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
