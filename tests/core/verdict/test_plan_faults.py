import pytest
from builders import a_claim, a_plan, a_window

from claimpack.core.verdict.plan_faults import faults

A, B = {"operation": "a"}, {"operation": "b"}
EACH_OTHER = [{"code": code, "hours": "1", "includes": [other]} for code, other in ("ab", "ba")]
MISSPELT = [{"code": "starter", "hours": "1"}, {"code": "block", "hours": "2", "includes": ["startre"]}]
WITH_PLUG, PLUG = a_window(id="plug", covers=["spark plug"]), {"failure__component": "spark plug"}
COIL = {"component": "coil", "hours": 50}


def met(plan, **claim):
    return [fault.says.key.removeprefix("fault.") for fault in faults(a_claim(**claim), a_plan(**plan))]


@pytest.mark.parametrize(
    ("plan", "claim", "found"),
    [
        ({"excluded": {"components": ["Short-block"]}}, {}, ["takes-away"]),
        ({"excluded": {"components": ["coil"]}}, {}, []),
        ({"excluded": {"components": ["Short-block"]}}, {"failure__component": None}, []),
        ({"window": [a_window(scheduled=[{"component": "short blok", "hours": 50}])]}, {}, ["renewal"]),
        ({"window": [WITH_PLUG], "excluded": {"components": ["spark plugs"]}}, PLUG, ["spelt"]),
        ({"window": [WITH_PLUG, a_window(id="all", covers=["*"], **{"except": ["sparkplug"]})]}, PLUG, ["spelt"]),
        ({"operation": EACH_OTHER}, {"labour": [A, B]}, ["circle"]),
        ({"operation": MISSPELT}, {"labour": [{"operation": "block"}, {"operation": "starter"}]}, ["misspelt"]),
        ({"pays__extras_cap": "0.001"}, {"extras": [{"what": "freight", "amount": "1"}]}, ["no-coin"]),
    ],
)
def test_a_fault_that_changes_the_answer_is_met(plan, claim, found):
    assert met(plan, **claim) == found


@pytest.mark.parametrize(
    ("plan", "claim"),
    [
        ({"excluded": {"components": ["engine"]}}, {}),
        ({"excluded": {"components": ["short block"]}, "window": [a_window(despite_exclusions=True)]}, {}),
        ({"excluded": {"components": ["short block"]}, "window": [a_window(covers=["*"])]}, {}),
        ({"window": [a_window(scheduled=[COIL])]}, {}),
        ({"window": [a_window(covers=["short block", "coil"], scheduled=[COIL])]}, {"failure__component": "coil"}),
        ({"operation": EACH_OTHER}, {"labour": [A]}),
        ({"excluded": {"components": ["spark plugs"]}}, PLUG),
        ({"window": [WITH_PLUG], "excluded": {"components": ["spark lead"]}}, PLUG),
        ({"operation": EACH_OTHER}, {"labour": [A, B | {"payer": "shop"}]}),
        ({"operation": [EACH_OTHER[0], {"code": "b", "hours": "1"}]}, {"labour": [A, B]}),
        ({"operation": MISSPELT}, {"labour": [{"operation": "block"}]}),
        ({"pays__extras_cap": "0.001"}, {}),
    ],
)
def test_a_fault_that_changes_nothing_for_this_claim_is_left_to_the_plans_check(plan, claim):
    assert met(plan, **claim) == []


TAKES_AWAY = {"excluded": {"components": ["short block"]}}
RENEWAL = {"scheduled": [{"component": "short blok", "hours": 50}]}


@pytest.mark.parametrize(
    ("plan", "claim", "of_verdict"),
    [
        (TAKES_AWAY, {}, True),
        ({"window": [WITH_PLUG], "excluded": {"components": ["spark plugs"]}}, PLUG, True),
        ({"window": [a_window(**RENEWAL)]}, {}, True),
        ({"operation": EACH_OTHER}, {"labour": [A, B]}, False),
    ],
    ids=["takes away", "spelt otherwise", "renews outside", "includes in a circle"],
)
def test_a_fault_of_what_is_covered_leaves_the_verdict_open_and_one_of_amounts_does_not(plan, claim, of_verdict):
    assert [fault.of_verdict for fault in faults(a_claim(**claim), a_plan(**plan))] == [of_verdict]


@pytest.mark.parametrize(("name", "told"), [("engine warranty", "engine warranty"), (None, "engine")])
@pytest.mark.parametrize(("window", "plan"), [({}, TAKES_AWAY), (RENEWAL, {})], ids=["takes away", "renews outside"])
def test_a_fault_of_a_window_tells_it_by_its_name_else_its_id(window, plan, name, told):
    under = a_plan(**plan, window=[a_window(name=name, **window)])
    assert faults(a_claim(), under)[0].says.facts["window"] == told
