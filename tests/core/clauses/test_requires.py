from decimal import Decimal

import pytest
from builders import a_plan
from pydantic import ValidationError


def test_a_serial_pattern_must_be_one():
    with pytest.raises(ValidationError, match="no regular expression"):
        a_plan(requires__serial_patterns={"unit": "[A-"})


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


@pytest.mark.parametrize(("value", "below", "above"), [("69", True, False), ("70", True, True), ("71", False, True)])
def test_a_finding_at_its_limit_counts_as_a_failure(value, below, above):
    limits = [{"what": "capacity", "at_most": "70"}, {"what": "leak-down", "at_least": "70"}]
    found = a_plan(requires={"findings": limits}).requires.findings
    assert [one.is_past(Decimal(value)) for one in found] == [below, above]


def test_a_plan_that_says_nothing_asks_for_the_failed_part_alone():
    asked = a_plan().requires
    assert (asked.held_part, asked.proof, asked.part_returned_first) == (True, False, False)


def test_every_component_for_which_something_is_asked_is_known_by_its_word():
    asked = {
        "approval_components": ["short block"],
        "shots": ["serial plate", {"shot": "spark test", "components": ["ignition coil"]}],
        "findings": ["compression", {"what": "capacity", "components": ["battery"]}],
        "papers": [{"kind": "work order"}, {"kind": "oil report", "components": ["engine", "gear case"]}],
    }
    words = ("short block", "ignition coil", "battery", "engine", "gear case")
    assert a_plan(requires=asked).requires.component_words() == words


def test_a_finding_that_only_has_to_be_measured_is_written_as_its_name():
    written = a_plan(requires={"findings": ["compression", {"what": "gap", "unit": "mm"}]}).requires
    assert written.model_dump(mode="json")["findings"] == ["compression", {"what": "gap", "unit": "mm"}]
