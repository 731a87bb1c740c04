"""Commands run as a user runs them, in a world that a test hands in."""

from __future__ import annotations

import datetime as dt
import io
import json
from collections.abc import Callable
from pathlib import Path
from typing import Any, NamedTuple

from claimpack.__main__ import run
from claimpack.commands.desk.say import ANSWER_FORMAT
from claimpack.commands.desk.world import World

NOW = dt.datetime(2026, 3, 1, 9, 30, tzinfo=dt.timezone(dt.timedelta(hours=-5)))


class Terminal(io.StringIO):
    """A stream that says it is a terminal."""

    encoding = "utf-8"

    def isatty(self) -> bool:
        return True


class Meanwhile(Terminal):
    """A terminal at which something else happens once a bar is full."""

    def __init__(self, happens: Callable[[], object]) -> None:
        super().__init__()
        self._happening = [happens]

    def write(self, text: str) -> int:
        while "\x1b[K" in text and self._happening:
            self._happening.pop()()
        return super().write(text)


class Pipe(io.StringIO):
    """A stream that goes into a file or another program."""

    encoding = "utf-8"


class BrokenOff(Pipe):
    """Typed lines, and then somebody presses the keys that break a program off."""

    def readline(self, size: int = -1) -> str:
        line = super().readline(size)
        if not line:
            raise KeyboardInterrupt
        return line


class Ran(NamedTuple):
    """What a command left behind."""

    code: int
    out: str
    err: str

    @property
    def json(self) -> Any:
        """What was answered, without the format that every answer names."""
        told = json.loads(self.out)
        assert told.pop("format") == ANSWER_FORMAT
        return told


class RanInBytes(NamedTuple):
    """What a command left behind whose answer went to a file or another program, byte for byte."""

    code: int
    out: bytes
    err: str


def claimpack_in_bytes(
    *arguments: object, folder: Path, encoding: str = "latin-1", typed: bytes = b"", now: dt.datetime = NOW
) -> RanInBytes:
    """Run one command line whose streams speak another encoding."""
    out, err = (io.TextIOWrapper(io.BytesIO(), encoding=encoding) for _ in range(2))
    environ = {"CLAIMPACK_WHO": "ann"}
    code = run(
        [str(argument) for argument in arguments],
        World(
            stdin=io.TextIOWrapper(io.BytesIO(typed)), stdout=out, stderr=err, environ=environ, folder=folder, clock=NOW
        ),
    )
    for stream in (out, err):
        stream.flush()
    return RanInBytes(code, out.buffer.getvalue(), err.buffer.getvalue().decode(encoding))  # type: ignore[attr-defined]


def claimpack(
    *arguments: object,
    folder: Path | str = ".",
    typed: str = "",
    environ: dict[str, str] | None = None,
    now: dt.datetime = NOW,
    terminal: bool = False,
) -> Ran:
    """Run one command line in a folder."""
    stream = Terminal if terminal else Pipe
    out, err = stream(), stream()
    world = World(
        stdin=stream(typed),
        stdout=out,
        stderr=err,
        environ={"CLAIMPACK_WHO": "ann", **(environ or {})},
        folder=Path(folder),
        clock=now,
    )
    code = run([str(argument) for argument in arguments], world)
    return Ran(code, out.getvalue(), err.getvalue())
