"""Plans written from the wording of statutes, and claims under them; each window cites its section."""

from __future__ import annotations

import pytest
from written_terms import assessed

LIGHT_DUTY = """
# 42 USC 7541(i)(1): two years or 24,000 miles, whichever first occurs. (i)(2): eight years or 80,000 miles, whichever
# first occurs, for specified major emission control components.
start = ["delivered"]

[[window]]
id = "emission"
covers = ["*"]
period = "P2Y"
limits = [ {meter = "miles", at = "24000"} ]
cites = "42 USC 7541(i)(1)"
read_on = 2026-11-25

[[window]]
id = "major-components"
covers = ["catalytic converter", "electronic control unit", "diagnostics device"]
period = "P8Y"
limits = [ {meter = "miles", at = "80000"} ]
cites = "42 USC 7541(i)(2)"
read_on = 2026-11-25

[words]
"oxygen sensor" = []
"""


def light_duty(component: str, presented: str, miles: str) -> tuple[str, list[str]]:
    """The verdict, and what closed the windows about the component."""
    claim = f"""
unit = {{meters = [ {{kind = "miles", value = "{miles}"}} ]}}
dates = {{delivered = 2020-05-04, presented = {presented}}}
failure = {{component = "{component}"}}
"""
    found = assessed(LIGHT_DUTY, claim)
    about = [window for window in found.windows if window.applies]
    return found.verdict, [why.rule for window in about for why in window.reasons if why.outcome == "fail"]


@pytest.mark.source("42 USC 7541(i)(1)-(2)")
@pytest.mark.parametrize(
    ("component", "presented", "miles", "found"),
    [
        ("oxygen sensor", "2022-05-04", "24000", ("covered", [])),
        ("oxygen sensor", "2022-05-05", "24000", ("not covered", ["age"])),
        ("oxygen sensor", "2022-05-04", "24001", ("not covered", ["meter"])),
        ("catalytic converter", "2028-05-04", "80000", ("covered", ["age", "meter"])),
        ("catalytic converter", "2028-05-05", "70000", ("not covered", ["age", "meter", "age"])),
        ("catalytic converter", "2027-05-04", "80001", ("not covered", ["age", "meter", "meter"])),
    ],
)
def test_major_components_have_eight_years_and_the_others_two_by_age_or_distance(component, presented, miles, found):
    assert light_duty(component, presented, miles) == found


MARINE = """
# 13 CCR 2445.1(a): the warranty period begins on the date the engine is delivered to an ultimate purchaser, or first
# placed in service, as a demonstrator is. The section's length is not read here: this one has two years.
start = {earliest = ["delivered", "in_service"]}

[[window]]
id = "emission"
covers = ["*"]
period = "P2Y"
cites = "13 CCR 2445.1(a)"
read_on = 2026-11-25
"""


@pytest.mark.source("13 CCR 2445.1(a): delivered, or first placed in service")
@pytest.mark.parametrize(
    ("used", "starts"),
    [(", in_service = 2024-03-01", "2024-03-01"), (", in_service = 2024-04-20", "2024-04-15"), ("", "2024-04-15")],
    ids=["a demonstrator", "laid up before its first use", "used from the day it was delivered"],
)
def test_cover_starts_with_the_delivery_or_with_first_use_before_it(used, starts):
    found = assessed(MARINE, f"dates = {{delivered = 2024-04-15, presented = 2025-04-15{used}}}")
    assert (found.verdict, str(found.starts)) == ("covered", starts)


@pytest.mark.practice
def test_a_window_of_law_says_its_section_and_that_it_is_no_advice():
    found = assessed(MARINE, "dates = {delivered = 2024-04-15, presented = 2025-04-15}")
    (law,) = [reason.says for reason in found.reasons if reason.rule == "law"]
    assert (law.facts["cites"], "not legal advice" in str(law)) == ("13 CCR 2445.1(a)", True)


FEDERAL_DIESEL = """
# 40 CFR 1039.120(a): to the ultimate purchaser and each subsequent purchaser. (b): at least as long as the shorter of
# hours and years; an engine without an hour meter is warranted by its age alone; no shorter than any other warranty
# that is given for the engine without charge. Here: 24 months or 1,500 hours, and a free mechanical one of 36 months.
start = ["delivered"]

[[window]]
id = "emission"
covers = ["*"]
period = "P24M"
hours = 1500
cites = "40 CFR 1039.120(b)"
read_on = 2026-11-25

[[window]]
id = "mechanical"
covers = ["*"]
period = "P36M"
cites = "basic mechanical warranty"
"""


@pytest.mark.source("40 CFR 1039.120(a), (b), derived: emission cover is not shorter than other free cover")
@pytest.mark.parametrize(
    ("presented", "found"),
    [
        ("2026-05-04", ("covered", "mechanical")),
        ("2027-05-04", ("covered", "mechanical")),
        ("2027-05-05", ("not covered", "")),
    ],
)
def test_a_later_owner_has_the_longer_of_two_free_warranties(presented, found):
    claim = f"""
owner = {{first_owner = false}}
unit = {{meter = false}}
dates = {{delivered = 2024-05-04, presented = {presented}}}
"""
    judged = assessed(FEDERAL_DIESEL, claim)
    assert (judged.verdict, judged.window.id if judged.window else "") == found


@pytest.mark.source("40 CFR 1039.120(b): an engine without an hour meter goes by its age")
def test_an_engine_without_an_hour_meter_goes_by_its_age():
    claim = "unit = {meter = false}\ndates = {delivered = 2024-05-04, presented = 2026-05-05}"
    emission = assessed(FEDERAL_DIESEL, claim).windows[0]
    assert [reason.rule for reason in emission.reasons if reason.outcome == "fail"] == ["age"]


@pytest.mark.source("40 CFR 1039.120(a), (b): hours and years, whichever comes first; to each subsequent purchaser")
@pytest.mark.parametrize(
    ("presented", "hours", "found"),
    [
        ("2026-05-04", "1500", []),
        ("2026-05-04", "1500.1", ["hours"]),
        ("2026-05-05", "1500", ["age"]),
    ],
)
def test_federal_diesel_cover_ends_with_hours_or_years_whichever_comes_first(presented, hours, found):
    claim = f"""
owner = {{first_owner = false}}
unit = {{hours = "{hours}"}}
dates = {{delivered = 2024-05-04, presented = {presented}}}
"""
    emission = assessed(FEDERAL_DIESEL, claim).windows[0]
    assert [reason.rule for reason in emission.reasons if reason.outcome == "fail"] == found


@pytest.mark.source("13 CCR 2406(a), statement: diagnosis of a covered failure is free of charge to the owner")
def test_diagnosis_of_a_covered_failure_is_claimed_and_the_owner_owes_nothing():
    plan = MARINE + '[pays]\nlabour_rate = "100.00"'
    work = 'labour = [ {operation = "find the fault", hours = "0.5"}, {operation = "mend it", hours = "1.0"} ]'
    amounts = assessed(plan, f"{work}\ndates = {{delivered = 2024-04-15, presented = 2025-04-15}}").amounts
    assert (str(amounts.claimed), str(amounts.owner)) == ("150.00", "0.00")


@pytest.mark.source("13 CCR 2426(a), statement: missing receipts of maintenance alone are no ground to deny")
def test_a_claim_without_receipts_of_maintenance_is_covered():
    plan = MARINE + '[excluded]\ndefects = ["maintenance"]'
    dates = "dates = {delivered = 2024-04-15, presented = 2025-04-15}"
    assert assessed(plan, f'{dates}\nfailure = {{component = "engine", defect = "material"}}').verdict == "covered"
