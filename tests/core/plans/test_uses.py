import pytest
from builders import a_claim, a_plan, a_window

from claimpack.core.plans.uses import refuse_unknown_use, uses_known
from claimpack.errors import BadInput

FARM = a_plan(uses=["farm", "Household"], window=[a_window(uses=["church"])])


def test_the_three_are_known_before_those_of_plans_and_each_once():
    assert uses_known([FARM]) == ("household", "professional", "rental", "farm", "church")


@pytest.mark.parametrize("said", ["", "Farm", "rental", "church"])
def test_a_use_that_a_plan_names_passes(said):
    assert refuse_unknown_use(said, [FARM], "--use: ") is None


def test_a_use_that_no_plan_names_is_refused_with_the_nearest():
    with pytest.raises(BadInput, match="'fram' is no use that a plan names") as refused:
        refuse_unknown_use("fram", [FARM], "--use: ")
    assert refused.value.why == "Did you mean 'farm'?"


@pytest.mark.parametrize("use", ["unknown", "farm|church", "", "farm &"])
def test_what_is_no_word_for_a_use_is_refused(use):
    with pytest.raises(ValueError, match=r"unit\.use"):
        a_claim(unit__use=use)
