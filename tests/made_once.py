"""What takes long to make is made once in a run, and copied for every test that wants one of its own."""

from __future__ import annotations

import hashlib
import os
import shutil
import tempfile
from collections.abc import Callable
from functools import wraps
from pathlib import Path
from typing import Any

try:
    import fcntl
except ImportError:
    # Windows has none: there every process makes its own
    fcntl = None  # type: ignore[assignment]

Make = Callable[..., Path]

FIRST_ONES = "CLAIMPACK_TESTS_MADE_ONCE"
"""Where the processes of a run find what was made first, as a variable of their environment."""

if fcntl is None or FIRST_ONES not in os.environ:
    _mine = tempfile.TemporaryDirectory(prefix="made-once.")
    os.environ[FIRST_ONES] = _mine.name


def made_once(make: Make) -> Make:
    """`make(place, ...)` leaves things in a place and tells where; from the second time on they are copied there."""

    @wraps(make)
    def copied(place: Path, *how: Any, **more: Any) -> Path:
        first, there = _first(make, *how, **more)
        # What SQLite shares between the processes that have a book open is no part of it.
        shutil.copytree(first, place, ignore=shutil.ignore_patterns("*-shm"), dirs_exist_ok=True)
        return place / there

    return copied


def _first(make: Make, *how: Any, **more: Any) -> tuple[Path, str]:
    """What was made first, and where in it; made now if no process of the run has yet."""
    asked = repr((make.__code__.co_filename, make.__name__, how, sorted(more.items())))
    told = Path(os.environ[FIRST_ONES]) / hashlib.sha256(asked.encode()).hexdigest()[:16]
    with told.open("a+", encoding="utf-8") as file:
        # Another process may be making the same: whoever comes second waits for it.
        if fcntl:
            fcntl.flock(file, fcntl.LOCK_EX)
        file.seek(0)
        if not (lines := file.read().splitlines()):
            first = Path(tempfile.mkdtemp(dir=told.parent))
            lines = [str(first), str(make(first, *how, **more).relative_to(first))]
            file.write("\n".join(lines))
    return Path(lines[0]), lines[1]
