"""Wall times of whole commands, in fresh processes, as an installed program runs: from compiled modules."""

from __future__ import annotations

import os
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Sequence

CLAIMPACK = (sys.executable, "-m", "claimpack")

_COMPILED = tempfile.TemporaryDirectory(prefix="claimpack-bench-")
_ENVIRONMENT = {name: value for name, value in os.environ.items() if name != "PYTHONDONTWRITEBYTECODE"}
_ENVIRONMENT["PYTHONPYCACHEPREFIX"] = _COMPILED.name


def seconds(command: Sequence[object]) -> float:
    """How long one run of a command takes."""
    begun = time.perf_counter()
    subprocess.run([str(part) for part in command], check=False, capture_output=True, env=_ENVIRONMENT)
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
