from __future__ import annotations

import pytest

from claimpack.printing.lengths import points


@pytest.mark.parametrize(
    ("text", "length"), [("171 pt", 171), ("4in", 288), ("25.4 mm", 72), ("0.5 mm", 1.41732), ("125 in", 9000)]
)
def test_a_length_carries_its_unit(text, length):
    assert points(text) == pytest.approx(length, abs=1e-5)


@pytest.mark.parametrize("text", ["171", "-3 mm", "4 cm", "", "1e3 pt", 171, None, "99999 in", "125.0001 in"])
def test_what_is_no_length_is_refused(text):
    with pytest.raises(ValueError, match=r"is not a length|longer than any"):
        points(text)
