"""A shop's folder made: settings, an empty book, room for its own files, and what editors check them by."""

from __future__ import annotations

from pathlib import Path


def make_shop(home: Path, settings: bytes, book: str = "") -> None:
    """Make the folders, the schemas, the book and the settings file of a shop, the last of which makes it one.

    Args:
        home: the folder.
        settings: what is in its shop.toml.
        book: the place of a book that it shares with others; empty for one of its own.

    Raises:
        CannotWrite: the folder cannot be written.
    """
    from claimpack.book.opening import open_book
    from claimpack.files import write_atomically
    from claimpack.folder.file_kinds import SCHEMA_FOLDER, schema_files
    from claimpack.folder.shop_folder import SHOP_FILE
    from claimpack.folders import make_folders
    from claimpack.shop import OWN_FOLDERS

    # the vault of a book in a file elsewhere lies beside it
    vault = () if book and "://" not in book else ("vault",)
    make_folders(home / kind for kind in (*OWN_FOLDERS[:6], *vault, SCHEMA_FOLDER))
    for path, told in schema_files(home):
        write_atomically(path, told.encode())
    open_book(book or str(home / "book.sqlite"), create=True).engine.dispose()
    # the last of all: a folder is a shop once it has this file
    write_atomically(home / SHOP_FILE, settings)
