from __future__ import annotations

import pytest
import zxingcpp
from inked import ink_on, page_of
from PIL import ImageOps

from claimpack.printing.codes import bars, square


def read(page):
    """What a scanner finds on a page that lies on white."""
    picture = ImageOps.expand(page.render(scale=5).to_pil().convert("L"), border=60, fill=255)
    return [(found.format.name, found.text) for found in zxingcpp.read_barcodes(picture)]


def points_on(page):
    """The corners of all that is drawn, across and down."""
    across, down = zip(*(point for path in ink_on(page) for point in path.points), strict=True)
    return across, down


@pytest.mark.parametrize("code", ["26-0001/1", "QRSE-ASHBY-2026-WA-00413/12"])
def test_a_square_code_is_read_and_fills_its_room_to_every_edge(code):
    page = page_of(square(code, 60), 60)
    assert read(page) == [("QRCode", code)]
    across, down = points_on(page)
    assert (min(across), max(across), min(down), max(down)) == pytest.approx((0, 60, 0, 60), abs=0.01)


@pytest.mark.source("ISO/IEC 15417: ten blank modules on each side of the bars")
def test_bars_are_read_and_bring_the_white_that_a_scanner_needs_beside_them():
    piece = bars("26-0001/1", 0.8, 20)
    page = page_of(piece, 300)
    assert read(page) == [("Code128", "26-0001/1")]
    across, down = points_on(page)
    assert min(across) >= 10 * 0.8
    assert max(across) <= piece.width - 10 * 0.8
    assert (min(down), max(down)) == pytest.approx((0, 20), abs=0.01)
