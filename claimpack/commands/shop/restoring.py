"""A whole book taken over from its archive, counted and compared afterwards."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from claimpack.book.book import Book
    from claimpack.book.keeping.archive import Archive
    from claimpack.commands.desk.desk import Desk
    from claimpack.commands.desk.say import Say
    from claimpack.evidence.vault import Vault


def restore_from(desk: Desk, say: Say, path: Path, *, json: bool) -> int:
    """Put an archive into the shop's empty book and vault; 3 when book and archive differ afterwards."""
    from claimpack.book.keeping.archive import open_archive
    from claimpack.book.keeping.moving import refuse_unless_empty

    refuse_unless_empty(desk.book)
    with open_archive(path) as archive:
        needed = archive.prove()
        with say.progress("Proving files", len(needed)) as advance:
            archive.prove_files(needed, advance)
        take_over(desk.book, desk.vault, archive, needed, say)
        told, found = _told(archive), _found(desk, needed)
    if json:
        say.document({"archive": told, "book": found, "same": told == found})
    else:
        say.table([("", "archive", "book"), *((name, str(told[name]), str(found[name])) for name in told)], indent=0)
        same = "The book is the one in the archive: counts and hashes are the same."
        say.answer(same if told == found else "The book is NOT the one in the archive.")
    return 0 if told == found else 3


def take_over(book: Book, vault: Vault, archive: Archive, needed: list[str], say: Say) -> None:
    """Put rows and files into an empty book and the vault; of an archive that is refused nothing stays in the vault.

    Raises:
        ClaimpackError: the rows do not hold together, or the disk does not take them.
    """
    from claimpack.book.keeping.moving import restore

    new = [sha256 for sha256 in needed if not vault.holds(sha256)]

    def keep() -> None:
        with say.progress("Keeping files", len(needed)) as advance:
            for sha256 in needed:
                vault.take_over(archive.content(sha256))
                advance()

    try:
        restore(book, archive.rows, keep)
    except BaseException:
        for sha256 in new:
            vault.drop(sha256)
        raise


def _told(archive: Archive) -> dict[str, Any]:
    contents = archive.contents
    return {
        "claims": contents.rows["claims"],
        "revisions": contents.rows["revisions"],
        "events": contents.rows["events"],
        "files": contents.files,
        "history": contents.history,
    }


def _found(desk: Desk, needed: list[str]) -> dict[str, Any]:
    """The same, counted and hashed anew in the book and the vault."""
    damaged = sum(1 for _ in desk.vault.damaged(needed))
    length, last = desk.book.chain_end()
    return {
        "claims": sum(desk.book.shops().values()),
        "revisions": sum(1 for _ in desk.book.documents()),
        "events": length,
        "files": len(needed) - damaged,
        "history": last if length else "",
    }
