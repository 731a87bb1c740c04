import pytest
from builders import a_plan, a_window
from pydantic import ValidationError

from claimpack.core.plans.plan import WindowSet


@pytest.mark.parametrize("written", ["calendar", {"by": "calendar", "sold_in": ["US-CA"], "cites": "p. 4"}])
def test_it_is_written_as_it_was_read(written):
    assert a_plan(repair_time_extends=written).model_dump(mode="json")["repair_time_extends"] == written


def test_another_way_to_count_is_refused():
    with pytest.raises(ValidationError, match="calendar"):
        a_plan(repair_time_extends="working days")


def test_a_law_may_give_nothing_but_time_in_repair_and_is_cited_for_it():
    keys = {"id": "law", "name": "A law", "cites": "XX Code 1", "read_on": "2026-11-25"}
    law = WindowSet.model_validate({**keys, "repair_time_extends": "calendar"})
    assert [rule.cites for rule in a_plan().with_windows_of(law).repair_time_extends] == ["XX Code 1"]


def test_a_law_that_gives_nothing_is_refused():
    with pytest.raises(ValidationError, match="repair_time_extends"):
        WindowSet.model_validate({"id": "law", "name": "A law", "cites": "XX Code 1", "read_on": "2026-11-25"})


@pytest.mark.parametrize(
    ("changes", "says"),
    [
        ({"owners": {}}, "transfer_within, fee or then"),
        ({"owners": {"then": "P6M"}, "first_owner_only": True}, "leaves nothing to a second owner"),
        ({"owners": {"fee": "25.005"}}, "more decimals than USD"),
    ],
    ids=["nothing", "no second owner", "no such coin"],
)
def test_owners_that_mean_nothing_are_refused(changes, says):
    with pytest.raises(ValidationError, match=says):
        a_plan(window=[a_window(**changes)])
