from __future__ import annotations

import tomllib
from decimal import Decimal

import pytest

from claimpack.core.drafting.booklet_terms import ANSWERS, answer_of
from claimpack.core.drafting.key_list import as_toml

HOURS = "household.hours"


def read(key, typed):
    return answer_of(key).read(typed, Decimal)


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
        ("handling", "20 %", '"0.2"'),
        ("handling", "30 % up to 50.00, 10 % above", '[{up_to = "50.00", rate = "0.3"}, {rate = "0.1"}]'),
        ("labour_rates", "engine 98; level gold 102", '[{class="engine", rate="98"}, {level="gold", rate="102"}]'),
        ("labour_rates", "from 2026-07-01 95.00", '[{from = "2026-07-01", rate = "95.00"}]'),
        ("labour_rates", "level gold engine 99", '[{level = "gold", class = "engine", rate = "99"}]'),
        (
            "extras",
            "freight 50.00, outside work 200 with approval",
            '[{kind = "freight", cap = "50.00"}, {kind = "sublet", cap = "200", approval = true}]',
        ),
        (
            "travel",
            "0.65 a mile, up to 100 miles, at most 65.00",
            '{kind = "travel", per = "0.65", of = "mile", most_distance = "100", most = "65.00"}',
        ),
        ("travel", "40 per visit", '{kind = "travel", per = "40", of = "visit"}'),
        ("unit_cap", "600.00 a year", '{amount = "600.00", per = "year"}'),
        ("unit_cap", "1200", '{amount = "1200", per = "life"}'),
        ("papers", "maintenance record for engine and gearbox; service invoice",
         '[{kind = "maintenance record", components = ["engine", "gearbox"]}, {kind = "service invoice"}]'),
        ("findings", "capacity 70 % or less for battery",
         '[{what = "capacity", unit = "%", at_most = "70", components = ["battery"]}]'),
        ("findings", "compression; leak-down 10 or more", '[{what="compression"}, {what="leak-down", at_least="10"}]'),
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
    limits = read(HOURS, typed)
    assert (list(limits.readings), limits.whichever) == (readings, whichever)


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
