"""What a command may touch of the world: streams, terminal, the day, the environment. The only module with a clock."""

from __future__ import annotations

import datetime as dt
import os
import shutil
import sys
from collections.abc import Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import TextIO


@dataclass(frozen=True)
class World:
    """The world a command runs in; tests hand in their own."""

    stdin: TextIO = field(default_factory=lambda: sys.stdin)
    stdout: TextIO = field(default_factory=lambda: sys.stdout)
    stderr: TextIO = field(default_factory=lambda: sys.stderr)
    environ: Mapping[str, str] = field(default_factory=lambda: os.environ)
    folder: Path = field(default_factory=Path.cwd)
    clock: dt.datetime | None = None

    def today(self) -> dt.date:
        """The day it is where the shop is."""
        return self.now().date()

    def now(self) -> dt.datetime:
        """The time it is where the shop is, with its offset."""
        return self.clock or dt.datetime.now().astimezone()

    def shown(self, wall: dt.datetime) -> dt.datetime:
        """The moment at which the shop's clocks show a time; its fold chooses where they show it twice."""
        if self.clock is None:
            return wall.astimezone()
        zone = self.clock.tzinfo
        return wall.replace(tzinfo=zone).astimezone(dt.UTC).astimezone(zone)

    def who(self) -> str:
        """Who is at work: CLAIMPACK_WHO, else the name they logged in with."""
        named = (self.environ.get(name, "") for name in ("CLAIMPACK_WHO", "LOGNAME", "USER", "USERNAME"))
        return next((name for name in named if name), "somebody")

    def has_colour(self, stream: TextIO) -> bool:
        """Whether colour may go to a stream: a terminal, and neither NO_COLOR nor a dumb terminal."""
        if self.environ.get("NO_COLOR") or self.environ.get("TERM") == "dumb":
            return False
        return bool(self.environ.get("FORCE_COLOR")) or stream.isatty()

    def width(self) -> int:
        """Columns to write in: the terminal's, between 60 and 110; 100 where there is none."""
        if not self.stdout.isatty():
            return 100
        return max(60, min(110, shutil.get_terminal_size().columns))

    def columns(self) -> int | None:
        """The columns of the terminal; None where the answer does not go to one."""
        return shutil.get_terminal_size().columns if self.stdout.isatty() else None
