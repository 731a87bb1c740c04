"""How many changed inputs break, hold up or deceive a reader, in this process: `python tests/trust/try_mutations.py`.

    python tests/trust/try_mutations.py [COUNT [SEED [READER...]]]

COUNT inputs (20000 without it) are dealt to the readers, fewer to those that take long. Bad is an exception that is no
message of the program, exit code 1, more than 20 seconds, a reader that broke down, something lost, a forgery called
genuine, or this process having grown beyond its ceiling. Inputs that were bad are kept beside the report.
"""

from __future__ import annotations

import resource
import sys
import tempfile
import time
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1]))

from by_hand import Given, arguments
from mutations import READERS

SLOW = {"an archive": 0.05, "a packet": 0.5, "what a packet carries": 0.5}
MOST_MEGABYTES = 1200


def main(count: int, seed: int, readers: list[str]) -> int:
    """Try them all; 1 where one was bad."""
    shares = {name: SLOW.get(name, 1.0) for name in readers or READERS}
    kept = Path(tempfile.mkdtemp(prefix="mutations-"))
    tried = bad = 0
    for name, share in shares.items():
        dealt, begun = round(count * share / sum(shares.values())), time.perf_counter()
        with tempfile.TemporaryDirectory() as place:
            faults = list(READERS[name].faults(seed, dealt, Path(place)))
        for number, fault in enumerate(faults):
            (kept / f"{name}-{seed}-{number}").write_bytes(fault.content)
            print(f"  {name}: {fault.what}")
        tried, bad = tried + dealt, bad + len(faults)
        print(f"{name}: {dealt} tried, {len(faults)} bad, {time.perf_counter() - begun:.0f} s", flush=True)
    grown = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss // 1024
    bad += grown > MOST_MEGABYTES
    print(f"{tried} tried, {bad} bad; at most {grown} MB; seed {seed}; what was bad is kept in {kept}")
    return 1 if bad else 0


if __name__ == "__main__":
    SAID = arguments(
        __doc__,
        Given("count", 20_000, "how many inputs"),
        Given("seed", 1, "of the chance they are changed by"),
        Given("reader", [], f"of {', '.join(READERS)}; all without any"),
    )
    sys.exit(main(SAID.count, SAID.seed, SAID.reader))
