"""The archive of a whole book: one zip file with its rows as JSON lines, its kept files, counts and hashes.

A backup is one with the shop's settings, plans, terms, layouts and stocks beside them.
"""

from __future__ import annotations

import hashlib
import json
import struct
import zipfile
import zlib
from collections.abc import Callable, Iterable, Iterator, Mapping
from contextlib import AbstractContextManager, contextmanager
from pathlib import Path, PurePosixPath
from types import MappingProxyType
from typing import IO, Any, Literal

from pydantic import ValidationError

from claimpack.book.keeping.moving import TABLES, Needed, Read
from claimpack.core.facts.fields import names_a_file_inside
from claimpack.core.facts.record import Record
from claimpack.errors import BadInput, NotFound
from claimpack.file_contents import BIGGEST_FILE, hash_of
from claimpack.files import writing_atomically
from claimpack.folder.shop_folder import SHOP_FILE
from claimpack.shop import OWN_FOLDERS

CONTENTS = "contents.json"

Progress = Callable[[int], AbstractContextManager[Callable[[], None]]]
"""Shows that many steps, and gives what moves it by one."""

# one way to write a row, so that the same book gives the same bytes and hashes
_CANONICAL = json.JSONEncoder(sort_keys=True, separators=(",", ":"), ensure_ascii=False).encode
_BROKEN = (zipfile.BadZipFile, zlib.error, EOFError, struct.error)
_SETTINGS = "settings/"
_LONGEST = 16_000_000
_LARGEST_SETTING = 50_000_000
_MOST_UNPACKED = 100_000_000
_TIMES_UNPACKED = 300
"""How many times its size a text may unpack to; the rows of a book are a tenth to a hundredth packed."""


class Contents(Record):
    """What an archive holds: rows and SHA-256 by table, how many files, the end of the history."""

    format: Literal[1] = 1
    rows: dict[str, int]
    sha256: dict[str, str]
    files: int
    history: str
    settings: dict[str, str] = {}


def write_archive(
    path: Path,
    read: Read,
    content: Callable[[str], bytes],
    progress: Progress,
    settings: Mapping[str, bytes] = MappingProxyType({}),
    prove: Callable[[Path], None] = lambda _: None,
) -> Contents:
    """Write a book to a zip file; the same book gives the same bytes.

    Args:
        path: the file to write.
        read: gives the rows of each table.
        content: gives the kept content of a hash.
        progress: shows the files go by.
        settings: the shop's own files by their path in its folder; none in an archive that only moves a book.
        prove: reads the whole file back before it takes its place.

    Raises:
        CannotWrite: the disk does not take it.
        NotFound: a kept file is gone from the vault.
    """
    needed = Needed()
    with writing_atomically(path) as stream:
        with zipfile.ZipFile(stream, "w") as zipped:
            counts, sums, history = _write_tables(zipped, read, needed)
            hashes = needed.hashes()
            with progress(len(hashes)) as advance:
                for sha256 in hashes:
                    zipped.writestr(_named(f"files/{sha256}", packed=False), content(sha256))
                    advance()
            own = {name: hash_of(text) for name, text in settings.items()}
            for name, text in settings.items():
                zipped.writestr(_named(f"{_SETTINGS}{name}"), text)
            contents = Contents(rows=counts, sha256=sums, files=len(hashes), history=history, settings=own)
            left_out = None if own else {"settings"}
            zipped.writestr(_named(CONTENTS), contents.model_dump_json(indent=2, exclude=left_out) + "\n")
        stream.flush()
        # before the old file is replaced: a backup that cannot be read is worse than the one of yesterday
        prove(Path(stream.name))
    return contents


