"""The vault: photos and papers kept by the hash of their content, written once."""

from __future__ import annotations

import re
from collections.abc import Callable, Collection, Iterable, Iterator, Sequence
from pathlib import Path

from claimpack.errors import BadInput, CannotWrite, NotFound
from claimpack.file_contents import content_hash, hash_of, read_bytes
from claimpack.files import keep_once, remove, stale_files

# What this program puts into a vault: content by its hash, and files not finished. Anything else is somebody's.
_OURS = re.compile(r"([0-9a-f]{2})/(\1[0-9a-f]{62}|\.\1[0-9a-f]{62}\..+)")


class Vault:
    """A folder of files named by the SHA-256 of what they hold; it may lie on a network share."""

    is_elsewhere = False
    """Whether somebody else keeps the files, who may have more of them than are shown."""

    def __init__(self, folder: Path) -> None:
        self.folder, self.name = folder, str(folder)

    def place(self, sha256: str) -> Path:
        """Where content of that hash is kept."""
        return self.folder / name_of(sha256)

    def keep(self, source: Path) -> tuple[str, int]:
        """Keep a copy of a file; the file itself is not touched. The same content is kept once.

        Returns:
            The content's SHA-256, and its size in bytes.

        Raises:
            ClaimpackError: it cannot be read, or the vault cannot be written.
        """
        sha256 = content_hash(source)
        # hashed again while it is copied: a camera's card may still be written to
        keep_once(self.folder, name_of(sha256), lambda: unchanged(source, sha256))
        return sha256, self.place(sha256).stat().st_size

    def keep_all(self, sources: Iterable[Path], advance: Callable[[], None] = lambda: None) -> list[tuple[str, int]]:
        """Keep copies of files, in their order; returns and raises as `keep` does, and tells of each by `advance`."""
        kept = []
        for one in self._keeping(sources):
            kept.append(one)
            advance()
        return kept

    def _keeping(self, sources: Iterable[Path]) -> Iterator[tuple[str, int]]:
        return map(self.keep, sources)

    def keep_content(self, content: bytes) -> str:
        """Keep content that is in no file; the same content is kept once.

        Returns:
            Its SHA-256.

        Raises:
            CannotWrite: the vault cannot be written.
        """
        sha256 = hash_of(content)
        keep_once(self.folder, name_of(sha256), lambda: content)
        return sha256

    def take_over(self, content: bytes) -> None:
        """Keep content that comes from another vault, in place of what was damaged here; raises as `keep_content`."""
        for sha256, _ in self.damaged([hash_of(content)]):
            self.drop(sha256)
        self.keep_content(content)

    def holds(self, sha256: str) -> bool:
        """Whether there is a file for content of that hash, whole or not."""
        return self.place(sha256).exists()

    def must_take(self) -> None:
        """Refuse a vault that takes nothing, before work is put into it; a folder says so when it is written."""

    def bring(self, hashes: Iterable[str]) -> None:
        """See to it that kept files can be read quickly; those in a folder can."""

    def drop_copy(self, sha256: str) -> None:
        """Take away what this machine has beside the vault of a content that was taken out; of a folder, nothing."""

    def sweep(self, orphans: Iterable[Path | str]) -> None:
        """Take orphans out; raises CannotWrite."""
        remove(map(Path, orphans))

    def orphans(self, wanted: Collection[str]) -> Sequence[Path | str]:
        """Files in the vault that are not the content wanted, by name; those of the last day may still be waited for.

        Raises:
            CannotWrite: the vault cannot be written.
        """
        places = {self.place(sha256) for sha256 in wanted}

        def is_none_of_ours(path: Path) -> bool:
            return path in places or not _OURS.fullmatch(path.relative_to(self.folder).as_posix())

        return stale_files(self.folder, is_none_of_ours) if self.folder.is_dir() else []

    def find(self, sha256: str, name: str) -> Path:
        """The kept file of that content.

        Args:
            sha256: the content.
            name: the file as the claim names it, for the message.

        Raises:
            NotFound: the vault does not hold it.
        """
        path = self.place(sha256)
        if not path.is_file():
            raise self._is_gone(name, sha256)
        return path

    def content(self, sha256: str, name: str) -> bytes:
        """The kept content, proved to be what was kept.

        Raises:
            NotFound: the vault does not hold it.
            BadInput: it was changed since.
        """
        content = read_bytes(self.find(sha256, name))
        if hash_of(content) != sha256:
            raise self._was_changed(name, sha256)
        return content

    def drop(self, sha256: str) -> None:
        """Take a content out for good; one that is not there is not missed.

        Raises:
            CannotWrite: the folder does not let it go.
        """
        try:
            self.place(sha256).unlink(missing_ok=True)
        except OSError as error:
            raise CannotWrite(
                f"{sha256[:12]}… cannot be taken out of the vault {self.name}",
                str(error.strerror or error),
                "Ask whoever owns the folder for the right to write there.",
            ) from error

    def damaged(self, hashes: Iterable[str], advance: Callable[[], None] = lambda: None) -> Iterator[tuple[str, str]]:
        """Kept files that are gone or no longer what they were, with what is wrong, in the order asked.

        Args:
            hashes: the content asked about.
            advance: called for each of them.
        """
        for sha256 in hashes:
            advance()
            path = self.place(sha256)
            if not path.is_file():
                yield sha256, "is gone from the vault"
            elif content_hash(path) != sha256:
                yield sha256, "was changed in the vault"

    def _is_gone(self, name: str, sha256: str) -> NotFound:
        return NotFound(
            f"{name} is not in the vault {self.name}",
            f"The book says its content is {sha256[:12]}….",
            "Connect the folder the vault lies in, or restore it from a copy.",
        )

    def _was_changed(self, name: str, sha256: str) -> BadInput:
        return BadInput(
            f"{name} was changed in the vault {self.name}",
            f"Its content is not {sha256[:12]}… any more, which the book wrote down when it was kept.",
            "Restore the vault from a copy; see what else was changed: claimpack shop verify",
        )


def name_of(sha256: str) -> str:
    """What content of a hash is called in a vault."""
    return f"{sha256[:2]}/{sha256}"


def unchanged(source: Path, sha256: str) -> bytes:
    """The content of a file that had that hash a moment ago.

    Raises:
        BadInput: it has another one now.
    """
    content = read_bytes(source)
    if hash_of(content) != sha256:
        raise changed_while_read(source)
    return content


def changed_while_read(source: Path) -> BadInput:
    """That a file is not any more what was read of it a moment ago."""
    return BadInput(f"{source} changed while it was read", do="Wait until it is written, then try again.")
