"""Claim folders read before any is taken into the book, so that all are taken or none."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from pathlib import Path
from typing import TYPE_CHECKING, NamedTuple

from claimpack.errors import BadInput, ClaimpackError

if TYPE_CHECKING:
    from claimpack.book.rows import KeptFile
    from claimpack.claim_folder import ClaimFolder
    from claimpack.core.claim import Claim


class Ready(NamedTuple):
    """A claim folder that can be taken in: the claim, its files as the book names them, where they lie."""

    folder: Path
    claim: Claim
    files: tuple[KeptFile, ...]
    paths: tuple[Path, ...]

    @property
    def own_rules(self) -> bool:
        """Whether it brings coverage plans or terms of its own."""
        return any(file.path.startswith(("coverage/", "terms/")) for file in self.files)


class Bad(NamedTuple):
    """A claim folder that cannot be taken in, and why."""

    folder: Path
    error: ClaimpackError


def read_folders(
    folders: Iterable[Path], known: set[str], advance: Callable[[], None]
) -> tuple[list[Ready], list[Bad]]:
    """Read claim folders whole; every picture is looked at, every file hashed.

    Args:
        folders: the claim folders, in order.
        known: claim numbers that are in the book.
        advance: called after each.
    """
    ready: list[Ready] = []
    bad: list[Bad] = []
    taken = set(known)
    for folder in folders:
        try:
            found = _read(folder, taken)
            taken.add(found.claim.number)
            ready.append(found)
        except ClaimpackError as error:
            bad.append(Bad(folder, error))
        advance()
    return ready, bad


def _read(folder: Path, taken: set[str]) -> Ready:
    from claimpack.claim_folder import every_file, inside, read_claim_folder
    from claimpack.evidence.originals import read_original

    read = read_claim_folder(folder)
    if read.claim.number in taken:
        raise BadInput(
            f"{folder}: claim {read.claim.number} is in the book already",
            "A claim number stands for one claim for ever.",
            "Give it another number.",
        )
    names = tuple(inside(name, str(folder)) for name in every_file(read))
    paths = tuple(read_original(read.path, name) for name in names)
    files = tuple(_kept(read, name, path) for name, path in zip(names, paths, strict=True))
    return Ready(folder, read.claim, files, paths)


def _kept(folder: ClaimFolder, name: str, path: Path) -> KeptFile:
    from claimpack.book.rows import KeptFile
    from claimpack.evidence.likeness import look_at
    from claimpack.files import content_hash

    if name in {photo.file for photo in folder.claim.photos}:
        seen = look_at(path, str(path))
        return KeptFile(name, seen.sha256, seen.bytes, seen.taken, seen.likeness)
    return KeptFile(name, content_hash(path), path.stat().st_size)
