"""Room for decoded pictures: several small ones at once, a large one alone."""

from __future__ import annotations

import contextlib
import threading
from collections.abc import Iterator


class DecodingRoom:
    """So many bytes that pictures decoded at the same time may fill; one larger than all of it waits to be alone."""

    def __init__(self, capacity: int) -> None:
        self._capacity = capacity
        self._filled = 0
        self._changed = threading.Condition()

    @contextlib.contextmanager
    def taken(self, wanted: int) -> Iterator[None]:
        """Room of so many bytes, waited for, and given back at the end."""
        # one larger than all of it would wait for ever
        amount = min(wanted, self._capacity)
        with self._changed:
            self._changed.wait_for(lambda: self._filled + amount <= self._capacity)
            self._filled += amount
        try:
            yield
        finally:
            with self._changed:
                self._filled -= amount
                self._changed.notify_all()
