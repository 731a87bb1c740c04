"""Single bits flipped in the file of a book: `claimpack shop verify` must say NOT WHOLE wherever that changed anything.

A flip is harmless where SQLite finds the file whole and every row and every definition reads as before: bytes between
pages' contents are nobody's. Bad is one that changed something and was told WHOLE, one that ended in a fault of the
program (exit 1), and one whose answer told a claim's text.

Flips are made until so many have changed something. What the book remembers of its last backup is left out: nothing
proves it. Run by hand: python tests/trust/try_bit_flips.py [FLIPS]
"""

from __future__ import annotations

import sys
import tempfile
from collections import Counter
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1]))

from bit_flips import a_busy_shop, flips
from by_hand import Given, arguments

FLIPS = 150


def main() -> None:
    """Flip, and print how many were tried and how many were bad."""
    count = arguments(__doc__, Given("flips", FLIPS, "how many must have changed something")).flips
    with tempfile.TemporaryDirectory() as name:
        shop = a_busy_shop(Path(name))
        taken = Counter[str]()
        for bit, how in flips(shop, count, seed=9):
            taken[how] += 1
            if how.startswith("bad"):
                print(f"bit {bit}: {how}")
    bad = sum(number for how, number in taken.items() if how.startswith("bad"))
    print(f"bit flips of a book: {taken.total()} tried, {count} of them changed something, {bad} bad; {dict(taken)}")
    sys.exit(1 if bad else 0)


if __name__ == "__main__":
    main()
