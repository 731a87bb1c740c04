"""The judging against a second one that shares no rule with it, over many thousand claims and plans drawn at random.

Every fact a claim leaves open is filled in with every value that could matter. Run by hand:
python tests/bench/bench_judging.py [PAIRS] [FIRST_SEED] [MOST_WAYS]
"""

from __future__ import annotations

import random
import sys
from collections import Counter
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1]))

from by_hand import Given, arguments
from judged_pairs import TOO_MUCH_OPEN, a_claim, a_plan, disagreement


def main(pairs: int, first: int, most: int) -> int:
    """Compare, print what came out and every seed that disagrees; 1 where one does."""
    counts: Counter[str] = Counter()
    for seed in range(first, first + pairs):
        dice = random.Random(seed)
        plan, claim = a_plan(dice), a_claim(dice)
        found = disagreement(claim, plan, most)
        counts["agree" if not found else found if found == TOO_MUCH_OPEN else "disagree"] += 1
        if found not in ("", TOO_MUCH_OPEN):
            print(f"seed {seed}: {found}")
    print(", ".join(f"{count} {what}" for what, count in counts.items()))
    return 1 if counts["disagree"] else 0


if __name__ == "__main__":
    SAID = arguments(
        __doc__,
        Given("pairs", 5000, "how many claims, each with a plan"),
        Given("first_seed", 0, "the seed of the first pair"),
        Given("most_ways", 4000, "in at most so many ways the open facts of a claim are filled in"),
    )
    sys.exit(main(SAID.pairs, SAID.first_seed, SAID.most_ways))
