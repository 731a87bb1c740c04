from decimal import Decimal

import pytest
from builders import TODAY, a_claim, a_plan

from claimpack.core.judging.assessment import assess
from claimpack.core.steps.declining import before_it_was_declined, what_it_cost

PLAN = a_plan(operation=[{"code": "block", "name": "Replace block", "hours": "1.6"}], pays__labour_rate="92.00")


def assessed(**labour):
    return assess(a_claim(case="declined", labour=[{"operation": "block", **labour}]), [PLAN], TODAY)


@pytest.mark.parametrize(("hours", "owed"), [("0.5", "46.00"), ("0.03", "0.00")])
def test_of_a_declined_repair_the_time_worked_counts_and_never_the_schedule(hours, owed):
    assert assessed(hours=hours).amounts.owner == Decimal(owed)


def test_time_that_nobody_wrote_down_is_not_billed():
    assert what_it_cost(assessed(), None) == ()


@pytest.mark.parametrize(("hours", "said"), [("0.03", "0.03 h"), ("0.46", "0.46 h"), ("0.5", "0.5 h at")])
def test_the_time_worked_is_told_as_it_was_written_down(hours, said):
    (told,) = what_it_cost(assessed(hours=hours), None)
    assert said in told


@pytest.mark.parametrize(("own_rate", "whose"), [(None, "the maker's rate of 92.00"), (Decimal(92), "the shop's rate")])
def test_what_the_owner_pays_is_told_with_whose_rate_it_is(own_rate, whose):
    (said,) = what_it_cost(assessed(hours="0.5"), own_rate)
    assert whose in said


@pytest.mark.parametrize(("cost", "names"), [("9.50", True), ("0", False)])
def test_parts_in_what_the_owner_pays_are_named_since_they_may_not_have_been_used(cost, names):
    claim = a_claim(
        case="declined", labour=[{"operation": "x", "hours": "1"}], parts=[{"name": "Seal", "unit_cost": cost}]
    )
    assert ("Seal" in " ".join(what_it_cost(assess(claim, [PLAN], TODAY), None))) == names


def test_a_revision_that_cannot_be_read_is_passed_over_on_the_way_back():
    repair = a_claim()
    assert before_it_was_declined(a_claim(case="declined"), [None, a_claim(case="declined"), repair]) == repair
