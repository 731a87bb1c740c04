"""Three years for model years 2024 to 2026, and the gear case of one range of serial numbers for five."""

from __future__ import annotations

import pytest
from written_terms import assessed

BOOKLET = """
[[window]]
id = "unit"
covers = ["*"]
model_years = [2024, 2026]
period = "P3Y"

[[window]]
id = "gear-case"
covers = ["gear case"]
serials = ["HC70-118-20000 .. HC70-118-29999"]
period = "P5Y"

[words]
engine = []
"""


def judged(component: str, model_year: str, serial: str) -> tuple[str, tuple[str, ...]]:
    """The verdict and what it asks for, two years and a day from the sale."""
    unit = [f"model_year = {model_year}"] if model_year else []
    unit += [f'serials = [ {{role = "unit", value = "{serial}"}} ]'] if serial else ["serials = []"]
    claim = f"""
unit = {{model = "CS-70", {", ".join(unit)}}}
dates = {{purchased = 2024-03-14, presented = 2026-03-15}}
failure = {{component = "{component}", defect = "material"}}
"""
    found = assessed(BOOKLET, claim)
    return found.verdict, found.asks


@pytest.mark.parametrize(
    ("year", "answer"),
    [
        ("2023", ("not covered", ())),
        ("2024", ("covered", ())),
        ("2025", ("covered", ())),
        ("2026", ("covered", ())),
        ("2027", ("not covered", ())),
        ("", ("undecided", ("unit.model_year",))),
    ],
)
def test_both_model_years_are_in(year, answer):
    assert judged("engine", year, "HC70-118-20417") == answer


@pytest.mark.parametrize(
    ("serial", "answer"),
    [
        ("HC70-118-19999", ("not covered", ())),
        ("HC70-118-20000", ("covered", ())),
        ("hc7011829999", ("covered", ())),
        ("HC70-118-30000", ("not covered", ())),
        ("HC70-119-20417", ("not covered", ())),
        ("", ("undecided", ("unit.serials",))),
    ],
)
def test_both_serial_numbers_are_in(serial, answer):
    assert judged("gear case", "2023", serial) == answer
