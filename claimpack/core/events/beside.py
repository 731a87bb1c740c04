"""Events read beside the claims they are about, so that a history is never in memory as a whole."""

from __future__ import annotations

from collections.abc import Iterator

from claimpack.core.events.events import Event


class EventsBeside:
    """Events claim by claim, in the order in which the claims come; those of a claim asked for early are kept."""

    def __init__(self, coming: Iterator[tuple[str, list[Event]]]) -> None:
        self._coming = coming
        self._passed: dict[str, list[Event]] = {}
        self._last = ""

    def of(self, number: str) -> list[Event]:
        """The events of a claim; none where nothing was told of it."""
        while self._last < number:
            claim, events = next(self._coming, (_END, []))
            self._passed[claim], self._last = events, claim
        return self._passed.pop(number, [])


_END = chr(0x10FFFF)
"""What comes after every number of a claim."""
