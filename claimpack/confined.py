"""Work on files that anybody may have made, done in a process of its own with a ceiling on memory and time.

A decoder that is kept busy, fills its memory or breaks down takes that process with it, and the program says which file
it was. The processes are started when first needed, kept for the next file, and end with the program.
"""

from __future__ import annotations

import atexit
import contextlib
import os
import pickle
import subprocess
import sys
import threading
from collections.abc import Callable, Iterator
from typing import IO, Any, TypeVar

from claimpack.errors import BadInput, ClaimpackError

MOST_MEMORY = 1_500_000_000
"""Bytes of address space, where the system keeps count of them (Linux, most of Unix)."""

MOST_SECONDS = 60
"""Of one file."""

_MOST_PROCESSES = 4
_LENGTH = 8

Answer = TypeVar("Answer")


def confined(work: Callable[..., Answer], *arguments: object, file: str, seconds: float = MOST_SECONDS) -> Answer:
    """What a function answers, computed in a process with limits.

    Args:
        work: a function of a module; what it is given and answers must be fit for pickling.
        arguments: what it is given; paths must be absolute.
        file: how the user calls the file that is read, for the message.
        seconds: how long it may take.

    Raises:
        ClaimpackError: as the function raises it.
        BadInput: it took too long, wanted too much memory, or its process broke down.
    """
    with _CROWD.worker() as worker:
        said, answer = worker.ask((work, arguments), seconds)
    if said == "answer":
        return answer  # type: ignore[no-any-return]
    if said == "refused":
        raise answer
    raise BadInput(
        f"{file} cannot be read: {answer}",
        "No photo, paper or packet needs that; the file is damaged, or made to do harm.",
        "Save or print it anew from where it came, or ask for it again.",
    )


class _Worker:
    """One process that answers one question after the other."""

    def __init__(self) -> None:
        # -P: a file beside the claim must not be taken for one of the program's modules.
        self._process = subprocess.Popen(  # noqa: S603  # the program itself, and nothing that was typed
            [sys.executable, "-P", "-m", __name__],
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            stderr=subprocess.DEVNULL,
            creationflags=getattr(subprocess, "CREATE_NO_WINDOW", 0),
        )
        self.owner = os.getpid()

    def ask(self, question: object, seconds: float) -> tuple[str, Any]:
        """How it went, and the answer, the error, or what went wrong."""
        late = threading.Event()

        def stop() -> None:
            late.set()
            self._process.kill()

        timer = threading.Timer(seconds, stop)
        timer.daemon = True
        timer.start()
        try:
            _write(self._process.stdin, question)
            said: tuple[str, Any] = _read(self._process.stdout)
        except (OSError, EOFError, pickle.UnpicklingError):
            self.end()
            return "broken", f"it took more than {seconds:g} s" if late.is_set() else "its reader broke down"
        except BaseException:
            self.end()
            raise
        finally:
            timer.cancel()
        if said[0] == "broken":
            self.end()
        return said

    @property
    def works(self) -> bool:
        """Whether it can be asked again, and by this process."""
        return self.owner == os.getpid() and self._process.poll() is None

    def end(self) -> None:
        """End the process."""
        if self.owner != os.getpid():
            return
        self._process.kill()
        for stream in (self._process.stdin, self._process.stdout):
            with contextlib.suppress(OSError):
                stream.close()  # type: ignore[union-attr]
        self._process.wait()


class _Crowd:
    """The processes of this program, a few at most."""

    def __init__(self) -> None:
        self._free: list[_Worker] = []
        self._lock = threading.Lock()
        self._seats = threading.BoundedSemaphore(max(1, min(os.cpu_count() or 1, _MOST_PROCESSES)))

    @contextlib.contextmanager
    def worker(self) -> Iterator[_Worker]:
        """A process for one question; a free one where there is one."""
        with self._seats:
            with self._lock:
                worker = self._free.pop() if self._free else None
            if worker is None or not worker.works:
                worker = _Worker()
            try:
                yield worker
            finally:
                if worker.works:
                    self._free.append(worker)

    def end(self) -> None:
        """End every process that is free."""
        while self._free:
            self._free.pop().end()


_CROWD = _Crowd()


@atexit.register
def end_all() -> None:
    """End the processes that wait for a next file."""
    _CROWD.end()


def _write(stream: IO[bytes] | None, thing: object) -> None:
    content = pickle.dumps(thing)
    if stream is None:
        raise EOFError
    stream.write(len(content).to_bytes(_LENGTH, "big"))
    stream.write(content)
    stream.flush()


def _read(stream: IO[bytes] | None) -> Any:
    head = stream.read(_LENGTH) if stream else b""
    content = stream.read(int.from_bytes(head, "big")) if stream and len(head) == _LENGTH else b""
    if not content:
        raise EOFError
    # Both ends are this program, under one user: what the process could do by a forged answer it can do without.
    return pickle.loads(content)  # noqa: S301


def _limit() -> None:
    """Bound what this process may take; where the system cannot, the time alone is bounded, by who asks."""
    try:
        import resource
    except ImportError:
        return
    for what, most in ((resource.RLIMIT_AS, MOST_MEMORY), (resource.RLIMIT_CORE, 0)):
        with contextlib.suppress(ValueError, OSError):
            resource.setrlimit(what, (most, most))


def _answered(question: tuple[Callable[..., Any], tuple[Any, ...]]) -> tuple[str, Any]:
    work, arguments = question
    try:
        return "answer", work(*arguments)
    except ClaimpackError as error:
        return "refused", error
    except MemoryError:
        return "broken", f"it took more than {MOST_MEMORY / 10**9:g} GB of memory"


def _serve() -> None:
    """Answer questions until whoever asks is gone."""
    _limit()
    asked, told = sys.stdin.buffer, os.fdopen(os.dup(sys.stdout.fileno()), "wb")
    # A library that prints must not end up inside an answer.
    os.dup2(2, 1)
    with contextlib.suppress(EOFError, OSError, KeyboardInterrupt):
        while True:
            _write(told, _answered(_read(asked)))


if __name__ == "__main__":
    _serve()
