"""The real reader on pictures of the sample claims; few, since each takes seconds."""

from __future__ import annotations

from pathlib import Path

import pytest
from PIL import Image

from claimpack.core.reading.serials import proposed_serials
from claimpack.evidence.reading.letters import can_read_letters
from claimpack.evidence.reading.reading import read_pdf, read_picture

SAMPLE = Path(__file__).parents[3] / "sample_claims" / "26-0041-short-block"
FORMS = {"unit": "H[CT][0-9]{2}-[0-9]{3}-[0-9]{5}"}

needs_the_reader = pytest.mark.skipif(
    not can_read_letters(), reason="the extra `read` is not installed, so no letters were read"
)


@needs_the_reader
@pytest.mark.parametrize("turned", [0, 90])
def test_the_serial_of_a_sample_plate_is_read_however_it_is_held(tmp_path, turned):
    path = tmp_path / "plate.jpg"
    Image.open(SAMPLE / "photos" / "plate.jpg").rotate(turned, expand=True).save(path, quality=90)
    (found,) = proposed_serials(read_picture(path, "plate.jpg", letters=True), FORMS, {})
    assert found.text == "HC70-118-20417"


@needs_the_reader
def test_the_text_of_a_receipt_is_taken_as_it_is():
    lines = read_pdf(SAMPLE / "papers" / "receipt.pdf", "receipt.pdf")
    assert {line.by for line in lines} == {"text"}
    assert "Date of sale 2025-03-14" in [line.text for line in lines]
