from datetime import date

import pytest
from builders import a_plan, a_window
from pydantic import ValidationError

from claimpack.core.clauses.starts import start_rule
from claimpack.core.clauses.window import Window
from claimpack.core.plans.plan import WindowSet

STATUTE = WindowSet(
    id="us-xx",
    name="A statute",
    cites="XX Code 1",
    read_on="2026-11-25",
    start=["delivered"],
    window=[Window(id="us-xx", covers=["ignition coil"], period="P2Y")],
)

OPERATIONS = [
    {"code": "a", "hours": "3", "includes": ["b"]},
    {"code": "b", "hours": "2", "includes": ["C"]},
    {"code": "c", "hours": "1"},
]


@pytest.mark.parametrize("wrong", ["", "Engine", "-a", "a b", "a" * 61, "ä"])
def test_an_id_is_small_letters_digits_and_hyphens(wrong):
    with pytest.raises(ValidationError, match="id"):
        a_plan(id=wrong)


def test_a_window_must_cover_something():
    with pytest.raises(ValidationError, match="covers"):
        a_plan(window=[a_window(covers=[])])


def test_a_plan_must_have_a_window():
    with pytest.raises(ValidationError, match="window"):
        a_plan(window=[])


def test_two_windows_of_one_id_are_refused():
    with pytest.raises(ValidationError, match="window id given twice: engine"):
        a_plan(window=[a_window(), a_window()])


@pytest.mark.parametrize("code", ["a", "A"])
def test_two_operations_of_one_code_are_refused(code):
    with pytest.raises(ValidationError, match="operation given twice"):
        a_plan(operation=[{"code": "a", "hours": "1"}, {"code": code, "hours": "2"}])


def test_days_of_sale_run_forward():
    with pytest.raises(ValidationError, match="lies before sold_from"):
        a_plan(sold_from="2026-01-01", sold_until="2025-12-31")


def test_registration_that_adds_needs_a_day_to_register_by():
    with pytest.raises(ValidationError, match="registered_within"):
        a_plan(window=[a_window(registered_adds="P12M")])


def test_a_replaced_part_must_have_some_cover():
    with pytest.raises(ValidationError, match="the part has no cover"):
        a_plan(replaced={"keeps_remaining": False})


def test_a_serial_pattern_must_be_one():
    with pytest.raises(ValidationError, match="no regular expression"):
        a_plan(requires__serial_patterns={"unit": "[A-"})


def test_a_period_must_not_be_empty():
    with pytest.raises(ValidationError, match="empty period"):
        a_plan(window=[a_window(period="P0D")])


def test_a_labour_rate_is_no_binary_float():
    with pytest.raises(ValidationError, match="decimal number"):
        a_plan(pays__labour_rate=92.5)


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


def test_a_statute_adds_its_windows_behind_the_plans_own():
    assert [window.id for window in a_plan().with_windows_of(STATUTE).window] == ["engine", "us-xx"]


def test_a_window_of_a_statute_carries_its_name_section_and_start():
    window = a_plan().with_windows_of(STATUTE).window[-1]
    assert (window.name, window.cites, window.start) == ("A statute", "XX Code 1", start_rule("delivered"))


def test_a_window_of_a_statute_keeps_a_section_of_its_own():
    own = STATUTE.model_copy(update={"window": (STATUTE.window[0].model_copy(update={"cites": "XX Code 2"}),)})
    assert a_plan().with_windows_of(own).window[-1].cites == "XX Code 2"


def test_another_word_stands_for_one_component_alone():
    words = {"connecting rod": ["con rod"], "piston rod": ["rod, con"]}
    with pytest.raises(ValidationError, match="'rod, con' stands for both 'connecting rod' and 'piston rod'"):
        a_plan(words=words)


def test_a_limit_of_the_hour_meter_is_told_apart_from_those_of_others():
    limits = [{"meter": "Hours", "at": "300"}, {"meter": "cycles", "at": "9000"}]
    window = a_plan(window=[a_window(limits=limits)]).window[0]
    assert (window.hour_limit, [limit.meter for limit in window.other_limits]) == (300, ["cycles"])


@pytest.mark.parametrize(
    ("keys", "limit", "decides"),
    [
        ({"at_most": "70", "unit": "%"}, "70 %", True),
        ({"at_least": "0"}, "0", True),
        ({"unit": "psi"}, "psi", False),
    ],
)
def test_a_finding_decides_where_it_has_a_limit(keys, limit, decides):
    (finding,) = a_plan(requires={"findings": [{"what": "capacity", **keys}]}).requires.findings
    assert (finding.limit.endswith(limit), finding.decides) == (True, decides)


def test_a_held_part_is_kept_and_a_replaced_one_keeps_its_window_unless_the_plan_says_otherwise():
    plan = a_plan(replaced={"period": "P90D"})
    assert (plan.requires.held_part, plan.replaced.keeps_remaining) == (True, True)


@pytest.mark.parametrize(("read_on", "told"), [(None, "2026-11-25"), (date(2026, 1, 2), "2026-01-02")])
def test_a_window_of_a_statute_was_read_when_it_says_else_when_the_statute_was(read_on, told):
    window = STATUTE.window[0].model_copy(update={"read_on": read_on})
    plan = a_plan().with_windows_of(STATUTE.model_copy(update={"window": (window,)}))
    assert str(plan.window[-1].read_on) == told
