from __future__ import annotations

from decimal import Decimal

import pytest

from claimpack.core.values.numbers_said import figures_said, hours_said, how_many


@pytest.mark.parametrize(("count", "said"), [(0, "0 claims"), (1, "1 claim"), (2, "2 claims"), (1204, "1,204 claims")])
def test_one_is_told_from_many(count, said):
    assert how_many(count, "claim") == said


def test_a_plural_that_an_s_does_not_make_is_given():
    assert how_many(2, "history", "histories") == "2 histories"


@pytest.mark.parametrize("hours", ["0.5", "112", "112.40"])
def test_hours_keep_the_decimals_they_were_written_with(hours):
    assert hours_said(Decimal(hours)) == f"{hours} h"


def test_hours_above_a_thousand_stand_apart():
    assert hours_said(Decimal("1240.5")) == "1,240.5 h"


@pytest.mark.parametrize(
    ("written", "said"),
    [
        ("1908.82 USD", "1,908.82 USD"),
        ("12,345.00 USD", "12,345.00 USD"),
        ("1240.5 (830.5 + 1410)", "1,240.5 (830.5 + 1,410)"),
        ("1200 cycles, 2000 h or 999 h", "1,200 cycles, 2,000 h or 999 h"),
        ("-1500.00", "-1,500.00"),
        ("2026-06-23", "2026-06-23"),
        ("HC70-118-20417 E2045 0041", "HC70-118-20417 E2045 0041"),
        ("1.23456", "1.23456"),
    ],
)
def test_figures_in_what_was_written_stand_apart_and_nothing_else_changes(written, said):
    assert figures_said(written) == said


def test_figures_stand_apart_as_in_the_language_told():
    assert figures_said("1,908.82 USD", "es-MX") == "1\N{NO-BREAK SPACE}908.82 USD"
