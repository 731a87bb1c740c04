import pytest
from builders import a_plan
from pydantic import ValidationError

from claimpack.core.clauses.starts import start_rule


@pytest.mark.parametrize(
    "written",
    [
        ["delivered", {"of": "built", "plus": "P6M"}],
        {"earliest": ["registered", {"of": "purchased", "plus": "P2Y"}]},
        {"latest": ["delivered", "purchased"]},
    ],
)
def test_a_start_is_written_as_it_was_read(written):
    assert a_plan(start=written).model_dump(mode="json")["start"] == written


def test_a_plain_list_is_the_first_given():
    assert a_plan(start=["in_service", "delivered"]).start == start_rule("in_service", "delivered")


@pytest.mark.parametrize(
    ("start", "names"),
    [(["registered", "delivered"], True), ({"latest": ["purchased", "registered"]}, True), (["delivered"], False)],
)
def test_a_start_that_names_the_registration_is_known(start, names):
    assert a_plan(start=start).start.names_registration is names


@pytest.mark.parametrize(
    ("written", "says"),
    [
        ([], "at least 1"),
        ({"earliest": []}, "at least 1"),
        (["sold"], "'delivered', 'purchased'"),
        ([{"of": "purchased", "plus": "P-2Y"}], "not a period"),
        ([{"of": "purchased", "plus": "P0D"}], "empty period"),
        ({"earliest": ["built"], "latest": ["built"]}, "either earliest or latest"),
        ({}, "either earliest or latest"),
    ],
    ids=["no day", "no day to pick", "no such day", "before the day", "no offset", "both", "neither"],
)
def test_a_start_that_means_nothing_is_refused(written, says):
    with pytest.raises(ValidationError, match=says):
        a_plan(start=written)
