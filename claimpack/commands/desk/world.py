"""What a command may touch of the world: streams, terminal, the day, the environment. The only module with a clock."""

from __future__ import annotations

import datetime as dt
import io
import os
import re
import sys
from collections.abc import Mapping
from contextlib import ExitStack
from functools import cached_property
from pathlib import Path
from typing import Any, TextIO

from claimpack.folders import way

_OF_A_WORLD = ("stdin", "stdout", "stderr", "environ", "folder", "clock", "closing", "noted", "quiet", "pages")
ALL_SHOPS = "CLAIMPACK_SHOPS"
"""What the environment says `all` in where every shop of the book is meant."""

_NAMES = ("CLAIMPACK_WHO", "LOGNAME", "USER", "USERNAME")


class World:
    """The world a command runs in; tests hand in their own. A stream closed by who started it is an empty one.

    `closing` lets go, when the command ends, of what it opened; `noted` is what it said that is said once.
    A quiet one hears answers, errors and questions alone; `pages` is whether a long answer may go through a pager.
    """

    def __init__(
        self,
        stdin: TextIO | None = None,
        stdout: TextIO | None = None,
        stderr: TextIO | None = None,
        environ: Mapping[str, str] | None = None,
        folder: Path | None = None,
        clock: dt.datetime | None = None,
        closing: ExitStack | None = None,
        noted: set[str] | None = None,
        quiet: bool = False,
        pages: bool = True,
    ) -> None:
        self.stdin = stdin or sys.stdin or io.StringIO()
        self.stdout = stdout or sys.stdout or io.StringIO()
        self.stderr = stderr or sys.stderr or io.StringIO()
        self.environ = os.environ if environ is None else environ
        self.folder = folder or Path.cwd()
        self.clock = clock
        self.closing = closing or ExitStack()
        self.noted = set[str]() if noted is None else noted
        self.quiet, self.pages = quiet, pages

    def but(self, **changes: Any) -> World:
        """The same world but for some of it."""
        return World(**{name: getattr(self, name) for name in _OF_A_WORLD} | changes)

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

    @property
    def all_shops(self) -> bool:
        """Whether every shop of the book is meant, and not the one whose folder it is alone."""
        return self.environ.get(ALL_SHOPS, "").strip() == "all"

    def of_all_shops(self) -> World:
        """The same world where every shop of the book is meant."""
        return self.but(environ={**self.environ, ALL_SHOPS: "all"})

    def of_one_shop(self) -> World:
        """The same world where the shop alone is meant whose folder it is."""
        return self.but(environ={name: value for name, value in self.environ.items() if name != ALL_SHOPS})

    def who(self) -> str:
        """Who is at work: CLAIMPACK_WHO, else the name they logged in with.

        Raises:
            BadInput: the name is none that a history could keep.
        """
        return self.own_name() or "somebody"

    def own_name(self) -> str:
        """The name of who is at work, as `who` finds it; empty where nothing tells it.

        Raises:
            BadInput: the name is none that a history could keep.
        """
        named = ((name, self.environ.get(name, "").strip()) for name in _NAMES)
        return next((_name_of(name, value) for name, value in named if value), "")

    def path(self, named: Path | str) -> Path:
        """The place that a path names from where the user stands, without detours through `..`."""
        whole = self.folder / named
        if ".." not in whole.parts:
            return whole
        return whole.resolve() if whole.name == ".." else whole.parent.resolve() / whole.name

    def from_here(self, path: Path) -> str:
        """A path as it is written from where the user stands, where that is shorter than the whole."""
        whole, near = str(path), way(path, self.folder)
        return near if len(near) < len(whole) else whole

    def paths_from_here(self, text: str) -> str:
        """Text with the whole paths in it written from where the user stands, where that is shorter."""
        if self._outermost not in text:
            return text
        for whole, near in self._nearer:
            text = whole.sub(near, text)
        return text

    @cached_property
    def _outermost(self) -> str:
        """How every whole path begins that has a folder in common with the one the user stands in."""
        here = self.folder.absolute()
        return f"{(here, *here.parents)[-2:][0]}{os.sep}"

    @cached_property
    def _nearer(self) -> list[tuple[re.Pattern[str], str]]:
        """How the folder the user stands in, and those above it, begin a whole path, and what is shorter."""
        here = self.folder.absolute()
        found, beyond = [], ""
        for up, above in enumerate((here, *here.parents)):
            whole, near = f"{above}{os.sep}", f"..{os.sep}" * up
            if above == above.parent or len(near) >= len(whole):
                break
            pattern = re.compile(rf"(?<![\w./-]){re.escape(whole)}{beyond}")
            found.append((pattern, near.replace("\\", r"\\")))
            # The folder one stands in would read as a detour through the one above it.
            beyond = rf"(?!{re.escape(above.name)}(?![\w.-]))"
        return found

    def has_colour(self, stream: TextIO) -> bool:
        """Whether colour may go to a stream: a terminal, and neither NO_COLOR nor a dumb terminal."""
        if self.environ.get("NO_COLOR") or self.environ.get("TERM") == "dumb":
            return False
        return bool(self.environ.get("FORCE_COLOR")) or stream.isatty()

    def width(self, stream: TextIO | None = None) -> int:
        """Columns to write in: the terminal's, between 60 and 110; 100 where the answer, or a stream, goes to none."""
        if not (stream or self.stdout).isatty():
            return 100
        import shutil

        return max(60, min(110, shutil.get_terminal_size().columns))

    def columns(self) -> int | None:
        """The columns of the terminal; None where the answer does not go to one."""
        if not self.stdout.isatty():
            return None
        import shutil

        return shutil.get_terminal_size().columns


def _name_of(variable: str, value: str) -> str:
    """A person's name from the environment, in one line of text."""
    from claimpack.core.values.words import LONGEST_LINE, one_line
    from claimpack.errors import BadInput

    try:
        name = str(one_line(value))
    except ValueError as error:
        wrong = str(error)
    else:
        if len(name) <= LONGEST_LINE:
            return name
        wrong = f"is longer than {LONGEST_LINE} letters"
    raise BadInput(
        f"{variable} {wrong}", "The history keeps the name of whoever changes a claim.", f"Put a name into {variable}."
    )
