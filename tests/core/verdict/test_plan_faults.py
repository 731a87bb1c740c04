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
        ({"operation": MISSPELT}, {"labour": [{"operation": "block"}]}),
        ({"pays__extras_cap": "0.001"}, {}),
    ],
)
def test_a_fault_that_changes_nothing_for_this_claim_is_left_to_the_plans_check(plan, claim):
    assert met(plan, **claim) == []
