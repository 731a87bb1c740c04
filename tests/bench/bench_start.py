"""How fast a quick answer starts, beside an empty Python: `python tests/bench/bench_start.py`."""

from __future__ import annotations

import sys
from pathlib import Path

from timing import CLAIMPACK, medians

SAMPLE = Path(__file__).resolve().parents[2] / "sample_claims" / "26-0041-short-block"

found = medians(
    {
        "python -c pass": (sys.executable, "-c", "pass"),
        "claimpack --help": (*CLAIMPACK, "--help"),
        "claimpack check": (*CLAIMPACK, "check", SAMPLE),
    }
)
peer = found["python -c pass"]
for name, taken in found.items():
    print(f"{name:20} {taken * 1000:7.0f} ms  {taken / peer:5.1f} x")
print("aims: --help at most 6 x, check at most 20 x")
