from __future__ import annotations

from decimal import Decimal

import pytest

from claimpack.commands.plans.booklet.reading import number, rest_or_time, share, some_of, time, words, yes
from claimpack.core.values.periods import period


@pytest.mark.parametrize("typed", ["none", "No", "NOTHING", "never"])
@pytest.mark.parametrize("read", [time, rest_or_time, number, share])
def test_where_there_is_none_a_figure_is_none(read, typed):
    assert read(typed) is None


@pytest.mark.parametrize(
    ("read", "typed", "meant"),
    [
        (time, "24 months", period("P24M")),
        (rest_or_time, "90 days", period("P90D")),
        (rest_or_time, "Rest", "rest"),
        (number, "12.50", Decimal("12.50")),
        (share, "50%", Decimal("0.50")),
        (words, "engine, carburetor", ["engine", "carburetor"]),
        (words, "none", []),
        (yes, "Y", True),
        (yes, "yes", True),
        (yes, "n", False),
        (yes, "No", False),
        (some_of(("parts", "labour")), "labour", ["labour"]),
    ],
)
def test_an_answer_is_read_as_it_is_meant(read, typed, meant):
    assert read(typed) == meant


@pytest.mark.parametrize(("read", "typed"), [(yes, "perhaps"), (some_of(("parts", "labour")), "parts, freight")])
def test_an_answer_of_no_meaning_is_refused(read, typed):
    with pytest.raises(ValueError, match=r"yes or no|'freight'"):
        read(typed)
