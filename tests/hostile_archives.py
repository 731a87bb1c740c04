"""Archives and backups that are hostile or broken, each made from a good one; the name says what is wrong."""

from __future__ import annotations

import hashlib
import io
import json
import warnings
import zipfile
from collections.abc import Callable, Iterator
from typing import Any

Members = dict[str, bytes]


def members_of(archive: bytes) -> Members:
    """What is in an archive, by name."""
    with zipfile.ZipFile(io.BytesIO(archive)) as zipped:
        return {name: zipped.read(name) for name in zipped.namelist()}


def zipped(members: Members, more: Members | None = None, *, packed: bool = False) -> bytes:
    """An archive of these members; those of `more` come after them, even under a name that is there."""
    stream = io.BytesIO()
    with warnings.catch_warnings(), zipfile.ZipFile(stream, "w") as archive:
        warnings.simplefilter("ignore")
        for name, content in (*members.items(), *(more or {}).items()):
            kind = zipfile.ZIP_DEFLATED if packed or name.endswith("l") else zipfile.ZIP_STORED
            archive.writestr(zipfile.ZipInfo(name), content, kind)
    return stream.getvalue()


def resealed(members: Members) -> Members:
    """The contents written anew, so that every hash and count in them is true."""
    told = json.loads(members["contents.json"])
    for table in told["rows"]:
        lines = members[f"{table}.jsonl"]
        told["sha256"][table], told["rows"][table] = hashlib.sha256(lines).hexdigest(), lines.count(b"\n")
    told["files"] = sum(name.startswith("files/") for name in members)
    told["settings"] = {
        name.removeprefix("settings/"): hashlib.sha256(content).hexdigest()
        for name, content in members.items()
        if name.startswith("settings/")
    }
    return {**members, "contents.json": json.dumps(told).encode()}


def _rows(members: Members, table: str, change: Callable[[list[dict[str, Any]]], Any]) -> Members:
    told = [json.loads(line) for line in members[f"{table}.jsonl"].splitlines()]
    change(told)
    lines = "".join(f"{json.dumps(row)}\n" for row in told).encode()
    return resealed({**members, f"{table}.jsonl": lines})


def _line(members: Members, table: str, line: bytes) -> Members:
    return resealed({**members, f"{table}.jsonl": line + members[f"{table}.jsonl"]})


def _of_rows(good: Members) -> Iterator[tuple[str, bytes]]:
    """Archives whose hashes are true and whose rows are not."""
    changes: tuple[tuple[str, str, Callable[[list[dict[str, Any]]], Any]], ...] = (
        ("an event less", "events", lambda told: told.pop()),
        ("the first event gone", "events", lambda told: told.pop(0)),
        ("two events change places", "events", lambda told: told.reverse()),
        ("an event twice", "events", lambda told: told.append(told[-1])),
        ("another amount filed", "events", lambda told: told[-1].update(facts='{"claimed":"9999.00"}')),
        ("facts that are a list", "events", lambda told: told[-1].update(facts="[1]")),
        ("facts that are no text", "events", lambda told: told[-1].update(facts=7)),
        ("an event of no kind", "events", lambda told: told[-1].update(what="gifted")),
        ("an erasure of everything", "events", lambda told: told[-1].update(what="erased", facts='{"documents":"x"}')),
        ("a revision less", "revisions", lambda told: told.pop()),
        ("another owner", "revisions", lambda told: told[0].update(document=told[0]["document"].replace("A. C", "B."))),
        ("a document that is none", "revisions", lambda told: told[0].update(document="{")),
        ("a document that is a number", "revisions", lambda told: told[0].update(document=1)),
        ("a revision of no number", "revisions", lambda told: told[0].update(revision="first")),
        ("a huge revision", "revisions", lambda told: told[0].update(revision=10**30)),
        ("a claim less", "claims", lambda told: told.pop()),
        ("a claim twice", "claims", lambda told: told.append(told[0])),
        ("a claim that has no revision", "claims", lambda told: told.append({**told[0], "number": "26-0099"})),
        ("a column less", "claims", lambda told: told[0].pop("digest")),
        ("another likeness", "kept_files", lambda told: told[0].update(likeness="0" * 16)),
        ("a file of another claim", "kept_files", lambda told: told[0].update(claim="26-9999")),
        ("a clock on no claim", "clocks", lambda told: told.append(
            {"technician": "B", "claim": "x", "operation": "o", "started": "noon"})),
    )  # fmt: skip
    for name, table, change in changes:
        yield name, zipped(_rows(good, table, change))
    for name, line in (
        ("a line that is no JSON", b"{]\n"),
        ("a line that is a list", b"[]\n"),
        ("a line nested deep", b"[" * 200_000 + b"\n"),
        ("a line that is no text", b"\xff\xfe\n"),
        ("a NUL in a row", b'{"technician": "\\u0000", "claim": "", "operation": "", "started": ""}\n'),
    ):
        yield name, zipped(_line(good, "clocks", line))


def _of_files(good: Members) -> Iterator[tuple[str, bytes]]:
    """Archives whose kept files or settings are not as they should be."""
    file = next(name for name in good if name.startswith("files/"))
    yield "a kept file changed", zipped({**good, file: b"other"})
    yield "a kept file gone", zipped({name: content for name, content in good.items() if name != file})
    yield "a kept file too many", zipped(resealed({**good, f"files/{'0' * 64}": b"more"}))
    yield "a kept file that leaves the vault", zipped(resealed({**good, "files/../../evil": b"more"}))
    yield "a kept file twice", zipped(good, {file: b"other"})
    yield "kept files packed", zipped(good, packed=True)
    yield "a setting that leaves the folder", zipped(resealed({**good, "settings/../evil.toml": b"x"}))
    yield "a setting from the root", zipped(resealed({**good, "settings//evil.toml": b"x"}))
    yield "a setting in place of the book", zipped(resealed({**good, "settings/book.sqlite": b"x"}))
    yield "a setting changed", zipped({**good, "settings/shop.toml": b"format = 1\n"})


def hostile(backup: bytes) -> Iterator[tuple[str, bytes]]:
    """Every hostile or broken archive, made from a backup of a shop with a filed claim."""
    good = members_of(backup)
    yield from _of_rows(good)
    yield from _of_files(good)
    yield "nothing at all", b""
    yield "no zip file", b"this is no archive\n" * 100
    yield "cut off", backup[: len(backup) // 2]
    yield "the end alone", backup[len(backup) // 2 :]
    yield "a byte changed within", backup[:200] + bytes([backup[200] ^ 0xFF]) + backup[201:]
    yield "no contents", zipped({name: content for name, content in good.items() if name != "contents.json"})
    yield "contents that are none", zipped({**good, "contents.json": b"{}"})
    yield "contents nested deep", zipped({**good, "contents.json": b"[" * 200_000})
    yield "a table missing", zipped({name: content for name, content in good.items() if name != "events.jsonl"})
    yield "a bomb of rows", zipped(resealed({**good, "clocks.jsonl": b" " * 300_000_000}))
    yield "a bomb in the contents", zipped({**good, "contents.json": b" " * 100_000_000})
