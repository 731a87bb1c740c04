import pytest
from builders import a_plan

from claimpack.core.plans.plan import Plan

SHOTS = ["serial plate", {"shot": "spark test", "components": ["ignition coil"]}]


def test_shots_are_written_as_they_were():
    plan = a_plan(requires={"shots": SHOTS})
    assert plan.model_dump(mode="json")["requires"]["shots"] == SHOTS
    assert Plan.model_validate_json(plan.model_dump_json(by_alias=True)).requires == plan.requires


def test_every_shot_is_known_by_its_word():
    assert a_plan(requires={"shots": SHOTS}).requires.shot_words() == ("serial plate", "spark test")


NO_SHOTS = (3, {"components": ["engine"]}, {"shot": "a", "components": []}, {"shot": "a", "when": 1})


@pytest.mark.parametrize("shot", NO_SHOTS)
def test_what_is_no_shot_is_refused(shot):
    with pytest.raises(ValueError, match="shots"):
        a_plan(requires={"shots": [shot]})
