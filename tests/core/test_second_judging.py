"""The judging against a second one that shares no rule with it; more pairs: tests/bench/bench_judging.py."""

import random

import pytest
from judged_pairs import TOO_MUCH_OPEN, a_claim, a_plan, disagreement


@pytest.mark.parametrize("seed", range(300))
def test_two_judgings_agree(seed):
    dice = random.Random(seed)
    plan, claim = a_plan(dice), a_claim(dice)
    assert disagreement(claim, plan, most=400) in ("", TOO_MUCH_OPEN)