def _write_tables(zipped: zipfile.ZipFile, read: Read, needed: Needed) -> tuple[dict[str, int], dict[str, str], str]:
    """Write every table, a row a line; their counts and hashes by table, and the end of the history."""
    counts: dict[str, int] = {}
    sums: dict[str, str] = {}
    history = ""
    for table in TABLES:
        digest, counts[table] = hashlib.sha256(), 0
        # how long a table gets is not known while it is written, and 4 GB are the limit without
        with zipped.open(_named(f"{table}.jsonl"), "w", force_zip64=True) as lines:
            for row in read(table):
                line = f"{_CANONICAL(row)}\n".encode()
                lines.write(line)
                digest.update(line)
                counts[table] += 1
                needed.take(table, row)
                # in order of position, so that the last one seen is the end of the history
                history = row["hash"] if table == "events" else history
        sums[table] = digest.hexdigest()
    return counts, sums, history


def _named(name: str, *, packed: bool = True) -> zipfile.ZipInfo:
    # the first day that a zip file can tell: a real one would make two archives of one book differ
    entry = zipfile.ZipInfo(name, (1980, 1, 1, 0, 0, 0))
    # told as made on Unix on every system, for the same reason
    entry.create_system, entry.external_attr = 3, 0o644 << 16
    # Photos and PDFs are packed already.
    entry.compress_type = zipfile.ZIP_DEFLATED if packed else zipfile.ZIP_STORED
    return entry


