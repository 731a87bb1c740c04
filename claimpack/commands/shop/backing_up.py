"""`claimpack shop backup` and `restore`: a whole shop in one file, read back before it counts, and put back from it."""

from __future__ import annotations

from pathlib import Path
from types import MappingProxyType
from typing import TYPE_CHECKING, Annotated, Any

from claimpack.commands.desk.options import Json, Today
from claimpack.commands.line.declared import Argument, Context, Option

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from claimpack.book.keeping.archive import Archive
    from claimpack.commands.desk.desk import Desk
    from claimpack.commands.desk.say import Say

_TOLD = ("claims", "revisions", "events")


def backup(
    context: Context,
    file: Annotated[Path, Argument(metavar="FILE", help="The file to write; keep it on another machine.")],
    replace: Annotated[bool, Option("--replace", help="Replace a file that is there.")] = False,
    today: Today = "",
    json: Json = False,
) -> int:
    """Write settings, plans, terms, layouts, stocks, book and vault into one file, and read it back.

    Others may work meanwhile: the book goes in as it stood at one moment. The file is not encrypted.
    """
    from claimpack.book.keeping.backups import remember_backup
    from claimpack.commands.desk.desk import Desk
    from claimpack.commands.desk.named_files import goes_to_stdout
    from claimpack.commands.desk.say import Say
    from claimpack.errors import BadInput

    desk, say, path = Desk(context.obj, today), Say(context.obj), context.obj.path(file)
    if goes_to_stdout(file):
        raise BadInput(
            "a backup is read back once it is written, and standard output cannot be",
            "One that nobody has read back may be none.",
            "Name a file; or, for a pipe: claimpack export --everything -",
        )
    if not replace:
        _keep_what_is_there(path)
    facts = write_book(desk, say, path, own_files(desk.home), _read_back(say))
    # a book that cannot be written can be backed up all the same, and then most of all
    if not desk.book.engine.hindered:
        remember_backup(desk.book, desk.author, str(path), facts["events"])
    if json:
        say.document(facts)
        return 0
    say.path(path)
    say.answer(f"  {', '.join(f'{facts[name]} {name}' for name in (*_TOLD, 'files', 'settings'))}; read back and whole")
    say.answer(f"  SHA-256 {facts['sha256']}")
    say.note("It is not encrypted: whoever has the file can read every claim. Keep it where only the shop can.")
    others = [shop for shop in desk.book.shops() if shop not in ("", desk.shop_id)]
    if others:
        say.note(
            f"The book holds the claims of {', '.join(others)} too, and so does this file; settings, plans and terms "
            "are this shop's alone: back up each shop's folder."
        )
    say.note(f"Put it back with: claimpack shop restore {file} DIR")
    return 0


def write_book(
    desk: Desk,
    say: Say,
    path: Path,
    settings: Mapping[str, bytes] = MappingProxyType({}),
    prove: Callable[[Path], None] = lambda _: None,
) -> dict[str, Any]:
    """Write the book and its kept files into one file, and a shop's settings if any; returns what is told of it."""
    from claimpack.book.keeping.archive import write_archive
    from claimpack.book.keeping.moving import everything
    from claimpack.file_contents import content_hash

    with everything(desk.book) as read:
        contents = write_archive(
            path,
            read,
            lambda sha256: desk.vault.content(sha256, f"kept file {sha256[:12]}…"),
            lambda count: say.progress("Files", count),
            settings,
            prove,
        )
    told = {**{name: contents.rows[name] for name in _TOLD}, "files": contents.files}
    if settings:
        told["settings"] = len(contents.settings)
    return {"file": str(path), "sha256": content_hash(path), **told, "history": contents.history}


def _keep_what_is_there(path: Path) -> None:
    from claimpack.errors import CannotWrite

    if path.exists():
        raise CannotWrite(
            f"{path} already exists",
            "It may be the only copy of an earlier day's shop.",
            "Give another name, or say --replace.",
        )


def own_files(home: Path) -> dict[str, bytes]:
    """The shop's settings, and everything in its folders of plans, terms, layouts and stocks, by path in its folder."""
    from claimpack.file_contents import read_bytes
    from claimpack.folder.shop_folder import SHOP_FILE
    from claimpack.shop import OWN_FOLDERS

    found = {SHOP_FILE: read_bytes(home / SHOP_FILE)}
    for folder in OWN_FOLDERS:
        for path in sorted((home / folder).rglob("*")):
            name = path.relative_to(home)
            # what begins with a dot is an editor's or the system's
            if path.is_file() and not any(part.startswith(".") for part in name.parts):
                found[name.as_posix()] = read_bytes(path)
    return found


