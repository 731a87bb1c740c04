import pytest
from builders import a_plan
from pydantic import ValidationError

OPERATIONS = [
    {"code": "a", "hours": "3", "includes": ["b"]},
    {"code": "b", "hours": "2", "includes": ["C"]},
    {"code": "c", "hours": "1"},
]


@pytest.mark.parametrize("code", ["a", "A"])
def test_two_operations_of_one_code_are_refused(code):
    with pytest.raises(ValidationError, match="operation given twice"):
        a_plan(operation=[{"code": "a", "hours": "1"}, {"code": code, "hours": "2"}])


@pytest.mark.parametrize("spelled", ["short-block", "Short Block", "SHORT_BLOCK"])
def test_an_operation_is_found_however_it_is_spelled(spelled):
    plan = a_plan(operation=[{"code": "short-block", "hours": "1.6"}])
    assert plan.scheduled_operation(spelled).code == "short-block"


def test_what_the_schedule_does_not_know_is_not_found():
    assert a_plan().scheduled_operation("short-block") is None


def test_an_operation_includes_what_the_ones_it_includes_do():
    assert a_plan(operation=OPERATIONS).included_in("a") == {"b", "c"}


def test_an_operation_that_includes_nothing_includes_nothing():
    assert a_plan(operation=OPERATIONS).included_in("c") == frozenset()


def test_a_circle_of_operations_comes_to_an_end():
    circle = [{"code": "a", "hours": "1", "includes": ["b"]}, {"code": "b", "hours": "1", "includes": ["a"]}]
    assert a_plan(operation=circle).included_in("a") == {"a", "b"}
