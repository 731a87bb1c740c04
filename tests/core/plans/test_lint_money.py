import pytest
from builders import a_plan

from claimpack.core.plans.lint_money import (
    cap_below_the_deductible,
    claims_never_paid,
    diagnosis_of_nothing,
    pays_nothing,
    rates_for_nobody,
    rates_that_compete,
)

ENGINE, TRIM, GOLD = {"class": "engine", "rate": "98"}, {"class": "trim", "rate": "80"}, {"level": "gold", "rate": "99"}
BLOCK = {"code": "block", "name": "Replace block", "hours": "1.6", "class": "Engine"}


@pytest.mark.parametrize(
    ("rate", "rates", "told"),
    [
        ("92", [], 0),
        ("0", [], 1),
        ("0", [{"rate": "95"}], 0),
        ("0", [ENGINE], 1),
        ("0", [GOLD], 1),
        ("0", [{"from": "2026-01-01", "rate": "95"}], 1),
    ],
    ids=["a rate", "none", "one for every hour", "one for a class", "one for a level", "one from a day on"],
)
def test_a_plan_without_a_rate_for_every_hour_pays_some_nothing(rate, rates, told):
    assert len(list(pays_nothing(a_plan(pays={"labour_rate": rate, "labour_rates": rates})))) == told


@pytest.mark.parametrize(
    ("rates", "told"),
    [([ENGINE], []), ([TRIM], ["'trim'"]), ([GOLD], []), ([TRIM | GOLD], ["'trim'"])],
    ids=["of an operation", "of no operation", "of a level", "of no operation, at a level"],
)
def test_a_rate_for_a_class_of_no_operation_is_told(rates, told):
    found = rates_for_nobody(a_plan(operation=[BLOCK], pays__labour_rates=rates))
    assert [doubt.split()[6].rstrip(".") for doubt in found] == told


def test_where_there_is_no_schedule_a_rate_may_be_for_any_class():
    assert list(rates_for_nobody(a_plan(pays__labour_rates=[TRIM]))) == []


@pytest.mark.parametrize(
    ("rates", "told"),
    [
        ([ENGINE, GOLD], 1),
        ([ENGINE, TRIM, GOLD], 2),
        ([ENGINE, GOLD, ENGINE | GOLD], 0),
        ([TRIM | {"level": "silver"}, GOLD], 0),
        ([ENGINE | GOLD, TRIM], 0),
        ([ENGINE, TRIM], 0),
        ([GOLD, {"rate": "90"}], 0),
    ],
    ids=[
        "a class and a level",
        "two classes and a level",
        "one for both as well",
        "a class at another level",
        "a level of another class",
        "classes alone",
        "a level and every hour",
    ],
)
def test_a_rate_for_a_class_and_one_for_a_level_that_both_fit_are_told(rates, told):
    assert len(list(rates_that_compete(a_plan(pays__labour_rates=rates)))) == told


@pytest.mark.parametrize(
    ("operation", "told"),
    [("Block", 0), ("blok", 1), ("replace the block", 1), ("polish", 0)],
    ids=["its code", "nearly its code", "nearly its name", "free text"],
)
def test_a_diagnosis_that_is_nearly_an_operation_is_told(operation, told):
    plan = a_plan(operation=[BLOCK], pays__diagnosis={"operation": operation})
    assert len(list(diagnosis_of_nothing(plan))) == told


@pytest.mark.parametrize(("cap", "told"), [("24.99", 1), ("25.00", 1), ("25.01", 0)])
def test_a_cap_of_the_unit_that_the_deductible_takes_whole_is_told(cap, told):
    pays = {"unit_cap": {"amount": cap, "per": "life"}, "deductible": {"amount": "25.00"}}
    assert len(list(cap_below_the_deductible(a_plan(pays=pays)))) == told


@pytest.mark.parametrize(
    "pays", [{"unit_cap": {"amount": "10", "per": "life"}}, {"deductible": {"amount": "25"}}], ids=["cap", "deductible"]
)
def test_a_cap_or_a_deductible_alone_takes_nothing_from_the_other(pays):
    assert list(cap_below_the_deductible(a_plan(pays=pays))) == []


@pytest.mark.parametrize(
    ("pays", "told"),
    [
        ({"claim_cap": "50", "claim_least": "49.99"}, 0),
        ({"claim_cap": "50", "claim_least": "50"}, 0),
        ({"claim_cap": "50", "claim_least": "50.01"}, 1),
        ({"claim_cap": "50", "claim_least": "40", "deductible": {"amount": "10"}}, 0),
        ({"claim_cap": "50", "claim_least": "40.01", "deductible": {"amount": "10"}}, 1),
        ({"claim_cap": "50", "deductible": {"amount": "50.01"}}, 1),
        ({"claim_least": "40", "deductible": {"amount": "50"}}, 0),
    ],
)
def test_a_least_that_no_claim_comes_to_is_told(pays, told):
    assert len(list(claims_never_paid(a_plan(pays=pays)))) == told
