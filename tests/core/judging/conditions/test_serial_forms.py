from __future__ import annotations

import pytest
from builders import a_claim, a_plan

from claimpack.core.judging.conditions.serial_forms import odd_serials, of_another_form

FORMS = {"unit": "HC70-[0-9]", "engine": "E70-[0-9]"}
PLAN = a_plan(requires__serial_patterns=FORMS)


def with_serial(value, **changes):
    return a_claim(unit__serials=[{"role": "unit", "value": value}], **changes)


@pytest.mark.parametrize(("value", "odd"), [("HC70-1", []), ("HC70-12", ["HC70-12"]), ("C70-1", ["C70-1"])])
def test_a_serial_number_has_the_form_of_its_role_from_end_to_end(value, odd):
    assert [serial.value for serial in of_another_form(with_serial(value).unit, PLAN)] == odd


def test_a_serial_number_of_another_form_is_told_with_its_role():
    said = odd_serials(with_serial("X-1"), [PLAN])
    assert said == ["X-1 does not have the form the plan gives for the serial of the unit."]


def test_before_the_plan_is_found_every_plan_it_may_fall_under_counts():
    old = a_plan(id="old", sold_until="2024-12-31", requires__serial_patterns={"unit": "OLD-[0-9]"})
    new = a_plan(id="new", sold_from="2025-01-01", requires__serial_patterns=FORMS)
    waiting = {"dates__purchased": None, "dates__delivered": None}
    found = [odd_serials(with_serial(value, **waiting), [old, new]) for value in ("OLD-1", "HC70-1", "X-1")]
    assert [bool(odd) for odd in found] == [False, False, True]


def test_without_a_plan_no_form_is_asked_for():
    assert odd_serials(with_serial("X-1", maker="ashby"), [PLAN]) == []
