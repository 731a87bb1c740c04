from datetime import date
from decimal import Decimal

import pytest
from builders import TODAY, a_claim, a_plan
from new_events import FILED, OPENED, part

from claimpack.core.events.fold import stand
from claimpack.core.judging.assessment import assess
from claimpack.core.steps.declining import before_it_was_declined, declined, what_became, what_it_cost
from claimpack.core.steps.settling import Step
from claimpack.errors import BadInput, WrongState

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


def test_beside_parts_the_labour_alone_is_told_with_its_hours():
    claim = a_claim(
        case="declined",
        labour=[{"operation": "x", "hours": "1"}],
        parts=[{"name": "Seal", "quantity": 2, "unit_cost": "9.50"}],
    )
    assert "; labour: 1.0 h at the maker's rate of 92.00" in what_it_cost(assess(claim, [PLAN], TODAY), None)[0]


def test_without_a_plan_nothing_is_told_of_what_it_cost():
    assert what_it_cost(assess(a_claim(case="declined", maker="nobody"), [PLAN], TODAY), None) == ()


HELD = a_claim(held=[{"part": "short block"}, {"part": "coil"}])


def closed(claim=HELD, events=(OPENED,), **step):
    return declined(claim, stand(events), Step.model_validate({"on": "2026-02-06", **step}))


def test_a_declined_claim_is_closed_on_the_day_the_unit_left_and_holds_no_part():
    claim, _ = closed()
    assert (claim.case, claim.dates.returned, claim.held) == ("declined", date(2026, 2, 6), ())


@pytest.mark.parametrize(("why", "told"), [("Too dear.", "Too dear."), ("", "The owner declined the repair.")])
def test_that_the_owner_declined_is_recorded_with_a_reason(why, told):
    _, event = closed(why=why)
    assert (event.what, event.facts, event.why) == ("withdrawn", {"declined": "yes"}, told)


def test_the_unit_may_leave_the_day_it_came_in():
    assert closed(on="2026-02-05")[0].dates.returned == date(2026, 2, 5)


def test_a_unit_does_not_leave_before_it_came_in():
    with pytest.raises(BadInput, match="--on: 2026-02-04 is before 2026-02-05"):
        closed(on="2026-02-04")


def test_what_the_maker_has_is_not_declined():
    with pytest.raises(WrongState, match="is filed"):
        closed(events=(OPENED, FILED))


def test_a_part_that_left_the_shelf_cannot_go_back_on_the_unit():
    with pytest.raises(WrongState, match="26-0001/2 is released"):
        closed(events=(OPENED, part("released", "2", rule="hold over")))


def test_the_parts_that_go_back_on_the_unit_are_named_and_counted():
    (said,) = what_became(HELD)
    assert ("short block, coil" in said, "2 held parts" in said) == (True, True)


def test_where_no_part_was_held_nothing_is_to_be_done():
    assert what_became(a_claim()) == ()
