"""Files that were last written some time ago, as the disk they lie on has it."""

from __future__ import annotations

import os
from pathlib import Path


def aged(path: Path, seconds: float = 90_000) -> Path:
    """An empty file that was last written so many seconds ago, by default a little more than a day."""
    path.parent.mkdir(parents=True, exist_ok=True)
    path.touch()
    now = path.stat().st_mtime
    os.utime(path, (now - seconds, now - seconds))
    return path
