from __future__ import annotations

import pytest
from builders import a_plan, a_window
from pydantic import ValidationError

MONTHS = {"full_until": "P12M", "of": "P36M"}
STEPS = [{"until": "P1Y", "maker": "1"}, {"until": "P24M", "maker": "0.50"}]


def window(shares):
    return a_plan(window=[a_window(shares=shares)]).window[0]


@pytest.mark.parametrize(
    "shares",
    [
        MONTHS,
        STEPS,
        STEPS[:1],
        {"of": "P3Y"},
        {"full_until": "P36M", "of": "P36M"},
        {"full_until": "P1Y6M", "of": "P1Y7M"},
        {"full_until": "P1Y1M", "of": "P13M"},
    ],
)
def test_shares_are_written_as_they_were_read(shares):
    assert window(shares).model_dump(mode="json")["shares"] == shares


@pytest.mark.parametrize(
    "shares",
    [
        {"full_until": "P12M"},
        {"of": "P90D"},
        {"full_until": "P37M", "of": "P36M"},
        [MONTHS, {"until": "P40M", "maker": "1"}],
        [{"until": "P12M"}],
        [{"maker": "0.50"}],
        [{}],
        {"of": "P36M", "until": "P12M", "maker": "0.50"},
        [{"until": "P12M", "maker": "0.50", "full_until": "P6M"}],
        {"full_until": "P90D", "of": "P36M"},
        {"full_until": "P2Y2M", "of": "P25M"},
        [{"until": "P24M", "maker": "1"}, {"until": "P12M", "maker": "0.5"}],
        [{"until": "P12M", "maker": "1"}, {"until": "P1Y", "maker": "0.5"}],
        [{"until": "P12M", "maker": "50"}],
    ],
)
def test_shares_that_mean_nothing_are_refused(shares):
    with pytest.raises(ValidationError):
        window(shares)
