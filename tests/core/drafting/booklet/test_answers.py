from __future__ import annotations

import pytest
from booklet_answers import read

from claimpack.core.drafting.booklet.answers import ANSWERS

HOURS = "household.hours"


@pytest.mark.parametrize(
    ("key", "typed"),
    [
        ("shares", "less later"),
        ("shares", "50 % until a while"),
        ("labour_rates", "98.00"),
        ("extras", "lunch 20"),
        ("travel", "0.65"),
        ("handling", "a lot"),
        ("findings", "42"),
        ("serials", "HC70"),
        (HOURS, "many"),
    ],
)
def test_what_cannot_be_read_one_way_is_refused(key, typed):
    with pytest.raises(ValueError, match=r"as in|such as"):
        read(key, typed)


@pytest.mark.parametrize("key", ANSWERS)
def test_what_was_read_is_said_back_in_words_that_are_read_alike(key):
    typed = {
        "shares": "100 % until 12 months, 50 % until 24 months",
        "handling": "30 % up to 50, 10 % above",
        "labour_rates": "",
        "extras": "freight 50, travel 20",
        "travel": "0.65 a mile, up to 100 miles",
        "unit_cap": "",
        "papers": "maintenance record; invoice",
        "findings": "compression; leak-down",
        "serials": "A-1 .. A-9",
        "model_years": "2024 to 2026",
    }[key]
    if typed:
        assert ANSWERS[key].said(read(key, typed)) == typed
