from __future__ import annotations

import pytest
from booklet_answers import read

from claimpack.core.drafting.booklet.answers import ANSWERS, answer_of

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


SAID_BACK = [
    ("shares", "100 % until 12 months, 50 % until 24 months"),
    ("handling", "20 %"),
    ("handling", "30 % up to 50, 10 % above"),
    ("extras", "freight 50, travel 20"),
    ("travel", "0.65 a mile, up to 100 miles"),
    ("papers", "maintenance record; invoice"),
    ("findings", "compression; leak-down"),
    ("serials", "A-1 .. A-9"),
    ("model_years", "2024 to 2026"),
    (HOURS, "300 hours, 5000 cycles"),
    (HOURS, "300 hours, 5000 cycles, whichever is last"),
]
IN_OTHER_WORDS = [
    ("shares", "by month, of 36 months", "by the whole months left of 36 months"),
    (
        "shares",
        "by month, full until 12 months, of 36 months",
        "full until 12 months, then by the whole months left of 36 months",
    ),
    (
        "labour_rates",
        "engine 98; level gold 102; from 2026-07-01 95",
        "engine work: 98; level gold: 102; from 2026-07-01 on: 95",
    ),
    ("unit_cap", "600 a year", "600 in each year of cover"),
    ("unit_cap", "1200", "1200 in all"),
    ("papers", "service record for engine and clutch", "service record, for engine, clutch"),
    (
        "findings",
        "capacity 70 % or less for battery; leak-down 10 or more",
        "capacity, failed at 70 % or less, for battery; leak-down, failed at 10 or more",
    ),
]


@pytest.mark.parametrize(("key", "typed"), SAID_BACK)
def test_what_was_read_is_said_back_in_words_that_are_read_alike(key, typed):
    assert answer_of(key).said(read(key, typed)) == typed


@pytest.mark.parametrize(("key", "typed", "said"), IN_OTHER_WORDS)
def test_what_was_read_is_said_back_in_other_words_where_they_are_plainer(key, typed, said):
    assert answer_of(key).said(read(key, typed)) == said


def test_every_answer_that_says_several_things_is_said_back():
    assert {key for key, *_ in (*SAID_BACK, *IN_OTHER_WORDS)} == {*ANSWERS, HOURS}
