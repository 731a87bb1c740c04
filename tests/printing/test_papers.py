from __future__ import annotations

import pytest

from claimpack.printing.papers import MM, PAPERS


@pytest.mark.source("ISO 216")
def test_a4_is_210_by_297_millimetres():
    assert PAPERS["a4"] == pytest.approx((210 * MM, 297 * MM), abs=0.001)


def test_letter_is_eight_and_a_half_by_eleven_inches():
    assert PAPERS["letter"] == (8.5 * 72, 11 * 72)
