from __future__ import annotations

import tomllib

import pytest
from booklet_answers import read

from claimpack.core.drafting.key_list import as_toml


@pytest.mark.parametrize(
    ("key", "typed", "toml"),
    [
        (
            "shares",
            "100 % until 12 months, 50 % until 2 years",
            '[{until = "P12M", maker = "1"}, {until = "P2Y", maker = "0.5"}]',
        ),
        ("shares", "all until 1 year; half to 18 months", '[{until="P1Y", maker="1"}, {until="P18M", maker="0.5"}]'),
        ("shares", "By month, full until 12 months, of 36 months", '{full_until = "P12M", of = "P36M"}'),
        ("shares", "by the months of 24 months", '{of = "P24M"}'),
        ("serials", "HC70-118-20000 to HC70-118-29999", '["HC70-118-20000 .. HC70-118-29999"]'),
        ("model_years", "2024 to 2026", "[2024, 2026]"),
        ("model_years", "2024", "[2024, 2024]"),
    ],
)  # fmt: skip
def test_what_a_person_writes_is_read_as_the_keys_of_a_plan(key, typed, toml):
    assert tomllib.loads(f"it = {as_toml(read(key, typed))}") == tomllib.loads(f"it = {toml}")


@pytest.mark.parametrize(
    ("typed", "readings", "whichever"),
    [
        ("300", [("hours", 300)], "first"),
        ("300 h, 5000 cycles, whichever is last", [("hours", 300), ("cycles", 5000)], "last"),
        ("500 trips", [("trips", 500)], "first"),
    ],
)
def test_limits_name_their_meters(typed, readings, whichever):
    limits = read("household.hours", typed)
    assert (list(limits.readings), limits.whichever) == (readings, whichever)