class Archive:
    """An archive being read. Open it with `open_archive`."""

    def __init__(self, path: Path, zipped: zipfile.ZipFile) -> None:
        self.path, self._zipped = path, zipped
        self._refuse_what_swells()
        try:
            self.contents = Contents.model_validate_json(zipped.read(CONTENTS))
        except (KeyError, ValidationError, RuntimeError, NotImplementedError):
            raise BadInput(
                f"{path} is no archive of a book: it has no {CONTENTS} that can be read",
                "Only what claimpack export --everything has written is taken over whole.",
                "Claim folders: unpack the file and import the folders.",
            ) from None

    def _refuse_what_swells(self) -> None:
        """Refuse what is no archive before it is unpacked: names that come twice, kept files packed, and bombs.

        Raises:
            BadInput: with what is wrong.
        """
        members = self._zipped.infolist()
        # readers take the first or the last of two, and the proof would be of the one that is not unpacked
        if len({member.filename for member in members}) < len(members):
            raise self.damaged("a name comes twice in it")
        packed = [member for member in members if member.compress_type != zipfile.ZIP_STORED]
        if any(member.filename.startswith("files/") for member in packed):
            raise self.damaged("its kept files are packed, which claimpack does not do")
        size = sum(member.compress_size for member in packed)
        if sum(member.file_size for member in packed) > _MOST_UNPACKED + _TIMES_UNPACKED * size:
            raise self.damaged("it would unpack to far more than a book can be")
        # members that share bytes swell by many times what any one of them does
        if sum(member.compress_size for member in members) > self.path.stat().st_size:
            raise self.damaged("its members lie over each other")
        if any(member.file_size > BIGGEST_FILE for member in members if member not in packed):
            raise self.damaged(f"a file in it is larger than {BIGGEST_FILE // 1_000_000} MB")
        if any(member.filename == CONTENTS and member.file_size > _LONGEST for member in members):
            raise self.damaged(f"its {CONTENTS} is too long")

    def settings(self) -> dict[str, bytes]:
        """The shop's own files by their path in its folder, each proved; none where it is no backup.

        Raises:
            BadInput: one was changed, or would be written beside the shop's folder.
        """
        found: dict[str, bytes] = {}
        for name, sha256 in self.contents.settings.items():
            if not _is_of_a_shop(name):
                raise self.damaged(f"{name!r} is no file of a shop's folder")
            with self._open(f"{_SETTINGS}{name}") as stream:
                found[name] = stream.read(_LARGEST_SETTING)
            if hash_of(found[name]) != sha256:
                raise self.damaged(f"{_SETTINGS}{name} was changed after it was written")
        return found

    def rows(self, table: str) -> Iterator[dict[str, Any]]:
        """The rows of a table, in order."""
        with self._open(f"{table}.jsonl") as lines:
            # a line without end must not fill the memory
            while line := lines.readline(_LONGEST):
                try:
                    yield json.loads(line)
                except (ValueError, RecursionError):
                    raise self.damaged(f"{table}.jsonl holds a line that is no row of a book") from None

    def prove(self) -> list[str]:
        """Check every table against the contents; returns the hashes of the files that are needed, in order.

        Raises:
            BadInput: something was changed, or is missing.
        """
        needed = Needed()
        for table in TABLES:
            with self._open(f"{table}.jsonl") as lines:
                digest = hashlib.file_digest(lines, "sha256")  # type: ignore[arg-type]
            if digest.hexdigest() != self.contents.sha256.get(table):
                raise self.damaged(f"{table}.jsonl was changed after it was written")
            self._take(table, needed)
        self.settings()
        hashes = needed.hashes()
        there = {name.removeprefix("files/") for name in self._zipped.namelist() if name.startswith("files/")}
        if set(hashes) != there or len(hashes) != self.contents.files:
            raise self.damaged(f"it needs {len(hashes)} files, and holds {len(there.intersection(hashes))} of them")
        return hashes

    def _take(self, table: str, needed: Needed) -> None:
        try:
            for row in self.rows(table):
                needed.take(table, row)
        except (KeyError, TypeError, ValueError, AttributeError, RecursionError):
            raise self.damaged(f"{table}.jsonl holds a line that is no row of a book") from None

    def content(self, sha256: str) -> bytes:
        """The content of a kept file.

        Raises:
            BadInput: it is not what was kept.
        """
        with self._open(f"files/{sha256}") as stream:
            content = stream.read()
        if hash_of(content) != sha256:
            raise self.damaged(f"files/{sha256} was changed after it was written")
        return content

    def _open(self, name: str) -> IO[bytes]:
        try:
            return self._zipped.open(name)
        except KeyError:
            raise self.damaged(f"{name} is missing") from None
        # what the zip library raises for a password or a method it does not know
        except (RuntimeError, NotImplementedError):
            raise self.damaged(f"{name} is locked, or packed in a way that is not known here") from None

    def prove_files(self, hashes: Iterable[str], advance: Callable[[], None]) -> None:
        """Check every kept file against its hash.

        Raises:
            BadInput: one was changed, or is missing.
        """
        for sha256 in hashes:
            self.content(sha256)
            advance()

    def damaged(self, how: str) -> BadInput:
        """The refusal of an archive that is not as it was written."""
        return BadInput(f"{self.path}: {how}", "Nothing was kept.", "Take another copy, or export the book again.")


def _is_of_a_shop(name: str) -> bool:
    """Whether a file of a backup belongs into a shop's folder: the settings, or a template in one of its folders."""
    path = PurePosixPath(name)
    # written as a path is, so that no dots, double slashes or drives are left to be read otherwise
    plain = name.isprintable() and names_a_file_inside(name) and str(path) == name
    return plain and (name == SHOP_FILE or (len(path.parts) > 1 and path.parts[0] in OWN_FOLDERS))


@contextmanager
def open_archive(path: Path) -> Iterator[Archive]:
    """An archive to read from.

    Raises:
        NotFound: there is no such file.
        BadInput: it is no archive, or is damaged.
    """
    try:
        with zipfile.ZipFile(path) as zipped:
            yield Archive(path, zipped)
    except FileNotFoundError:
        raise NotFound(f"{path}: there is no such file", do="Check the name and the folder.") from None
    except _BROKEN as error:
        raise BadInput(
            f"{path} cannot be read as an archive: {error}",
            "It is no zip file, or was cut off or damaged on its way.",
            "Take another copy, or export the book again.",
        ) from error
    except OSError as error:
        raise BadInput(f"{path} cannot be read", str(error.strerror or error)) from error
