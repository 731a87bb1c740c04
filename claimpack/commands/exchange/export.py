"""`claimpack export`: claims as folders, the whole book as an archive, a flat list for the accountant."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Any

from claimpack.commands.desk.options import Json, Today
from claimpack.commands.line.declared import Argument, Context, Option
from claimpack.core.values.numbers_said import how_many

if TYPE_CHECKING:
    from claimpack.book.tables.entries import Entry
    from claimpack.commands.desk.desk import Desk
    from claimpack.commands.desk.say import Say
    from claimpack.commands.desk.world import World
    from claimpack.core.payment.ledger import LedgerLine


def export(
    context: Context,
    claims: Annotated[list[str] | None, Argument(metavar="CLAIM…", help="Claim numbers; default: all.")] = None,
    out: Annotated[Path | None, Option("--out", metavar="DIR", help="Claim folders, one for each claim.")] = None,
    csv: Annotated[
        Path | None,
        Option("--csv", metavar="FILE", help="A flat list, as CSV; - for standard output."),
    ] = None,
    xlsx: Annotated[
        Path | None,
        Option("--xlsx", metavar="FILE", help="A list as a spreadsheet; - likewise."),
    ] = None,
    journal: Annotated[
        Path | None,
        Option("--journal", "--ledger", metavar="FILE", help="Every payment and loss as an entry with two accounts."),
    ] = None,
    since: Annotated[str, Option(metavar="DATE", help="With --journal: the first day.")] = "",
    until: Annotated[str, Option(metavar="DATE", help="With --journal: the last day.")] = "",
    bom: Annotated[bool, Option("--bom", help="CSV that spreadsheets open as UTF-8.")] = False,
    everything: Annotated[
        Path | None,
        Option("--everything", metavar="FILE", help="The whole book, to move it; or -."),
    ] = None,
    replace: Annotated[bool, Option("--replace", help="Let --everything replace a file that is there.")] = False,
    today: Today = "",
    json: Json = False,
) -> int:
    """Write claims out: folders, a list, or everything."""
    from claimpack.commands.desk.desk import Desk
    from claimpack.commands.desk.say import Say
    from claimpack.commands.exchange.journal import write_journal
    from claimpack.errors import BadInput

    world, desk = context.obj, Desk(context.obj, today)
    given = {"--csv": csv, "--xlsx": xlsx, "--journal": journal, "--everything": everything}
    if not (out or any(given.values())):
        raise BadInput(
            "export: nothing says where to",
            "Claims go out as folders, as a list, or everything as one archive.",
            "Add --out DIR, --csv FILE, --xlsx FILE, --journal FILE or --everything FILE.",
        )
    say = Say(_answering_beside(world, given, out or json))
    numbers = list(dict.fromkeys(claims or ())) or None
    # all numbers are looked up before anything is written
    for number in numbers or ():
        desk.book.get(number)
    facts: dict[str, Any] = {}
    # before the long work: an archive that is there may be the only one
    if everything and not replace:
        _keep_what_is_there(world.path(everything))
    if out:
        facts["folders"] = _write_folders(desk, say, numbers, world.path(out))
    if csv or xlsx:
        lists = {"csv": world.path(csv) if csv else None, "xlsx": world.path(xlsx) if xlsx else None}
        facts |= _write_lists(desk, say, numbers, lists, bom=bom)
    if journal:
        facts["journal"] = write_journal(desk, say, numbers, journal, (since, until), bom=bom)
    if everything:
        facts["archive"] = _write_everything(desk, say, world.path(everything))
    if json:
        say.document(facts)
    # a list on standard output must be nothing but the list
    elif "-" not in (str(csv), str(journal)):
        _tell(say, facts)
    return 0


def _answering_beside(world: World, given: dict[str, Path | None], others: object) -> World:
    from claimpack.commands.desk.named_files import answering_beside, goes_to_stdout

    option = next((option for option, named in given.items() if goes_to_stdout(named)), "--csv")
    beside = any(named for name, named in given.items() if name != option)
    is_text = option in ("--csv", "--journal")
    return answering_beside(world, given[option], beside or others, option, is_text=is_text)


def _keep_what_is_there(path: Path) -> None:
    from claimpack.errors import CannotWrite

    if path.name != "-" and path.exists():
        raise CannotWrite(
            f"--everything: {path} already exists",
            "It may be the only copy of an earlier day's book.",
            "Give another name, or say --replace.",
        )


def _write_folders(desk: Desk, say: Say, numbers: list[str] | None, out: Path) -> list[str]:
    from claimpack.core.values.words import some_of
    from claimpack.errors import CannotWrite
    from claimpack.files import write_folder
    from claimpack.folders import make_folders

    wanted = [row.number for row in desk.book.claims()] if numbers is None else numbers
    there = [number for number in wanted if (out / number).exists()]
    if there:
        raise CannotWrite(
            f"{some_of([str(out / number) for number in there], 1)} already {'exist' if there[1:] else 'exists'}",
            "What lies in it would be mixed with what is written.",
            "Choose another folder with --out, or move it away.",
        )
    make_folders([out])
    written, beyond_draft = [], 0
    with say.progress("Writing claims", len(wanted)) as advance:
        for entry in desk.book.entries(numbers):
            number = entry.claim.number
            beyond_draft += entry.standing.state != "draft"
            write_folder(out, {f"{number}/{name}": content for name, content in _contents(desk, entry).items()})
            written.append(str(out / number))
            advance()
    if beyond_draft:
        say.note(f"A folder holds a claim without its history: {_as_drafts(beyond_draft)} as a draft when imported.")
        say.note("To move claims with their answers and payments, take the whole book: --everything FILE.")
    return written


def _as_drafts(count: int) -> str:
    return "the one that is no draft comes back" if count == 1 else f"{count} that are no drafts come back"


def _contents(desk: Desk, entry: Entry) -> dict[str, bytes]:
    """A claim folder's files by path."""
    from claimpack.folder.claim_folder import CLAIM_FILE, inside
    from claimpack.folder.claim_toml import claim_to_toml

    number = entry.claim.number
    files = {
        inside(file.path, f"claim {number}"): desk.vault.content(file.sha256, f"claim {number}: {file.path}")
        for file in entry.files
    }
    return {**files, CLAIM_FILE: claim_to_toml(entry.claim).encode()}


