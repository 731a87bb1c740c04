"""What takes long to make is made once in a run, and copied for every test that wants one of its own."""

from __future__ import annotations

import shutil
import tempfile
from collections.abc import Callable
from functools import wraps
from pathlib import Path
from typing import Any

Make = Callable[..., Path]

_FIRST_ONES = tempfile.TemporaryDirectory(prefix="made-once.")
"""What was made first; it goes with the run."""


def made_once(make: Make) -> Make:
    """`make(place, ...)` leaves things in a place and tells where; from the second time on they are copied there."""
    made: dict[str, tuple[Path, Path]] = {}

    @wraps(make)
    def copied(place: Path, *how: Any, **more: Any) -> Path:
        key = repr((how, sorted(more.items())))
        if key not in made:
            first = Path(tempfile.mkdtemp(dir=_FIRST_ONES.name))
            made[key] = first, make(first, *how, **more).relative_to(first)
        first, there = made[key]
        # What SQLite shares between the processes that have a book open is no part of it.
        shutil.copytree(first, place, ignore=shutil.ignore_patterns("*-shm"), dirs_exist_ok=True)
        return place / there

    return copied
