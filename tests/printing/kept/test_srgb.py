from __future__ import annotations

import io

import pytest
from PIL import Image, ImageCms

from claimpack.printing.kept.srgb import srgb_profile


@pytest.mark.source("IEC 61966-2-1, as the LittleCMS library has it")
@pytest.mark.parametrize("colour", [(0, 0, 0), (255, 255, 255), (255, 0, 0), (0, 128, 0), (12, 40, 230), (90, 90, 90)])
def test_its_colours_are_those_of_the_standard(colour):
    ours = ImageCms.ImageCmsProfile(io.BytesIO(srgb_profile()))
    theirs = ImageCms.createProfile("sRGB")
    seen = ImageCms.profileToProfile(Image.new("RGB", (1, 1), colour), ours, theirs).getpixel((0, 0))
    assert max(abs(one - other) for one, other in zip(seen, colour, strict=True)) <= 1
