"""Traces of an audit laid out on disk: of a book of any size, only one share of them is in memory at a time."""

from __future__ import annotations

import pickle
import tempfile
from array import array
from collections.abc import Hashable, Iterable, Iterator
from contextlib import contextmanager
from types import TracebackType
from typing import IO, Any, Self

from claimpack.core.auditing.report.traces import Group, KeptTraces, Traces

_WAITING = 25_600
"""So many traces wait in memory until they are written."""

_NUMBERS = 4_096


_IN_MEMORY, _A_SHARE = 5_000, 5_000
"""Up to so many claims, what they leave to be compared is kept in memory; of more, a share of about so many is."""


@contextmanager
def traces_of(claims: int) -> Iterator[Traces]:
    """Where the traces of so many claims are kept."""
    if claims <= _IN_MEMORY:
        yield KeptTraces()
        return
    # each share is a file that is open
    with SpilledTraces(min(16 + claims // _A_SHARE, 200)) as traces:
        yield traces


class SpilledNumbers:
    """Numbers of 64 bits in a file that has no name."""

    def __init__(self) -> None:
        self._waiting, self._file = array("Q"), tempfile.TemporaryFile()  # noqa: SIM115

    def extend(self, numbers: Iterable[int]) -> None:
        """Keep some more."""
        self._waiting.extend(numbers)
        if len(self._waiting) >= _NUMBERS:
            self._waiting.tofile(self._file)
            self._waiting = array("Q")

    def __iter__(self) -> Iterator[int]:
        """Every number; the file is read some at a time."""
        self._file.seek(0)
        while read := self._file.read(8 * _NUMBERS):
            yield from memoryview(read).cast("Q")
        yield from self._waiting


class SpilledHeap:
    """Traces in a file that has no name, each by its place."""

    def __init__(self) -> None:
        self._ends, self._file = array("Q", [0]), tempfile.TemporaryFile()  # noqa: SIM115

    def append(self, one: Any) -> None:
        """Keep one more."""
        told = pickle.dumps(one, pickle.HIGHEST_PROTOCOL)
        self._file.write(told)
        self._ends.append(self._ends[-1] + len(told))

    def __len__(self) -> int:
        """How many there are."""
        return len(self._ends) - 1

    def __getitem__(self, place: int) -> Any:
        """The one at a place; that it is not there ends a walk through all of them."""
        if not 0 <= place < len(self):
            raise IndexError(place)
        begins, ends = self._ends[place : place + 2]
        self._file.seek(begins)
        return pickle.loads(self._file.read(ends - begins))  # noqa: S301

    def __iter__(self) -> Iterator[Any]:
        """Every one in the order in which they came."""
        return (self[place] for place in range(len(self)))


class SpilledTraces:
    """Traces in files that have no name and go with the process, dealt out by their key.

    The files are written and read by this process alone: nobody else can lay anything into them.
    """

    def __init__(self, shares: int = 64) -> None:
        self._waiting: list[list[tuple[int, Hashable, Any]]] = [[] for _ in range(shares)]
        self._files: list[IO[bytes]] = [tempfile.TemporaryFile() for _ in range(shares)]  # noqa: SIM115
        self._batch = _WAITING // shares

    def __enter__(self) -> Self:
        return self

    def __exit__(
        self, _kind: type[BaseException] | None, _what: BaseException | None, _at: TracebackType | None
    ) -> None:
        for file in self._files:
            file.close()

    def heap(self) -> SpilledHeap:
        """Room for traces without a key."""
        return SpilledHeap()

    def numbers(self) -> SpilledNumbers:
        """Room for numbers."""
        return SpilledNumbers()

    def put(self, rule: int, key: Hashable, trace: Any) -> None:
        """Keep one trace."""
        share = hash((rule, key)) % len(self._files)
        waiting = self._waiting[share]
        waiting.append((rule, key, trace))
        if len(waiting) >= self._batch:
            self._spill(share)

    def _spill(self, share: int) -> None:
        pickle.dump(self._waiting[share], self._files[share], pickle.HIGHEST_PROTOCOL)
        self._waiting[share] = []

    def groups(self) -> Iterator[Group]:
        """Every group, share by share."""
        for share, file in enumerate(self._files):
            self._spill(share)
            size = file.tell()
            file.seek(0)
            kept = KeptTraces()
            while file.tell() < size:
                for rule, key, trace in pickle.load(file):  # noqa: S301
                    kept.put(rule, key, trace)
            yield from kept.groups()