def _read_back(say: Say) -> Callable[[Path], None]:
    """What proves a backup: every hash in it, and its book put into an empty one and proved there."""

    def prove(path: Path) -> None:
        from claimpack.book.keeping.archive import open_archive
        from claimpack.book.keeping.moving import restore
        from claimpack.book.opening import open_book

        # A backup that cannot be read is found out now, not on the day the disk is gone.
        with open_archive(path) as archive:
            needed = archive.prove()
            with say.progress("Reading back", len(needed)) as advance:
                archive.prove_files(needed, advance)
            book = open_book(":memory:", create=True)
            restore(book, archive.rows)
            book.engine.dispose()

    return prove


def restore(
    context: Context,
    file: Annotated[Path, Argument(metavar="FILE", help="What claimpack shop backup wrote.")],
    folder: Annotated[Path, Argument(metavar="DIR", help="The folder to make, or an empty one.")],
    book: Annotated[
        str,
        Option(metavar="URL", help="An empty database for the book; default: a file in DIR."),
    ] = "",
    json: Json = False,
) -> int:
    """Make a shop's folder anew from a backup: settings, plans, book and vault, proved before it is in place."""
    from claimpack.book.keeping.archive import open_archive
    from claimpack.commands.desk.named_files import read_from
    from claimpack.commands.desk.say import Say
    from claimpack.files import folder_at_once

    say, home = Say(context.obj), context.obj.path(folder)
    with open_archive(read_from(context.obj, file)) as archive:
        needed = archive.prove()
        if not archive.contents.settings:
            _refuse_without_settings(file)
        with say.progress("Proving files", len(needed)) as advance:
            archive.prove_files(needed, advance)
        # the folder appears when all of it is proved: half a shop would be worked in
        with folder_at_once(home) as place:
            changed = _put_shop(archive, place, book)
            _put_book(archive, needed, place, book, say)
        rows, files = archive.contents.rows, archive.contents.files
    facts = {"shop": str(home), "claims": rows["claims"], "events": rows["events"], "files": files, "changed": changed}
    if json:
        say.document(facts)
        return 0
    say.answer(f"{folder} is the shop again: {rows['claims']} claims, {rows['events']} events, {files} files.")
    for key, was in changed.items():
        say.note(f"shop.toml named another {key} ({was}), which was left alone; it names the restored one now.")
    return 0


def _refuse_without_settings(file: Path) -> None:
    from claimpack.errors import BadInput

    raise BadInput(
        f"{file} holds a book, and no shop's settings",
        "It was written by claimpack export --everything.",
        "Make a shop (claimpack shop init DIR), and take it over there: claimpack import FILE",
    )


def _put_shop(archive: Archive, place: Path, book: str) -> dict[str, str]:
    """Write the shop's own files, its settings naming the book and the vault restored; what they named before."""
    import tomlkit

    from claimpack.core.values.passwords import without_password
    from claimpack.files import write_folder
    from claimpack.folder.shop_folder import SHOP_FILE
    from claimpack.folders import make_folders
    from claimpack.shop import OWN_FOLDERS

    files = archive.settings()
    document = tomlkit.parse(files[SHOP_FILE].decode("utf-8-sig"))
    changed = {}
    for key, restored in (("book", book or "book.sqlite"), ("vault", "vault")):
        # the old place may still hold the old book, which is left alone
        was = str(document.get(key, "book.sqlite" if key == "book" else "vault"))
        if was != restored:
            changed[key] = without_password(was)
            document[key] = restored
    files[SHOP_FILE] = tomlkit.dumps(document).encode()
    make_folders(place / name for name in (*OWN_FOLDERS[:4], "vault"))
    write_folder(place, files)
    return changed


def _put_book(archive: Archive, needed: list[str], place: Path, book: str, say: Say) -> None:
    from claimpack.book.keeping.moving import refuse_unless_empty
    from claimpack.book.opening import open_book
    from claimpack.commands.shop.restoring import take_over
    from claimpack.evidence.vault import Vault

    opened = open_book(book or str(place / "book.sqlite"), create=True)
    try:
        refuse_unless_empty(opened)
        take_over(opened, Vault(place / "vault"), archive, needed, say)
    finally:
        # before the folder is renamed, which Windows refuses while a file in it is open
        opened.engine.dispose()
