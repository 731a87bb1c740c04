"""The judging against a second one that shares no rule with it; more pairs: tests/bench/bench_judging.py."""

import random

from judged_pairs import TOO_MUCH_OPEN, a_claim, a_plan, disagreement


def test_two_judgings_agree():
    told = {seed: judged_twice(random.Random(seed)) for seed in range(300)}
    assert {seed: said for seed, said in told.items() if said not in ("", TOO_MUCH_OPEN)} == {}


def judged_twice(dice):
    """What two judgings of a plan and a claim from the dice disagree in."""
    plan, claim = a_plan(dice), a_claim(dice)
    return disagreement(claim, plan, most=400)
