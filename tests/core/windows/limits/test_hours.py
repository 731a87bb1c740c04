from decimal import Decimal

import pytest
from aged import outcome
from builders import a_claim, a_plan, a_window

from claimpack.core.verdict.coverage import judge
from claimpack.core.windows.limits.hours import is_impossible, most_hours


def window(claim, **keys):
    return judge(claim, a_plan(window=[a_window(**keys)])).windows[0]


RENEWAL = [{"component": "spark plug", "hours": 50}]


@pytest.mark.parametrize(
    ("hours", "impossible"), [("47.9", False), ("48", False), ("48.1", True)], ids=["below", "equal", "above"]
)
def test_a_unit_runs_no_more_than_a_day_a_day(hours, impossible):
    days = {"dates__purchased": None, "dates__delivered": None, "dates__failed": None}
    claim = a_claim(unit__built="2026-02-04", unit__hours=hours, **days)
    assert (most_hours(claim), is_impossible(claim)) == (Decimal(48), impossible)


def test_without_the_day_it_was_built_no_reading_is_impossible():
    assert not is_impossible(a_claim(unit__hours="99999"))


@pytest.mark.parametrize(
    ("hours", "said"),
    [("299.9", "hours.inside"), ("300", "hours.at-limit"), ("300.1", "hours.outside")],
    ids=["below", "equal", "above"],
)
def test_a_reading_is_told_as_inside_at_or_over_the_limit(hours, said):
    assert window(a_claim(unit__hours=hours), hours=300).reasons[-1].says.key == said


@pytest.mark.parametrize(("hours", "fact", "told"), [("299.9", "left", "0.1"), ("300.1", "over", "0.1")])
def test_what_is_left_to_the_limit_or_over_it_is_told(hours, fact, told):
    assert window(a_claim(unit__hours=hours), hours=300).reasons[-1].says.facts[fact] == told


@pytest.mark.parametrize(("meter", "said"), [(True, "hours.unknown"), (None, "hours.meter-unknown")])
def test_without_a_reading_it_is_asked_whether_there_is_a_meter_where_nobody_said_so(meter, said):
    assert window(a_claim(unit__meter=meter, unit__hours=None), hours=300).reasons[-1].says.key == said


@pytest.mark.parametrize("limit", [300, 20_000])
def test_an_impossible_reading_decides_nothing(limit):
    claim = a_claim(unit__built="2025-03-14", unit__hours="9000")
    assert (window(claim, hours=limit).holds, window(claim, hours=limit).reasons[-1].asks) == (None, "unit.hours")


@pytest.mark.parametrize("component", [None, "spark plugs", "plug"])
def test_a_component_that_may_be_one_with_a_renewal_past_is_asked_about(component):
    judged = window(a_claim(failure__component=component), covers=["*"], scheduled=RENEWAL)
    assert (judged.holds, judged.reasons[-1].asks) == (None, "failure.component")


@pytest.mark.parametrize("component", [None, "gizmo"])
@pytest.mark.parametrize(("hours", "holds"), [("50", None), ("50.1", False), (None, None)])
def test_a_window_whose_every_component_is_past_its_renewal_asks_for_no_component(component, hours, holds):
    claim = a_claim(failure__component=component, unit__hours=hours, unit__meter=True)
    assert window(claim, covers=["spark plug"], scheduled=RENEWAL).holds is holds


@pytest.mark.parametrize("unit", [{"unit__hours": "50"}, {"unit__hours": None, "unit__meter": False}])
def test_a_component_is_not_asked_for_where_no_renewal_is_past(unit):
    assert window(a_claim(failure__component=None, **unit), covers=["*"], scheduled=RENEWAL).holds


def test_of_several_renewals_the_first_counts():
    scheduled = [{"component": "short block", "hours": hours} for hours in (300, 150)]
    assert window(a_claim(), scheduled=scheduled).hours_limit == 150


@pytest.mark.parametrize(
    ("hours", "expected"), [("299.9", "pass"), ("300", "pass"), ("300.1", "fail")], ids=["below", "equal", "above"]
)
def test_a_reading_equal_to_the_limit_is_inside(hours, expected):
    assert outcome(a_claim(unit__hours=hours), hours=300)["hours"] == expected


def test_a_unit_without_a_meter_is_judged_by_age_alone():
    assert outcome(a_claim(unit__meter=False, unit__hours=None), hours=300)["hours"] == "pass"


@pytest.mark.parametrize("meter", [True, None])
def test_a_blank_reading_is_asked_for(meter):
    assert outcome(a_claim(unit__meter=meter, unit__hours=None), hours=300)["hours"] == "unknown"


def test_a_reading_does_not_matter_where_no_hour_limit_applies():
    assert "hours" not in outcome(a_claim(unit__hours=None))


BLOCK_RENEWED = [{"component": "short block", "hours": 100}]


@pytest.mark.parametrize(("hours", "expected"), [("99.9", "pass"), ("100", "pass"), ("100.1", "fail")])
def test_a_part_is_covered_up_to_its_first_scheduled_renewal(hours, expected):
    assert outcome(a_claim(unit__hours=hours), scheduled=BLOCK_RENEWED)["schedule"] == expected


def test_another_parts_renewal_does_not_matter():
    assert "schedule" not in outcome(a_claim(), scheduled=[{"component": "spark plug", "hours": 1}])


def test_a_renewal_without_a_reading_is_asked_for():
    assert outcome(a_claim(unit__hours=None), scheduled=BLOCK_RENEWED)["schedule"] == "unknown"
