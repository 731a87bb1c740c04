from datetime import date

import pytest
from builders import a_claim, a_plan

from claimpack.core.holding import hold, tags

TWO = [{"part": "short block", "shelf": "B3"}, {"part": "starter", "serial": "S-1"}]
HOLD = {"hold": {"for": "P90D", "of": "filed"}}


def test_every_held_part_has_a_tag_in_the_claims_order():
    assert [(tag.part, tag.index, tag.of) for tag in tags(a_claim(held=TWO), None)] == [
        ("short block", 1, 2),
        ("starter", 2, 2),
    ]


def test_no_held_part_has_no_tag():
    assert tags(a_claim(), a_plan()) == ()


def test_a_code_is_the_claim_and_the_part():
    assert [tag.code for tag in tags(a_claim(held=TWO), None)] == ["26-0001/1", "26-0001/2"]


@pytest.mark.parametrize(("name", "maker"), [("Halden Works", "Halden Works"), ("", "halden")])
def test_a_maker_is_called_by_its_name(name, maker):
    assert tags(a_claim(held=TWO), a_plan(maker_name=name))[0].maker == maker


@pytest.mark.parametrize(
    ("serials", "serial"),
    [
        ([{"role": "engine", "value": "E"}, {"role": "unit", "value": "U"}], "U"),
        ([{"role": "engine", "value": "E"}], "E"),
        ([], ""),
    ],
)
def test_the_units_serial_comes_first(serials, serial):
    assert tags(a_claim(unit__serials=serials, held=TWO), None)[0].serial == serial


@pytest.mark.parametrize(
    ("of", "until"),
    [("filed", date(2026, 6, 29)), ("paid", date(2026, 7, 30)), ("repaired", date(2026, 5, 25))],
)
def test_a_part_is_held_from_the_day_the_plan_says(of, until):
    plan = a_plan(hold={"for": "P90D", "of": of})
    assert hold(a_claim(), plan, filed=date(2026, 3, 31), paid=date(2026, 5, 1))[0] == until


def test_a_hold_without_its_first_day_has_no_last():
    assert hold(a_claim(), a_plan(**HOLD), None, None) == (
        None,
        "90 days from the day it is filed, or until the maker releases it",
    )


@pytest.mark.parametrize("plan", [None, a_plan()])
def test_without_a_rule_a_part_is_held_until_the_maker_lets_it_go(plan):
    assert hold(a_claim(), plan, None, None) == (None, "until the maker releases it")


def test_a_tag_tells_the_dangers_of_its_part():
    assert "Fire hazard" in tags(a_claim(held=TWO), None)[0].cautions[0]
