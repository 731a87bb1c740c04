"""The invented shop as `shop demo` leaves it, on a Monday, the morning after the last day it tells of."""

from __future__ import annotations

import datetime as dt
from pathlib import Path

from made_once import made_once
from running import claimpack

NOW = dt.datetime(2026, 11, 30, 12, 0, tzinfo=dt.UTC)
COMMAND = ["shop", "demo", "try"]


@made_once
def a_demo_shop(place: Path) -> Path:
    """What the command makes in a place: 120 claims and their pictures, which takes as long as a hundred tests."""
    # whatever shop the environment names, the invented claims go into the new one alone
    ran = claimpack(*COMMAND, folder=place, now=NOW, environ={"CLAIMPACK_SHOP": "another"})
    if ran.code:
        raise ValueError(ran.err)
    return place / COMMAND[-1]
