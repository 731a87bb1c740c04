"""The vault in a store of objects: the store holds every file, a folder of this machine what was used here.

A picture is in the store, and was read back from it, before a claim names it: a command that is stopped, or finds no
server, has recorded nothing, and the same command goes on where it stopped.
"""

from __future__ import annotations

import datetime as dt
import hashlib
import re
from collections.abc import Callable, Collection, Iterable, Iterator
from concurrent.futures import ThreadPoolExecutor
from functools import partial
from pathlib import Path
from typing import TypeVar

from claimpack.errors import CannotWrite, NotFound
from claimpack.evidence.object_store import ObjectStore
from claimpack.evidence.vault import Vault, name_of, unchanged
from claimpack.file_contents import content_hash, hash_of, read_bytes
from claimpack.files import write_folder

_OURS = re.compile(r"([0-9a-f]{2})/(\1[0-9a-f]{62})")
# Not the name of any content.
_NOW = "now"
_A_DAY = 86_400
_AT_ONCE = 8

Answer = TypeVar("Answer")
Asked = TypeVar("Asked")


class StoreVault(Vault):
    """Files of a store, named by the SHA-256 of what they hold; `folder` has copies, which can be done without."""

    is_elsewhere = True

    def __init__(self, store: ObjectStore, folder: Path) -> None:
        super().__init__(folder)
        self._store, self.name = store, str(store.address)

    def keep(self, source: Path, *, shown: bool = True) -> tuple[str, int]:
        """Keep a copy of a file, as in a folder; a large one is shown as it goes."""
        content = unchanged(source, content_hash(source))
        return self.keep_content(content, shown=shown), len(content)

    def _keeping(self, sources: Iterable[Path]) -> Iterator[tuple[str, int]]:
        wanted = list(sources)
        # One alone is shown by its parts, several are counted.
        return map(self.keep, wanted) if len(wanted) == 1 else _at_once(partial(self.keep, shown=False), wanted)

    def keep_content(self, content: bytes, *, shown: bool = True) -> str:
        """Keep content that is in no file, as in a folder, and a copy on this machine.

        Raises:
            CannotWrite: store or folder do not take it, or what the store gives back is something else.
            NotFound: the store cannot be asked.
        """
        sha256 = super().keep_content(content)
        self._put(content, sha256, self.place(sha256).stat().st_mtime, shown=shown)
        return sha256

    def take_over(self, content: bytes) -> None:
        """Keep content that comes from another vault, without a copy on this machine; raises as `keep_content`."""
        self._put(content, hash_of(content), 0)

    def _put(self, content: bytes, sha256: str, now: float, *, shown: bool = False) -> None:
        name = name_of(sha256)
        there = self._store.held(name)
        # Content nobody needs yet is taken away after a day; what is kept anew begins a new one.
        is_old = there is not None and now - there.since.timestamp() > _A_DAY / 2
        if there is None or is_old:
            self._store.put(name, content, anew=there is not None, shown=shown)
        if self._hash(sha256) == sha256:
            return
        self._store.put(name, content, anew=True)
        if self._hash(sha256) != sha256:
            raise CannotWrite(
                f"the vault {self.name} does not give back what was put into it",
                f"The content of {sha256[:12]}… came back changed, twice.",
                "Ask whoever runs the store to look at it, and try again.",
            )

    def holds(self, sha256: str) -> bool:
        """Whether the store has content of that hash, whole or not."""
        return self._store.held(name_of(sha256)) is not None

    def find(self, sha256: str, name: str) -> Path:
        """A copy of the content on this machine, fetched where there is none; it is what was kept.

        Raises:
            NotFound: the store does not hold it, or cannot be asked.
            BadInput: it was changed in the store.
        """
        if not self._has_copy(sha256):
            self._copy(sha256, self._proved(sha256, name, shown=True))
        return self.place(sha256)

    def content(self, sha256: str, name: str) -> bytes:
        """The content, proved, from the copy on this machine or from the store; raises as `find`.

        Nothing is shown: whoever asks for many at once counts them.
        """
        return read_bytes(self.place(sha256)) if self._has_copy(sha256) else self._proved(sha256, name)

    def bring(self, hashes: Iterable[str]) -> None:
        """Fetch what has no copy on this machine, several at once; what is gone or damaged is left to `find`.

        Raises:
            NotFound: the store cannot be asked.
        """
        wanted = [sha256 for sha256 in dict.fromkeys(hashes) if not self._has_copy(sha256)]
        with self._store.progress("Fetching files", len(wanted)) as advance:
            for sha256, content in zip(wanted, _at_once(self._whole, wanted), strict=True):
                if content is not None and hash_of(content) == sha256:
                    self._copy(sha256, content)
                advance()

    def drop(self, sha256: str) -> None:
        """Take a content out for good, and its copy on this machine; raises CannotWrite."""
        self._store.drop(name_of(sha256))
        self.drop_copy(sha256)

    def drop_copy(self, sha256: str) -> None:
        """Take away the copy on this machine of what was taken out on another."""
        super().drop(sha256)

    def damaged(self, hashes: Iterable[str], advance: Callable[[], None] = lambda: None) -> Iterator[tuple[str, str]]:
        """What is gone from the store or changed in it, in the order asked; copies prove nothing."""
        wanted = list(hashes)
        for sha256, found in zip(wanted, _at_once(self._hash, wanted), strict=True):
            advance()
            if found is None:
                yield sha256, "is gone from the vault"
            elif found != sha256:
                yield sha256, "was changed in the vault"

    def orphans(self, wanted: Collection[str]) -> list[str]:
        """The hashes of content in the store that is not wanted, a day old by the clock of the server.

        Raises:
            CannotWrite: the store cannot be written.
            NotFound: it cannot be asked.
        """
        ours = ((_OURS.fullmatch(each.name), each.since) for each in self._store.names())
        found = {match[2]: since for match, since in ours if match and match[2] not in wanted}
        now = self._now() if found else None
        return sorted(sha256 for sha256, since in found.items() if now and (now - since).total_seconds() > _A_DAY)

    def must_take(self) -> None:
        """Refuse a store that takes nothing; raises CannotWrite, or NotFound where it cannot be asked."""
        self._now()

    def _now(self) -> dt.datetime | None:
        """What the clock of the server says: an object tells it that is put in, asked for, and taken out."""
        self._store.put(_NOW, b"", anew=True)
        put = self._store.held(_NOW)
        self._store.drop(_NOW)
        return put.since if put else None

    def sweep(self, orphans: Iterable[Path | str]) -> None:
        """Take orphans out; raises CannotWrite."""
        for sha256 in orphans:
            self.drop(str(sha256))

    def _has_copy(self, sha256: str) -> bool:
        place = self.place(sha256)
        # A copy that the disk damaged is fetched anew; the store has the right one.
        return place.is_file() and content_hash(place) == sha256

    def _copy(self, sha256: str, content: bytes) -> None:
        write_folder(self.folder, {name_of(sha256): content})

    def _proved(self, sha256: str, name: str, *, shown: bool = False) -> bytes:
        content = self._whole(sha256, shown=shown)
        if content is None:
            raise self._is_gone(name, sha256)
        if hash_of(content) != sha256:
            raise self._was_changed(name, sha256)
        return content

    def _is_gone(self, name: str, sha256: str) -> NotFound:
        gone = super()._is_gone(name, sha256)
        gone.do = "Put it back from a backup; see what else is gone: claimpack shop verify"
        return gone

    def _whole(self, sha256: str, *, shown: bool = False) -> bytes | None:
        parts = self._store.parts(name_of(sha256), shown=shown)
        return None if parts is None else b"".join(parts)

    def _hash(self, sha256: str) -> str | None:
        """The SHA-256 of what the store holds under a hash; None where it holds nothing."""
        parts = self._store.parts(name_of(sha256))
        if parts is None:
            return None
        digest = hashlib.sha256()
        for part in parts:
            digest.update(part)
        return digest.hexdigest()


def _at_once(ask: Callable[[Asked], Answer], about: list[Asked]) -> Iterator[Answer]:
    with ThreadPoolExecutor(_AT_ONCE) as asking:
        yield from asking.map(ask, about)