def _ledger(desk: Desk, say: Say, numbers: list[str] | None) -> list[LedgerLine]:
    from claimpack.commands.desk.terms_in_force import TermsInForce
    from claimpack.core.payment.ledger import ledger_line
    from claimpack.core.payment.silence import standing_as_of

    lines, in_force = [], TermsInForce(desk, say)
    with say.progress("Claims", desk.book.count() if numbers is None else len(numbers)) as advance:
        for entry in desk.book.entries(numbers):
            # silence counts in an accountant's list, too
            standing = standing_as_of(entry.standing, in_force.of(entry.claim), desk.day)
            lines.append(ledger_line(entry.claim, standing, desk.summary_today(entry)))
            advance()
    return lines


def _write_lists(
    desk: Desk, say: Say, numbers: list[str] | None, lists: dict[str, Path | None], *, bom: bool
) -> dict[str, str]:
    from claimpack.commands.desk.named_files import write_named
    from claimpack.files import write_together
    from claimpack.lists.ledger_sheets import as_csv, as_xlsx, ledger_sheet, with_shops

    sheet = with_shops(ledger_sheet(_ledger(desk, say, numbers)), desk.shops.told)
    contents = {}
    if lists["csv"]:
        contents[lists["csv"]] = as_csv(sheet, bom=bom)
    if lists["xlsx"]:
        contents[lists["xlsx"]] = as_xlsx(sheet, desk.day)
    if len(contents) == 1:
        ((path, content),) = contents.items()
        replaced = [path] if path.exists() else []
        write_named(desk.world, path, content)
    else:
        replaced = [path for path in contents if path.exists()]
        write_together(contents)
    for path in replaced:
        say.note(f"{path} was there before; it is replaced.")
    return {kind: str(path) for kind, path in lists.items() if path}


def _write_everything(desk: Desk, say: Say, path: Path) -> dict[str, Any]:
    from tempfile import TemporaryDirectory

    from claimpack.commands.shop.backing_up import write_book

    if path != desk.world.path("-"):
        return write_book(desk, say, path)
    from claimpack.commands.desk.say import Say as Voice

    # a zip file is closed by going back in it, which a pipe cannot
    with TemporaryDirectory(prefix="claimpack-") as folder:
        whole = Path(folder) / "book.zip"
        facts = write_book(desk, say, whole)
        Voice(desk.world).content_of(whole)
    return {**facts, "file": "-"}


def _tell(say: Say, facts: dict[str, Any]) -> None:
    for folder in facts.get("folders", ()):
        say.path(Path(folder))
    for kind in ("csv", "xlsx"):
        if kind in facts:
            say.path(Path(facts[kind]))
    if "journal" in facts:
        say.path(Path(facts["journal"]["file"]))
        movements = facts["journal"]["movements"].items()
        # each kind by itself: payments and charge-backs added up are no money that moved
        said = [f"{kind} {amount} {code}" for kind, sums in movements for code, amount in sums.items()]
        count = how_many(facts["journal"]["entries"], "entry", "entries")
        say.answer(f"  {', '.join([count, *said])}; what was paid for every claim agrees with the book")
    archive = facts.get("archive")
    if archive:
        say.path(Path(archive["file"]))
        counts = ", ".join(f"{archive[name]} {name}" for name in ("claims", "revisions", "events", "files"))
        say.answer(f"  {counts}; SHA-256 {archive['sha256']}")
        say.note("Take it over into an empty book with: claimpack import FILE. Settings and plans are not in it:")
        say.note("copy shop.toml and the shop's coverage, terms, packet and tag folders as they are.")
