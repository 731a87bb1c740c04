"""Bits flipped in the file of a book, and how `claimpack shop verify` takes it."""

from __future__ import annotations

import contextlib
import random
import sqlite3
from collections.abc import Iterator
from pathlib import Path

from claim_folders import CLAIM
from running import claimpack
from shops_with_claims import a_shop_with, numbered

SECRETS = ("A. Customer", "Will not start", "Piston scored")


def a_busy_shop(place: Path) -> Path:
    """A shop with claims that were filed, answered, paid, and erased in part; its book is in one file."""
    texts = [CLAIM, *(numbered(f"26-{number:04}") for number in range(2, 9))]
    shop = a_shop_with(place, *texts)
    for steps in (
        ("file", "26-0001", "--on", "2026-02-25", "--anyway", "asked for"),
        ("answer", "26-0001", "accepted", "--on", "2026-02-26"),
        ("pay", "26-0001", "100.00", "--on", "2026-02-27"),
        ("photo", "remove", "26-0002", "1"),
        ("shop", "forget", "26-0003", "--owner", "--because", "asked for"),
        ("labour", "start", "26-0004", "short-block-replace"),
        ("labour", "stop"),
        ("shop", "backup", "../before.zip"),
    ):
        claimpack(*steps, folder=shop)
    with contextlib.closing(sqlite3.connect(shop / "book.sqlite")) as book:
        book.execute("PRAGMA wal_checkpoint(TRUNCATE)")
    return shop


def said(file: Path) -> list[object] | None:
    """Every definition and every row that counts, as SQLite reads them; None where it finds the file damaged."""
    try:
        with contextlib.closing(sqlite3.connect(f"file:{file}?mode=ro&immutable=1", uri=True)) as book:
            book.text_factory = bytes
            if book.execute("PRAGMA integrity_check").fetchall() != [(b"ok",)]:
                return None
            found: list[object] = book.execute("SELECT type, name, tbl_name, sql FROM sqlite_master").fetchall()
            for kind, name, *_ in list(found):
                if kind == b"table" and name != b"backups":
                    found += book.execute(f"SELECT * FROM {name.decode()} ORDER BY 1, 2").fetchall()  # noqa: S608
            return found
    except (sqlite3.Error, UnicodeDecodeError):
        return None


def flips(shop: Path, count: int, seed: int) -> Iterator[tuple[int, str]]:
    """Flips, each in a whole copy, until so many changed something: where, and how verify took it."""
    chance, file = random.Random(seed), shop / "book.sqlite"
    whole = file.read_bytes()
    before = said(file)
    while count:
        bit = chance.randrange(len(whole) * 8)
        content = bytearray(whole)
        content[bit // 8] ^= 1 << bit % 8
        file.write_bytes(content)
        after = said(file)
        changed = after != before
        count -= changed
        ran = claimpack("shop", "verify", folder=shop)
        for beside in ("book.sqlite-wal", "book.sqlite-shm", "book.sqlite-journal"):
            (shop / beside).unlink(missing_ok=True)
        how = judged(ran.code, ran.out + ran.err, changed=changed)
        yield bit, f"{how}: {unlike(before, after)}" if how.startswith("bad") else how
    file.write_bytes(whole)


def unlike(before: list[object] | None, after: list[object] | None) -> str:
    """What changed, the first of it."""
    pairs = zip(before or [], after or [], strict=False)
    return next((f"{one!r} is {other!r}"[:600] for one, other in pairs if one != other), "")


def judged(code: int, told: str, *, changed: bool) -> str:
    """How a flip was taken; what begins with `bad` is bad."""
    if any(secret in told for secret in SECRETS):
        return "bad: a claim's text was told"
    if code not in (0, 3):
        return f"bad: exit {code}"
    if changed and code == 0:
        return "bad: WHOLE although something changed"
    return "found" if code else "harmless"
