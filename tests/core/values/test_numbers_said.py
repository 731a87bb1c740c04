from __future__ import annotations

from decimal import Decimal

import pytest

from claimpack.core.values.numbers_said import hours_said, how_many


@pytest.mark.parametrize(("count", "said"), [(0, "0 claims"), (1, "1 claim"), (2, "2 claims"), (1204, "1,204 claims")])
def test_one_is_told_from_many(count, said):
    assert how_many(count, "claim") == said


def test_a_plural_that_an_s_does_not_make_is_given():
    assert how_many(2, "history", "histories") == "2 histories"


@pytest.mark.parametrize("hours", ["0.5", "112", "112.40"])
def test_hours_keep_the_decimals_they_were_written_with(hours):
    assert hours_said(Decimal(hours)) == f"{hours} h"
