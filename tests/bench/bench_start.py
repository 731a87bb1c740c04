"""How fast a quick answer starts, beside an empty Python: `python tests/bench/bench_start.py`."""

from __future__ import annotations

import subprocess
import sys
import tempfile
from pathlib import Path

from timing import CLAIMPACK, medians

SAMPLE = Path(__file__).resolve().parents[2] / "sample_claims" / "26-0041-short-block"
TODAY = ("--today", "2026-11-29")
UNIT = ("--maker", "halden", "--model", "CS-70", "--component", "ignition coil", "--use", "household")

with tempfile.TemporaryDirectory(prefix="claimpack-bench-") as made:
    shop = str(Path(made) / "shop")
    subprocess.run([*CLAIMPACK, "shop", "demo", shop, *TODAY], check=True, capture_output=True)
    of_shop = ("--shop", shop)
    found = medians(
        {
            "python -c pass": (sys.executable, "-c", "pass"),
            "claimpack --help": (*CLAIMPACK, "--help"),
            "claimpack check": (*CLAIMPACK, "check", SAMPLE),
            "claimpack cover": (*CLAIMPACK, "cover", *UNIT, "--purchased", "2025-03-14", *TODAY),
            "claimpack list": (*CLAIMPACK, "list", *TODAY, *of_shop),
            "claimpack find": (*CLAIMPACK, "find", "Q-012", *of_shop),
            "claimpack show": (*CLAIMPACK, "show", "Q-012", *TODAY, *of_shop),
            "claimpack pending": (*CLAIMPACK, "pending", *TODAY, *of_shop),
        }
    )
peer = found["python -c pass"]
for name, taken in found.items():
    print(f"{name:20} {taken * 1000:7.0f} ms  {taken / peer:5.1f} x")
print("aims: --help at most 6 x, check and cover 13 x, the others 15 x")
