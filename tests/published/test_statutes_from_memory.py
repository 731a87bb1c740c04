"""Rules known from memory alone, written as plans; no template cites them, and nothing here quotes them."""

from __future__ import annotations

import pytest
from written_terms import assessed

FROM_MEMORY = """
# From memory, not read, and so cited by no template. 40 CFR 1054.120(b): two years; with an hour meter a claim beyond
# half of the useful life in hours may be denied (here half of 1,000). 1048.120(b), 1048.101(g): half of the useful life
# in hours or three years; a high-cost part 70 per cent or five years (of 5,000 h and seven years: 2,500 h and 3,500 h).
# 1051.120(b): half of the minimum useful life or 30 months (here half of 1,000 h). 1060.120(b): two years from the
# first retail sale, without a limit by meter.
start = ["delivered"]

[[window]]
id = "small"
covers = ["carburettor"]
uses = ["small"]
period = "P2Y"
hours = 500

[[window]]
id = "large"
covers = ["*"]
except = ["electronic control unit"]
uses = ["large"]
period = "P3Y"
hours = 2500

[[window]]
id = "large-high-cost"
covers = ["electronic control unit"]
uses = ["large"]
period = "P5Y"
hours = 3500

[[window]]
id = "recreational"
covers = ["carburettor"]
uses = ["recreational"]
period = "P30M"
hours = 500

[[window]]
id = "evaporative"
covers = ["fuel line"]
period = "P2Y"
start = ["purchased"]
"""


def from_memory(use: str, component: str, presented: str, meter: str) -> str:
    """The verdict on a unit delivered and first sold on 2022-05-04, its meter as it stands in the claim."""
    claim = f"""
unit = {{use = "{use}", {meter}}}
dates = {{delivered = 2022-05-04, purchased = 2022-05-04, presented = {presented}}}
failure = {{component = "{component}"}}
"""
    return assessed(FROM_MEMORY, claim).verdict


@pytest.mark.memory
@pytest.mark.parametrize(
    ("presented", "meter", "verdict"),
    [
        ("2024-05-04", 'hours = "500"', "covered"),
        ("2024-05-04", 'hours = "500.1"', "not covered"),
        ("2024-05-04", "meter = false", "covered"),
        ("2024-05-05", "meter = false", "not covered"),
    ],
)
def test_a_small_engine_has_two_years_and_with_a_meter_half_of_its_useful_life(presented, meter, verdict):
    # From memory: 40 CFR 1054.120(b).
    assert from_memory("small", "carburettor", presented, meter) == verdict


@pytest.mark.memory
@pytest.mark.parametrize(
    ("component", "presented", "hours", "verdict"),
    [
        ("carburettor", "2025-05-04", "2500", "covered"),
        ("carburettor", "2025-05-04", "2500.1", "not covered"),
        ("carburettor", "2025-05-05", "2500", "not covered"),
        ("electronic control unit", "2027-05-04", "3500", "covered"),
        ("electronic control unit", "2027-05-04", "3500.1", "not covered"),
        ("electronic control unit", "2027-05-05", "3500", "not covered"),
    ],
)
def test_a_large_engine_has_three_years_or_half_of_its_life_and_a_costly_part_more(
    component, presented, hours, verdict
):
    # From memory: 40 CFR 1048.120(b), 1048.101(g).
    assert from_memory("large", component, presented, f'hours = "{hours}"') == verdict


@pytest.mark.memory
@pytest.mark.parametrize(
    ("presented", "hours", "verdict"),
    [
        ("2024-11-04", "500", "covered"),
        ("2024-11-04", "500.1", "not covered"),
        ("2024-11-05", "500", "not covered"),
    ],
)
def test_a_recreational_vehicle_has_thirty_months_or_half_of_its_useful_life(presented, hours, verdict):
    # From memory: 40 CFR 1051.120(b).
    assert from_memory("recreational", "carburettor", presented, f'hours = "{hours}"') == verdict


@pytest.mark.memory
@pytest.mark.parametrize(("presented", "verdict"), [("2024-05-04", "covered"), ("2024-05-05", "not covered")])
def test_a_fuel_line_has_two_years_from_the_first_retail_sale_whatever_the_meter_reads(presented, verdict):
    # From memory: 40 CFR 1060.120(b).
    assert from_memory("small", "fuel line", presented, 'hours = "9000"') == verdict


FEDERAL_TABLE = """
# From memory: the table of 40 CFR 1039.120(b), which agrees with 13 CCR 2425(b)(2).
start = ["delivered"]

[[window]]
id = "under-19-kw"
covers = ["*"]
uses = ["under 19 kW", "constant speed"]
period = "P2Y"
hours = 1500

[[window]]
id = "19-kw-and-over"
covers = ["*"]
uses = ["19 kW and over"]
period = "P5Y"
hours = 3000
"""


@pytest.mark.memory
@pytest.mark.parametrize(
    ("use", "presented", "hours", "verdict"),
    [
        ("under 19 kW", "2024-05-04", "1500", "covered"),
        ("under 19 kW", "2024-05-05", "1500", "not covered"),
        ("constant speed", "2024-05-04", "1500.1", "not covered"),
        ("19 kW and over", "2027-05-04", "3000", "covered"),
        ("19 kW and over", "2027-05-05", "3000", "not covered"),
        ("19 kW and over", "2027-05-04", "3000.1", "not covered"),
    ],
)
def test_the_federal_table_gives_diesel_engines_two_or_five_years(use, presented, hours, verdict):
    # From memory: 40 CFR 1039.120(b), table.
    claim = f'unit = {{use = "{use}", hours = "{hours}"}}\ndates = {{delivered = 2022-05-04, presented = {presented}}}'
    assert assessed(FEDERAL_TABLE, claim).verdict == verdict


CARE = """
start = ["delivered"]

[[window]]
id = "emission"
covers = ["*"]
period = "P2Y"
"""


@pytest.mark.memory
@pytest.mark.parametrize("defect", ["material", "workmanship"])
def test_a_failure_that_no_lack_of_care_caused_is_covered_though_lack_of_care_is_excluded(defect):
    # From memory: 40 CFR 1068.115(b), acts unrelated to the failure and more frequent maintenance are no ground.
    plan = CARE + '[excluded]\ndefects = ["maintenance", "misuse"]'
    dates = "dates = {delivered = 2024-04-15, presented = 2025-04-15}"
    assert assessed(plan, f'{dates}\nfailure = {{component = "engine", defect = "{defect}"}}').verdict == "covered"
