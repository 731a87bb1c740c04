"""`claimpack import`: claim folders read whole and taken into the book, or a whole archive of one."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, NamedTuple

from claimpack.commands.desk.options import Json, Today, Yes
from claimpack.commands.line.declared import Argument, Context, Option
from claimpack.core.values.numbers_said import how_many
from claimpack.core.values.words import some_lines, some_of
from claimpack.errors import BadInput, ClaimpackError

if TYPE_CHECKING:
    from claimpack.book.tables.rows import KeptFile
    from claimpack.commands.desk.desk import Desk
    from claimpack.commands.desk.say import Say
    from claimpack.core.claims.claim import Claim
    from claimpack.folder.claim_folder import ClaimFolder

_MOST_DAYS = 3


class ReadyFolder(NamedTuple):
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


def import_(
    context: Context,
    sources: Annotated[
        list[Path],
        Argument(metavar="FOLDER…|LIST", help="Claim folders, an archive, a list (.csv, .xlsx)."),
    ],
    skip_bad: Annotated[bool, Option("--skip-bad", help="Leave out what cannot be imported.")] = False,
    mapping: Annotated[
        Path | None,
        Option(metavar="FILE", help="Which column of a list says what (TOML)."),
    ] = None,
    write_mapping: Annotated[
        Path | None,
        Option(metavar="FILE", help="Write what the headings suggest, and take nothing."),
    ] = None,
    dry_run: Annotated[bool, Option("--dry-run", help="Show what would be taken from a list.")] = False,
    undo: Annotated[bool, Option("--undo", help="Take back the import of a list, named by its id, whole.")] = False,
    yes: Yes = False,
    today: Today = "",
    json: Json = False,
) -> int:
    """Take claim folders, lists of claims, or an archive into the book."""
    from claimpack.commands.desk.desk import Desk
    from claimpack.commands.desk.named_files import goes_to_stdout, read_from
    from claimpack.commands.desk.say import Say
    from claimpack.commands.exchange.import_list import LISTS, ListWanted, import_list, undo_import
    from claimpack.commands.shop.restoring import restore_from
    from claimpack.folder.claim_folder import claim_folders_in

    desk, say = Desk(context.obj, today), Say(context.obj)
    if undo:
        return undo_import(desk, say, str(sources[0]), yes=yes, json=json)
    paths = [read_from(context.obj, source, otherwise=".csv") for source in sources]
    # An archive and a workbook begin alike; on standard input it is an archive.
    is_archive = goes_to_stdout(sources[0]) and paths[0].suffix == ".xlsx"
    if len(paths) == 1 and paths[0].suffix.casefold() in LISTS and not is_archive:
        if skip_bad:
            raise BadInput(
                "--skip-bad is for claim folders: a list comes in whole, or not at all",
                "Nobody would know which rows stayed out.",
                "Correct the list, or take those rows out of it.",
            )
        wanted = ListWanted(sources[0], paths[0], mapping, write_mapping, dry_run=dry_run, yes=yes)
        return import_list(desk, say, wanted, json=json)
    if len(paths) == 1 and paths[0].is_file() and paths[0].name != "claim.toml":
        return restore_from(desk, say, paths[0], json=json)
    folders = list(dict.fromkeys(folder for path in paths for folder in claim_folders_in(path)))
    known = set(desk.book.numbers())
    with say.progress("Reading claims", len(folders)) as advance:
        ready, bad = read_folders(folders, known, advance, desk.shops.told_of)
    if bad and not skip_bad:
        raise _refusal(bad, len(folders))
    _take(desk, say, ready)
    _tell(say, ready, bad, json=json)
    _note_days_ahead(desk, say, ready)
    return 0


def read_folders(
    folders: Iterable[Path],
    known: set[str],
    advance: Callable[[], None],
    told_of: Callable[[str], str] = lambda _: "",
) -> tuple[list[ReadyFolder], list[Bad]]:
    """Read claim folders whole; every picture is looked at, every file hashed.

    Args:
        folders: the claim folders, in order.
        known: claim numbers that are in the book.
        advance: called after each.
        told_of: whose a claim of the book is, in words, where it is another shop's.
    """
    ready: list[ReadyFolder] = []
    bad: list[Bad] = []
    taken = set(known)
    for folder in folders:
        try:
            found = _read(folder, taken, told_of)
            # two folders of one number are told as such, and not by the database
            taken.add(found.claim.number)
            ready.append(found)
        except ClaimpackError as error:
            bad.append(Bad(folder, error))
        advance()
    return ready, bad


def _read(folder: Path, taken: set[str], told_of: Callable[[str], str]) -> ReadyFolder:
    from claimpack.evidence.originals import read_original
    from claimpack.folder.claim_folder import every_file, inside, read_claim_folder

    read = read_claim_folder(folder)
    if read.claim.number in taken:
        raise BadInput(
            f"{folder}: claim {read.claim.number} is already in the book{told_of(read.claim.number)}",
            "A claim number stands for one claim for ever.",
            "Give it another number.",
        )
    names = tuple(inside(name, str(folder)) for name in every_file(read))
    paths = tuple(read_original(read.path, name) for name in names)
    files = tuple(_kept(read, name, path) for name, path in zip(names, paths, strict=True))
    return ReadyFolder(folder, read.claim, files, paths)


def _kept(folder: ClaimFolder, name: str, path: Path) -> KeptFile:
    from claimpack.book.tables.rows import KeptFile
    from claimpack.evidence.pictures.likeness import look_at
    from claimpack.file_contents import content_hash

    if name in {photo.file for photo in folder.claim.photos}:
        # every pixel is read, so that a picture cut off years ago is found out at the door
        seen = look_at(path, str(path))
        return KeptFile(name, seen.sha256, seen.bytes, seen.taken, seen.likeness)
    return KeptFile(name, content_hash(path), path.stat().st_size)


def _refusal(bad: list[Bad], count: int) -> BadInput:
    problems = [f"  {line}" for each in bad for line in (each.error.what, *each.error.problems)]
    return BadInput(
        f"{len(bad)} of {how_many(count, 'claim folder')} cannot be imported; nothing was",
        do=bad[0].error.do if len(bad) == 1 else "Correct them; or import the others alone with --skip-bad.",
        problems=tuple(some_lines(problems, 12)),
    )


def _take(desk: Desk, say: Say, ready: list[ReadyFolder]) -> None:
    """Keep the files, then put every claim into the book at once."""
    from claimpack.book.tables.entries import Entry
    from claimpack.core.events.events import NewEvent
    from claimpack.core.events.standing import Standing

    seen = [file.sha256 for each in ready for file in each.files]
    desk.keep_all([path for each in ready for path in each.paths], seen)
    # All or none: half an import would leave the shop to find out which claims are missing.
    entries = []
    with say.progress("Judging claims", len(ready)) as advance:
        for each in ready:
            summary = desk.summary_of(each.claim, each.files)
            entries.append(Entry(each.claim, 1, Standing(), summary, each.files))
            advance()
    desk.shops.must_be_told_apart()
    desk.book.add(entries, desk.author, NewEvent(what="imported", on=desk.day))


def _tell(say: Say, ready: list[ReadyFolder], bad: list[Bad], *, json: bool) -> None:
    numbers = [each.claim.number for each in ready]
    if json:
        skipped = [{"folder": str(left.folder), "why": left.error.what} for left in bad]
        files = sum(len(each.files) for each in ready)
        say.document({"imported": numbers, "files": files, "skipped": skipped})
    else:
        shown = some_of(numbers, 5)
        say.answer(f"{how_many(len(numbers), 'claim')} imported{f': {shown}' if shown else ''}")
        for left in bad:
            say.item(say.mark("fail"), f"left out: {left.error.what}")
    for each in ready:
        # A claim that judged itself by plans it brought along could grant itself anything.
        if each.own_rules:
            say.note(
                f"{each.claim.number} brings plans or terms of its own; they are kept with it, but the book judges by "
                "the shop's: copy them into the shop's coverage or terms folder."
            )


def _note_days_ahead(desk: Desk, say: Say, ready: list[ReadyFolder]) -> None:
    """Days still to come are kept, since they can be put right here, and told."""
    from claimpack.core.claims.days_ahead import days_ahead

    for each in ready:
        found = days_ahead(each.claim, desk.day)
        if found:
            number, shown = each.claim.number, some_of([f"{day.key} {day.on}" for day in found], _MOST_DAYS)
            say.note(f"{number} has dates in the future; today is {desk.day}: {shown}.")
            say.note(f"Correct them: claimpack set {number} {found[0].key} DATE")
