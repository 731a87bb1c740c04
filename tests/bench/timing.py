"""Times of whole commands, in fresh processes, as an installed program runs: from compiled modules.

Seconds are the processor's, of all its threads and processes: other work on the machine does not count into them.
"""

from __future__ import annotations

import os
import resource
import statistics
import subprocess
import sys
import tempfile
from collections.abc import Mapping, Sequence
from pathlib import Path

CLAIMPACK = (sys.executable, "-m", "claimpack")

_COMPILED = tempfile.TemporaryDirectory(prefix="claimpack-bench-")
_ENVIRONMENT = {name: value for name, value in os.environ.items() if name != "PYTHONDONTWRITEBYTECODE"}
_ENVIRONMENT["PYTHONPYCACHEPREFIX"] = _COMPILED.name


def seconds(command: Sequence[object], place: Path | None = None) -> float:
    """How long the processor works on one run of a command, in a folder.

    Raises:
        RuntimeError: it failed; a time of a failure is none.
    """
    before = resource.getrusage(resource.RUSAGE_CHILDREN)
    said = [str(part) for part in command]
    done = subprocess.run(said, check=False, capture_output=True, env=_ENVIRONMENT, cwd=place)
    if done.returncode not in {0, 3, 4}:
        raise RuntimeError(f"{' '.join(said)[:200]}: {done.stderr.decode()[-400:]}")
    after = resource.getrusage(resource.RUSAGE_CHILDREN)
    return after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime


def medians(
    commands: Mapping[str, Sequence[object]], rounds: int = 5, places: Mapping[str, Path] | None = None
) -> dict[str, float]:
    """The median of several runs of each command; the commands take turns, after one round to warm up.

    Args:
        commands: by name.
        rounds: how many runs.
        places: the folders that commands run in, by name.
    """
    runs: dict[str, list[float]] = {name: [] for name in commands}
    for round_ in range(rounds + 1):
        for name, command in commands.items():
            taken = seconds(command, (places or {}).get(name))
            if round_:
                runs[name].append(taken)
    return {name: statistics.median(times) for name, times in runs.items()}
