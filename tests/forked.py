"""Writers as processes of their own, forked so that nothing is imported twice."""

from __future__ import annotations

import os
import select
import signal
import time
from collections.abc import Callable
from pathlib import Path
from typing import NamedTuple

Say = Callable[[str], None]


class Writer(NamedTuple):
    """A process, and the pipe it tells on what was acknowledged to it."""

    process: int
    pipe: int

    def kill_after(self, seconds: float, *, lines: int = 0) -> list[str]:
        """Kill the process that long after it told so many lines; everything it told."""
        told = b""
        while told.count(b"\n") < lines and (chunk := os.read(self.pipe, 65536)):
            told += chunk
        deadline = time.monotonic() + seconds
        while (left := deadline - time.monotonic()) > 0:
            if select.select([self.pipe], [], [], left)[0]:
                told += os.read(self.pipe, 65536)
        os.kill(self.process, signal.SIGKILL)
        return self._rest(told)

    def finish(self) -> list[str]:
        """Everything the process told until it ended by itself."""
        return self._rest(b"")

    def _rest(self, told: bytes) -> list[str]:
        while chunk := os.read(self.pipe, 65536):
            told += chunk
        os.close(self.pipe)
        os.waitpid(self.process, 0)
        return told.decode().splitlines()


def forked(work: Callable[[Say], None]) -> Writer:
    """Start some work in a process of its own; a line it says is written at once, an error is said and ends it."""
    reads, writes = os.pipe()
    process = os.fork()
    if process:
        os.close(writes)
        return Writer(process, reads)
    try:
        work(lambda line: _write(writes, line))
    except BaseException as error:  # noqa: BLE001  # whatever it was, the test has to see it
        _write(writes, f"error {error!r}")
    finally:
        os._exit(0)


def _write(pipe: int, line: str) -> None:
    os.write(pipe, f"{line}\n".encode())


def files_in(folder: Path) -> dict[str, bytes]:
    """Every file below a folder by name, but for those whose name begins with a dot."""
    return {path.name: path.read_bytes() for path in folder.rglob("*") if path.is_file() and path.name[0] != "."}
