"""Traces of an audit laid out on disk: of a book of any size, only one share of them is in memory at a time."""

from __future__ import annotations

import pickle
import tempfile
from collections.abc import Hashable, Iterator
from types import TracebackType
from typing import IO, Any, Self

from claimpack.core.auditing.report.traces import Group, KeptTraces

_SHARES = 64
_BATCH = 400


class SpilledTraces:
    """Traces in files that have no name and go with the process, dealt out by their key.

    The files are written and read by this process alone: nobody else can lay anything into them.
    """

    def __init__(self) -> None:
        self._waiting: list[list[tuple[int, Hashable, Any]]] = [[] for _ in range(_SHARES)]
        self._files: list[IO[bytes]] = [tempfile.TemporaryFile() for _ in range(_SHARES)]  # noqa: SIM115

    def __enter__(self) -> Self:
        return self

    def __exit__(
        self, _kind: type[BaseException] | None, _what: BaseException | None, _at: TracebackType | None
    ) -> None:
        for file in self._files:
            file.close()

    def put(self, rule: int, key: Hashable, trace: Any) -> None:
        """Keep one trace."""
        share = hash((rule, key)) % _SHARES
        waiting = self._waiting[share]
        waiting.append((rule, key, trace))
        if len(waiting) >= _BATCH:
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
