"""Wall times of whole commands, in fresh processes."""

from __future__ import annotations

import statistics
import subprocess
import sys
import time
from collections.abc import Sequence

CLAIMPACK = (sys.executable, "-m", "claimpack")


def seconds(command: Sequence[object]) -> float:
    """How long one run of a command takes."""
    begun = time.perf_counter()
    subprocess.run([str(part) for part in command], check=False, capture_output=True)
    return time.perf_counter() - begun


def medians(commands: dict[str, Sequence[object]], rounds: int = 5) -> dict[str, float]:
    """The median of several runs of each command; the commands take turns, after one round to warm up."""
    runs: dict[str, list[float]] = {name: [] for name in commands}
    for round_ in range(rounds + 1):
        for name, command in commands.items():
            taken = seconds(command)
            if round_:
                runs[name].append(taken)
    return {name: statistics.median(times) for name, times in runs.items()}
