"""Hostile and broken archives, each imported into an empty shop and restored into a new folder.

Bad is one that is taken, that ends in a fault of the program (exit 1), or that leaves anything behind. Run by hand:
python tests/trust/try_archives.py
"""

from __future__ import annotations

import sys
import tempfile
from collections.abc import Iterator
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1]))

from by_hand import arguments
from hostile_archives import hostile
from running import claimpack
from shops_with_claims import a_shop_with, walked


def a_backup(place: Path) -> bytes:
    """The backup of a shop with a claim that was filed."""
    shop = a_shop_with(place)
    walked(shop, "file --on 2026-02-25")
    claimpack("shop", "backup", "../good.zip", folder=shop)
    return (place / "good.zip").read_bytes()


def left_in(place: Path) -> set[str]:
    """Every file below a folder, with its size; what SQLite writes beside its book is none of an archive's."""
    beside = ("-wal", "-shm")
    return {
        f"{path.relative_to(place)} {path.stat().st_size if path.name != 'book.sqlite' else ''}"
        for path in place.rglob("*")
        if not path.name.endswith(beside) and path.is_file()
    }


def tried(backup: bytes, place: Path) -> Iterator[tuple[str, str]]:
    """Each hostile archive twice, with what is bad about how it was taken; empty where nothing is."""
    claimpack("shop", "init", "empty", folder=place)
    shop, file = place / "empty", place / "hostile.zip"
    file.write_bytes(b"")
    for name, content in hostile(backup):
        file.write_bytes(content)
        before = left_in(place)
        for way, words in (("import", ("import", file)), ("restore", ("shop", "restore", file, place / "again"))):
            ran = claimpack(*words, folder=shop)
            said = f"exit {ran.code}: {ran.out}{ran.err}".strip() if ran.code != 2 else ""
            left = left_in(place) - before
            yield f"{way}: {name}", said or (f"left {sorted(left)}" if left else "")
    if claimpack("list", "--json", folder=shop).json["claims"]:
        yield "the book afterwards", "claims were kept"


def main() -> int:
    """Try every one, and print how many were tried and how many were bad."""
    with tempfile.TemporaryDirectory() as one, tempfile.TemporaryDirectory() as other:
        taken = list(tried(a_backup(Path(one)), Path(other)))
    bad = [(name, how) for name, how in taken if how]
    for name, how in bad:
        print(f"{name}: {how}")
    print(f"hostile archives: {len(taken)} tried ({len(taken) // 2}, each imported and restored), {len(bad)} bad")
    return 1 if bad else 0


if __name__ == "__main__":
    arguments(__doc__)
    sys.exit(main())
