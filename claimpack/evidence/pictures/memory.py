"""Room for decoded pictures: several small ones at once, a large one alone."""

from __future__ import annotations

import contextlib
import os
import threading
from collections.abc import Iterator

from claimpack.evidence.pictures.picture_kinds import PictureKind


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


def threads(most: int) -> int:
    """How many threads look at pictures: one for each processor, two at least, and no more than so many."""
    return max(2, min(os.cpu_count() or 2, most))


def bytes_decoded(kind: PictureKind, size: tuple[int, int], long_edge: int, *, is_progressive: bool) -> int:
    """The room that a picture takes while it is made ready for print, at most.

    Args:
        kind: of its file.
        size: its pixels as stored; a JPEG is decoded to a half, a quarter or an eighth of them where that is enough.
        long_edge: of the picture in print.
        is_progressive: whether it is a JPEG that keeps every coefficient until its last scan.
    """
    pixels, printed = size[0] * size[1], 12 * long_edge**2
    if kind != "JPEG":
        return pixels * (12 if kind in ("WebP", "HEIC") else 5) + printed
    waiting = 6 * pixels if is_progressive else 0
    shrink = max(1, max(size) // long_edge)
    return waiting + 4 * pixels // min(8, 1 << (shrink.bit_length() - 1)) ** 2 + printed
