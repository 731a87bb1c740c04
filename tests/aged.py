"""A claim judged by one window: the outcome of each rule, and what it asks for."""

from builders import a_plan, a_window

from claimpack.core.verdict.coverage import judge


def outcome(claim, **window):
    """The one window's reasons by rule."""
    judged = judge(claim, a_plan(window=[a_window(**window)])).windows[0]
    return {reason.rule: reason.outcome for reason in judged.reasons}


ADDS = {"period": "P6M", "registered_within": "P30D", "registered_adds": "P12M"}


def age(claim, plan=None, **window):
    """The one window: whether it holds, and the facts it asks for."""
    plan = plan or a_plan(window=[a_window(**window)])
    found = judge(claim, plan).windows[0]
    return found.holds, [reason.asks for reason in found.reasons if reason.outcome == "unknown"]
