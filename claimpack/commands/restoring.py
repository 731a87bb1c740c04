"""A whole book taken over from its archive, counted and compared afterwards."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from claimpack.book.archive import Archive
    from claimpack.commands.desk import Desk
    from claimpack.commands.say import Say


def restore_from(desk: Desk, say: Say, path: Path, *, json: bool) -> int:
    """Put an archive into the shop's empty book and vault; 3 when book and archive differ afterwards."""
    from claimpack.book.archive import open_archive
    from claimpack.book.moving import refuse_unless_empty, restore

    refuse_unless_empty(desk.book)
    with open_archive(path) as archive:
        needed = archive.prove()
        with say.progress("Keeping files", len(needed)) as advance:
            for sha256 in needed:
                desk.vault.keep_content(archive.content(sha256))
                advance()
        restore(desk.book, archive.rows)
        told, found = _told(archive), _found(desk, needed)
    if json:
        say.document({"archive": told, "book": found, "same": told == found})
    else:
        say.table([("", "archive", "book"), *((name, str(told[name]), str(found[name])) for name in told)], indent=0)
        same = "The book is the one in the archive: counts and hashes are the same."
        say.answer(same if told == found else "The book is NOT the one in the archive.")
    return 0 if told == found else 3


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
        "claims": desk.book.count(),
        "revisions": sum(1 for _ in desk.book.documents()),
        "events": length,
        "files": len(needed) - damaged,
        "history": last if length else "",
    }
