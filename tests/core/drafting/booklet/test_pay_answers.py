from __future__ import annotations

import tomllib

import pytest
from booklet_answers import read

from claimpack.core.drafting.key_list import as_toml


@pytest.mark.parametrize(
    ("key", "typed", "toml"),
    [
        ("handling", "20 %", '"0.2"'),
        ("handling", "30 % up to 50.00, 10 % above", '[{up_to = "50.00", rate = "0.3"}, {rate = "0.1"}]'),
        ("handling", "10 % above, 30 % up to 50.00", '[{rate = "0.1"}, {up_to = "50.00", rate = "0.3"}]'),
        ("handling", "30 % up to 50.00", '[{up_to = "50.00", rate = "0.3"}]'),
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
    ],
)  # fmt: skip
def test_what_a_person_writes_is_read_as_the_keys_of_a_plan(key, typed, toml):
    assert tomllib.loads(f"it = {as_toml(read(key, typed))}") == tomllib.loads(f"it = {toml}")
