from __future__ import annotations

import io
import struct

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


@pytest.mark.source("ICC.1:2022 7.2.2, 7.3.1, 7.3.5")
def test_its_table_leads_to_every_tag_on_whole_words_with_nothing_between_or_behind():
    profile = srgb_profile()
    size, count = struct.unpack(">I", profile[:4])[0], struct.unpack(">I", profile[128:132])[0]
    tags = [struct.unpack(">4sII", profile[at : at + 12]) for at in range(132, 132 + 12 * count, 12)]
    places = sorted({(at, length) for _, at, length in tags})
    ends = [132 + 12 * count, *(at + length + -length % 4 for at, length in places)]
    assert [at for at, _ in places] == ends[:-1]
    assert (size, len(profile)) == (ends[-1], ends[-1])
    assert [at % 4 for at, _ in places] == [0] * len(places)
    assert {name for name, at, _ in tags if profile[at : at + 4] == b"para"} == {b"rTRC", b"gTRC", b"bTRC"}
