"""A claim assessed, under the plans named or the one that tests go by."""

from builders import TODAY, a_claim, a_plan

from claimpack.core.judging.assessment import assess


def assessed(*plans, **changes):
    return assess(a_claim(**changes), plans or (a_plan(),), TODAY)
