"""Files that come from a phone piece by piece, each known by the hash of its whole content."""

from __future__ import annotations

import hashlib
import re
import threading
from pathlib import Path
from typing import Any

from claimpack.errors import BadInput
from claimpack.files import add_to_file, remove

MOST_BYTES = 80_000_000
"""Of one picture; a phone's are a tenth of it."""

MOST_PIECE = 1_048_576
"""Bytes of one piece."""

_MOST_WAITING = 40
_MOST_ALL = 1_000_000_000
_SHA256 = re.compile(r"[0-9a-f]{64}")


class _Coming:
    def __init__(self, path: Path, size: int) -> None:
        self.path, self.size = path, size
        self.received = 0
        self.hash: Any = hashlib.sha256()
        self.lock = threading.Lock()


class Uploads:
    """What came from a phone in one session; a piece that comes twice counts once, and so does a file."""

    def __init__(self, folder: Path) -> None:
        self._folder = folder
        self._coming: dict[str, _Coming] = {}
        self._filed: dict[str, int] = {}
        self._lock = threading.Lock()

    def received(self, sha256: str) -> int:
        """How many bytes of a file are there; 0 for one that never came."""
        coming = self._coming.get(sha256)
        return coming.received if coming else self._filed.get(sha256, 0)

    def add(self, sha256: str, at: int, size: int, piece: bytes) -> int:
        """Take a piece, and tell how many bytes are there now; one that does not follow what is there is left out.

        Args:
            sha256: of the whole file, as the phone computed it.
            at: where in the file the piece begins.
            size: of the whole file.
            piece: its bytes.

        Raises:
            BadInput: the file is too large, too many are waiting, or its content is not what was announced.
            CannotWrite: the disk takes no more.
        """
        if sha256 in self._filed:
            return self._filed[sha256]
        coming = self._of(sha256, size)
        with coming.lock:
            if at != coming.received or size != coming.size or at + len(piece) > size:
                return coming.received
            add_to_file(coming.path, piece)
            coming.hash.update(piece)
            coming.received += len(piece)
            if coming.received == size and coming.hash.hexdigest() != sha256:
                self.drop(sha256)
                raise BadInput("the picture was damaged on the way", do="It is sent once more.")
            return coming.received

    def file(self, sha256: str) -> Path:
        """Where a file lies that came whole.

        Raises:
            BadInput: it did not.
        """
        coming = self._coming.get(sha256)
        self._filed.pop(sha256, None)
        if coming is None or coming.received < coming.size:
            raise BadInput("the picture has not come whole yet", do="It is sent once more.")
        return coming.path

    def filed(self, sha256: str) -> None:
        """Let a file go that was filed; it need not be sent again."""
        self._filed[sha256] = self.received(sha256)
        self.drop(sha256)

    def drop(self, sha256: str) -> None:
        """Let a file go that is no good."""
        coming = self._coming.pop(sha256, None)
        if coming:
            remove([coming.path])

    def _of(self, sha256: str, size: int) -> _Coming:
        if not _SHA256.fullmatch(sha256):
            raise BadInput("a file is known by the SHA-256 of its content")
        if not 0 < size <= MOST_BYTES:
            raise BadInput(f"a picture of {size} bytes is not taken", f"At most {MOST_BYTES // 1_000_000} MB are.")
        with self._lock:
            if sha256 not in self._coming:
                waiting = self._coming.values()
                if len(waiting) >= _MOST_WAITING or size + sum(each.size for each in waiting) > _MOST_ALL:
                    raise BadInput("too many pictures are waiting", do="Wait until some of them are filed.")
                self._coming[sha256] = _Coming(self._folder / sha256, size)
            return self._coming[sha256]
