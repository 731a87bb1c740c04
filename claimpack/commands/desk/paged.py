"""A long answer shown a screen at a time, by the pager of the user's choice; a short one goes out as it is."""

from __future__ import annotations

import io
import os
import sys
from collections.abc import Iterator, Mapping
from contextlib import contextmanager, suppress
from typing import TextIO

from claimpack.commands.desk.world import World

_USUAL = "less"
# Leaves at once where all fits, keeps colours, and leaves the text on the screen.
_LESS = {"LESS": "FRX"}


def pager_of(environ: Mapping[str, str]) -> list[str]:
    """The words that start the pager: CLAIMPACK_PAGER, else PAGER, else less; none where it is empty or not there."""
    import shlex
    import shutil

    wanted = environ.get("CLAIMPACK_PAGER", environ.get("PAGER", _USUAL))
    try:
        words = [] if wanted.strip() in ("", "cat") else shlex.split(wanted, posix=os.name == "posix")
    # a quotation left open names no program
    except ValueError:
        words = []
    return words if words and shutil.which(words[0]) else []


@contextmanager
def paged(world: World) -> Iterator[World]:
    """The world to answer in: answer and messages are kept, in their order, and shown when the block ends.

    Only on the process's own terminal; elsewhere, with --no-pager or without a pager, the world is as it was.
    """
    pager = pager_of(world.environ) if world.pages and world.stdout is sys.stdout and world.stdout.isatty() else []
    if not pager:
        yield world
        return
    told: list[tuple[TextIO, str]] = []
    messages: TextIO = Buffered(world.stderr, told) if world.stderr.isatty() else world.stderr
    try:
        yield world.but(stdout=Buffered(world.stdout, told), stderr=messages)
    finally:
        import shutil

        text = "".join(piece for _, piece in told)
        shown = shutil.get_terminal_size().lines - 1 < text.count("\n") and _shown(pager, text, world.environ)
        for stream, piece in () if shown else told:
            stream.write(piece)


def _shown(pager: list[str], text: str, environ: Mapping[str, str]) -> bool:
    """Whether the pager took the text; one that does not start leaves it to the screen."""
    import subprocess

    try:
        with subprocess.Popen(  # noqa: S603  # the pager that the user chose
            pager, stdin=subprocess.PIPE, env={**_LESS, **environ}
        ) as process:
            # Whoever has read enough leaves the pager before its end; Ctrl-C there is the pager's own.
            with suppress(OSError, KeyboardInterrupt):
                process.communicate(text.encode("utf-8", "backslashreplace"))
            while process.poll() is None:
                with suppress(KeyboardInterrupt):
                    process.wait()
    except OSError:
        return False
    return True


class Buffered(io.StringIO):
    """What goes to a terminal, kept together with what goes to another; a moving bar goes there at once."""

    def __init__(self, stream: TextIO, told: list[tuple[TextIO, str]]) -> None:
        super().__init__()
        self._stream, self._told = stream, told

    @property
    def encoding(self) -> str:  # type: ignore[override]
        """That of the terminal."""
        return self._stream.encoding or "utf-8"

    def isatty(self) -> bool:
        """It stands for a terminal."""
        return True

    def write(self, text: str) -> int:
        """Keep text until the end."""
        if text.startswith("\r"):
            return self._stream.write(text)
        self._told.append((self._stream, text))
        return len(text)
