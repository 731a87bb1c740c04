"""Work on files that anybody may have made, done in a process of its own with a ceiling on memory and time.

A decoder that is kept busy, fills its memory or breaks down takes that process with it, and the program says which file
it was. The processes are started when first needed, kept for the next file, and end with the program.
"""

from __future__ import annotations

import atexit
import base64
import contextlib
import dataclasses
import datetime as dt
import json
import os
import pickle
import subprocess
import sys
import threading
from collections.abc import Callable, Iterator
from functools import cache
from types import GenericAlias
from typing import IO, Any, TypeVar, get_type_hints

from claimpack.errors import BadInput, ClaimpackError

MOST_MEMORY = 1_500_000_000
"""Bytes of address space, where the system keeps count of them (Linux, most of Unix)."""

MOST_SECONDS = 60
"""Of one file."""

MOST_ANSWER = 300_000_000
"""Bytes of an answer as it is handed back; the largest paper takes less than half."""

# Each may take 1.5 GB: more of them at once would fill a small machine.
_MOST_PROCESSES = 4
# Bytes that tell the length of what follows them.
_LENGTH = 8
_ANSWER, _REFUSED, _TOO_LARGE, _TOO_LATE, _BROKEN = b"answer", b"refused", b"memory", b"time", b"broken"

_ERRORS: tuple[type[ClaimpackError], ...] = (ClaimpackError, *ClaimpackError.__subclasses__())
_KINDS = {error.__name__: error for error in _ERRORS}

Answer = TypeVar("Answer")


def confined(work: Callable[..., Answer], *arguments: object, file: str, seconds: float = MOST_SECONDS) -> Answer:
    """What a function answers, computed in a process with limits.

    Args:
        work: a function of a module; it says in its annotation what it answers: a record of plain values, bytes,
            days and records, or one of these alone.
        arguments: what it is given, fit for pickling; paths must be absolute.
        file: how the user calls the file that is read, for the message.
        seconds: how long it may take.

    Raises:
        ClaimpackError: as the function raises it.
        BadInput: it took too long, wanted too much memory, or its process broke down.
    """
    with _CROWD.worker() as worker:
        said, content = worker.ask((work, arguments), seconds)
    # What has not the form it must have comes from a reader that a file has made to say something else.
    with contextlib.suppress(ValueError):
        if said == _ANSWER:
            answer: Answer = _form_of(work).validate_json(content)[0]
            return answer
        if said == _REFUSED:
            raise _refusal(content)
    reasons = {
        _TOO_LATE: f"it took more than {seconds:g} s",
        _TOO_LARGE: f"it took more than {MOST_MEMORY / 10**9:g} GB of memory",
    }
    raise BadInput(
        f"{file} cannot be read: {reasons.get(said, 'its reader broke down')}",
        "No photo, paper or packet needs that; the file is damaged, or made to do harm.",
        "Save or print it anew from where it came, or ask for it again.",
    )


@cache
def _form_of(work: Callable[..., object]) -> Any:
    """What an answer must look like to be taken for one."""
    from pydantic import ConfigDict, TypeAdapter

    form: Any = GenericAlias(tuple, (get_type_hints(work)["return"],))
    return TypeAdapter(form, config=ConfigDict(val_json_bytes="base64"))


def _refusal(content: bytes) -> ClaimpackError:
    """An error as the other process worded it; only the program's own errors can be told."""
    from pydantic import TypeAdapter

    kind, what, why, do, problems = TypeAdapter(tuple[str, str, str, str, tuple[str, ...]]).validate_json(content)
    return _KINDS.get(kind, BadInput)(what, why, do, problems)


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

    def ask(self, question: object, seconds: float) -> tuple[bytes, bytes]:
        """How it went, and the answer, the error, or what went wrong, as it was handed back."""
        late = threading.Event()

        def stop() -> None:
            late.set()
            self._process.kill()

        timer = threading.Timer(seconds, stop)
        timer.daemon = True
        timer.start()
        try:
            _write(self._process.stdin, pickle.dumps(question))
            said, _, content = _read(self._process.stdout, MOST_ANSWER).partition(b"\n")
        except (OSError, EOFError):
            self.end()
            return _TOO_LATE if late.is_set() else _BROKEN, b""
        except BaseException:
            # Interrupted half-way, its answer would be taken for that to the next question.
            self.end()
            raise
        finally:
            timer.cancel()
        if said not in (_ANSWER, _REFUSED):
            self.end()
        return said, content

    @property
    def works(self) -> bool:
        """Whether it can be asked again, and by this process."""
        return self.owner == os.getpid() and self._process.poll() is None

    def end(self) -> None:
        """End the process."""
        # After a fork the process is still the parent's, which may be waiting for its answer.
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


def _write(stream: IO[bytes] | None, content: bytes) -> None:
    if stream is None:
        raise EOFError
    stream.write(len(content).to_bytes(_LENGTH, "big"))
    stream.write(content)
    stream.flush()


def _read(stream: IO[bytes] | None, most: int = sys.maxsize) -> bytes:
    head = stream.read(_LENGTH) if stream else b""
    length = int.from_bytes(head, "big") if len(head) == _LENGTH else 0
    content = stream.read(length) if stream and length <= most else b""
    if not content or len(content) < length:
        raise EOFError
    return content


def _limit() -> None:
    """Bound what this process may take; where the system cannot, the time alone is bounded, by who asks."""
    try:
        import resource
    except ImportError:
        return
    for what, most in ((resource.RLIMIT_AS, MOST_MEMORY), (resource.RLIMIT_CORE, 0)):
        with contextlib.suppress(ValueError, OSError):
            resource.setrlimit(what, (most, most))


def _answered(question: tuple[Callable[..., object], tuple[Any, ...]]) -> bytes:
    # The answer goes back as text, never pickled: a file that took this process over would have its code run there.
    work, arguments = question
    try:
        return _ANSWER + b"\n" + _as_text([work(*arguments)])
    except ClaimpackError as error:
        kind = next(each.__name__ for each in type(error).__mro__ if each.__name__ in _KINDS)
        told = (kind, error.what, error.why, error.do, error.problems)
        return _REFUSED + b"\n" + _as_text(told)
    except MemoryError:
        return _TOO_LARGE


def _as_text(answer: object) -> bytes:
    return json.dumps(answer, default=_plain, ensure_ascii=False).encode(errors="replace")


def _plain(thing: Any) -> object:
    """What JSON has no form for: bytes, days and moments, and records of them."""
    if isinstance(thing, bytes):
        return base64.b64encode(thing).decode()
    if isinstance(thing, dt.date):
        return thing.isoformat()
    return {each.name: getattr(thing, each.name) for each in dataclasses.fields(thing)}


def _serve() -> None:
    """Answer questions until whoever asks is gone."""
    _limit()
    asked, told = sys.stdin.buffer, os.fdopen(os.dup(sys.stdout.fileno()), "wb")
    # A library that prints must not end up inside an answer.
    os.dup2(2, 1)
    with contextlib.suppress(EOFError, OSError, KeyboardInterrupt):
        while True:
            # Whoever asks is the program itself, and no file has a part in what it asks.
            _write(told, _answered(pickle.loads(_read(asked))))  # noqa: S301


if __name__ == "__main__":
    _serve()
