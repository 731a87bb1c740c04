"""What claims leave behind for the rules that compare them, kept by rule and key until all claims were seen."""

from __future__ import annotations

from array import array
from collections.abc import Hashable, Iterator, Sequence
from typing import Any, Protocol

from claimpack.core.auditing.rule import Heap, Numbers

Group = tuple[int, Sequence[Any]]
"""The place of a rule, and the traces that claims left for it under one key."""


class Traces(Protocol):
    """Somewhere to keep traces."""

    def heap(self) -> Heap:
        """Room for traces without a key."""

    def numbers(self) -> Numbers:
        """Room for numbers."""

    def put(self, rule: int, key: Hashable, trace: Any) -> None:
        """Keep one trace for the rule of that place under a key."""

    def groups(self) -> Iterator[Group]:
        """Every group, once all traces are there; the traces of a group in the order in which they came."""


class KeptTraces:
    """Traces kept in memory; nearly every key has one trace, so a list is made for the others alone."""

    def __init__(self) -> None:
        self._first: dict[tuple[int, Hashable], Any] = {}
        self._several: dict[tuple[int, Hashable], list[Any]] = {}

    def heap(self) -> Heap:
        """Room in memory."""
        return list[Any]()

    def numbers(self) -> Numbers:
        """Room in memory."""
        return array("Q")

    def put(self, rule: int, key: Hashable, trace: Any) -> None:
        """Keep one trace."""
        under = rule, key
        first = self._first.setdefault(under, trace)
        # most keys are met once, and only those met again cost a list
        if first is not trace:
            self._several.setdefault(under, [first]).append(trace)

    def groups(self) -> Iterator[Group]:
        """Every group, in the order of the first trace."""
        for under, first in self._first.items():
            yield under[0], self._several.get(under) or (first,)
