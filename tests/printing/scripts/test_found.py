from __future__ import annotations

import io

import pytest
from PIL import ImageFont

from claimpack.printing.scripts.found import face_for, file_of, has


@pytest.mark.parametrize(("script", "letter"), [("Hebrew", "ש"), ("Arabic", "م")])
def test_the_extra_brings_a_typeface(script, letter):
    pytest.importorskip("justmytype_intl_rtl")
    face = face_for(script)
    assert face is not None
    assert (has(face, letter), has(face, "山")) == (True, False)


def test_a_found_typeface_can_be_drawn_in_pictures():
    pytest.importorskip("justmytype_intl_rtl")
    font = ImageFont.truetype(io.BytesIO(file_of(face_for("Hebrew")).read()), 20)
    assert font.getlength("ש") > 5
