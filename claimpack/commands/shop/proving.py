"""`claimpack shop verify`: the database sound, the history whole, every claim and every kept file as recorded."""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated, Any, NamedTuple

from claimpack.commands.desk.options import Json, Yes
from claimpack.commands.line.declared import Context, Option
from claimpack.core.values.numbers_said import how_many

if TYPE_CHECKING:
    from claimpack.book.book import Book
    from claimpack.commands.desk.say import Say
    from claimpack.commands.desk.world import World
    from claimpack.evidence.vault import Vault
    from claimpack.shop import Shop

# Whoever copies a head by hand may stop early; fewer digits than these could fit a forged history by chance.
_LEAST_OF_A_HEAD = 10


class Proved(NamedTuple):
    """What the proof found; counts are None where the book cannot be read, head is the hash of its last event."""

    problems: list[str]
    counts: dict[str, int | None]
    head: str
    noted: int | None
    backup: str
    erased: tuple[str, ...] = ()


def verify_shop(
    context: Context,
    head: Annotated[
        str,
        Option(metavar="HASH", help="The end of the history as it was noted earlier."),
    ] = "",
    sweep: Annotated[
        bool, Option("--sweep", help="Take away files in the vault that no claim needs, a day old or older.")
    ] = False,
    yes: Yes = False,
    json: Json = False,
) -> int:
    """Prove that the database is sound, the history whole, every claim and every kept file as it was recorded.

    The end of the history is told. Noted elsewhere, it proves later that nothing before it was changed.
    """
    from claimpack.commands.desk.gather import the_shop, the_vault
    from claimpack.commands.desk.say import Say
    from claimpack.commands.shop.orphans import orphans_in, sweep_orphans, tell_orphans

    found, say, noted = the_shop(context.obj), Say(context.obj), _noted(head)
    proved = _proved(context.obj, say, found, noted)
    code = 3 if proved.problems else 0
    orphans = [] if proved.problems else orphans_in(context.obj, found)
    swept = sweep and sweep_orphans(say, the_vault(context.obj, found), orphans, yes=yes)
    if json:
        left = {"orphans": [str(path) for path in orphans], "swept": swept}
        say.document(_document(proved, noted) | left)
        return code
    style, word = ("bad", "NOT WHOLE") if proved.problems else ("good", "WHOLE")
    counted = [how_many(count, what.removesuffix("s")) for what, count in proved.counts.items() if count is not None]
    say.answer("  ".join(part for part in (say.styled(word, style), ", ".join(counted)) if part))
    for problem in proved.problems:
        say.item(say.mark("fail"), problem)
    if proved.noted:
        say.item(say.mark("pass"), f"The head noted is event {proved.noted} of this history.")
    if proved.erased:
        say.item(say.mark("unknown"), f"Erased on request, as the history tells: {', '.join(proved.erased)}")
    if proved.head:
        say.whole("Head of the history:", proved.head)
    if proved.backup:
        say.note(proved.backup)
    tell_orphans(say, orphans, swept=swept)
    return code


def _noted(head: str) -> str:
    from claimpack.errors import BadInput

    said = "".join(head.split()).casefold()
    if head and (len(said) < _LEAST_OF_A_HEAD or set(said) - set("0123456789abcdef")):
        raise BadInput(
            f"--head: {head!r} is no head of a history",
            f"It is written in the digits 0 to 9 and a to f, at least {_LEAST_OF_A_HEAD} of 64.",
            "Copy it from the report or from an earlier claimpack shop verify.",
        )
    return said


def _document(proved: Proved, noted: str) -> dict[str, Any]:
    told = {"whole": not proved.problems, **proved.counts, "problems": proved.problems}
    head = {"hash": proved.head, "events": proved.counts["events"]} if proved.head else None
    return (
        told
        | {"head": head, "erased": list(proved.erased)}
        | ({"noted": {"hash": noted, "event": proved.noted}} if noted else {})
    )


def _proved(world: World, say: Say, found: Shop, noted: str) -> Proved:
    """Everything proved; a book whose file is damaged is not opened, which would bring it up to date."""
    from claimpack.book.keeping.soundness import DAMAGED, damage, unreadable
    from claimpack.commands.desk.gather import the_book
    from claimpack.errors import NotFound

    nothing = Proved([], dict.fromkeys(("events", "claims", "files")), "", None, "")
    there = found.book_place()
    problems = damage(there) if _is_there(there) else []
    if problems:
        return nothing._replace(problems=problems)
    try:
        book = the_book(world, found)
        return _contents(world, say, found, book, noted)
    except NotFound:
        raise
    except unreadable() as error:
        from claimpack.book.database.engines import is_busy

        if is_busy(error):
            raise
        return nothing._replace(problems=[DAMAGED])


def _is_there(place: str) -> bool:
    from claimpack.book.database.engines import exists

    return exists(place)


def _contents(world: World, say: Say, found: Shop, book: Book, noted: str) -> Proved:
    from claimpack.book.keeping.backups import last_backup
    from claimpack.book.keeping.moving import content_named
    from claimpack.book.keeping.proof import book_problems
    from claimpack.commands.desk.gather import the_vault
    from claimpack.core.reporting.backing_up import backup_remark

    problems, names, vault = book_problems(book), content_named(book), the_vault(world, found)
    with say.progress("Proving files", len(names)) as advance:
        problems += [f"{names[sha256]} {wrong}" for sha256, wrong in vault.damaged(names, advance)]
    for sha256 in sorted(book.erased()):
        if sha256 not in names:
            vault.drop_copy(sha256)
            problems += [f"{sha256[:12]}… was erased on request, and is in the vault"] * vault.holds(sha256)
    problems += _unlike_their_pictures(book, vault)
    length, head = book.chain_end()
    at = book.position_of(noted) if noted else None
    if noted and at is None:
        problems.append("the head noted is of no event of this history: it was changed, or is another shop's")
    counts: dict[str, int | None] = {"events": length, "claims": sum(book.shops().values()), "files": len(names)}
    remark = backup_remark(last_backup(book), length, world.today())
    return Proved(problems, counts, head if length else "", at, remark, tuple(book.erased_from()))


def _unlike_their_pictures(book: Book, vault: Vault) -> list[str]:
    """Files whose size, time or likeness early versions did not record, held against what the vault keeps of them."""
    from claimpack.core.values.likeness import differ
    from claimpack.errors import ClaimpackError
    from claimpack.evidence.pictures.likeness import look_at

    wrong = []
    for number, file in book.files_not_recorded():
        try:
            path = vault.find(file.sha256, file.path)
        except ClaimpackError:
            # Told already, where every kept file was proved.
            continue
        said = path.stat().st_size == file.bytes
        if said and file.likeness:
            try:
                seen = look_at(path, file.path)
            except ClaimpackError:
                continue
            said = seen.taken == file.taken and not differ(seen.likeness, file.likeness)
        if not said:
            wrong.append(f"claim {number}: size, time or likeness of {file.path} is not that of the file kept")
    return wrong
