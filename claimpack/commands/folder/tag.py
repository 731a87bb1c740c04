"""`claimpack tag`: the tags of a claim's held parts alone."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

from claimpack.commands.desk.options import ClaimArgument, Json, Plans, Stock, Today
from claimpack.commands.line.declared import Context, Option
from claimpack.commands.outgoing.printer import DryRun, Print, Printer, print_job
from claimpack.core.values.numbers_said import how_many

if TYPE_CHECKING:
    from claimpack.commands.desk.gather import Case
    from claimpack.commands.desk.world import World


def tag(
    context: Context,
    claim: ClaimArgument,
    out: Annotated[
        Path | None,
        Option("--out", metavar="FILE", help="The file to write, .pdf, .png or .zpl; default: NUMBER-tag.pdf."),
    ] = None,
    stock: Stock = "",
    part: Annotated[int, Option("--part", metavar="N", help="Only the Nth held part.")] = 0,
    png: Annotated[
        bool, Option("--png", help="A picture a tag, for thermal printers; a name in .png says the same.")
    ] = False,
    zpl: Annotated[
        bool, Option("--zpl", help="In the language of label printers; a name in .zpl says the same.")
    ] = False,
    dpi: Annotated[int, Option("--dpi", min=100, max=1200, help="The printer's dots to the inch, for pictures.")] = 203,
    print_it: Print = False,
    printer: Printer = "",
    dry_run: DryRun = False,
    start: Annotated[int, Option("--start", metavar="N", min=1, help="The first free tag of a partly used sheet.")] = 1,
    plans: Plans = None,
    today: Today = "",
    json: Json = False,
) -> int:
    """Write the tags of a claim's held parts."""
    from claimpack.commands.desk.gather import gather
    from claimpack.commands.desk.named_files import answering_beside
    from claimpack.commands.desk.say import Say
    from claimpack.errors import NotFound

    say, ending = Say(answering_beside(context.obj, out, json)), _ending(out, png=png, zpl=zpl)
    job = print_job(out, printer, wanted=print_it, dry_run=dry_run)
    case = gather(context.obj, claim, plans, today)
    number, held = case.assessment.claim.number, len(case.assessment.tags)
    if not held or not 0 <= part <= held:
        raise NotFound(
            f"claim {number} holds {how_many(held, 'part')}" + (f", not {part}" if part else ""),
            "A tag is printed for each failed part that is kept.",
            f"Give a number from 1 to {held}." if held else _how_to_hold(case),
        )
    files, notes = _files(case, stock, (part, start), dpi, ending)
    placed = _placed(context.obj, out, files, context.obj.path(out or f"{number}-tag{ending}"))
    ran = job.run(context.obj, list(placed), lambda: _write(placed), raw=ending == ".zpl")
    for note in notes:
        say.note(note)
    if json:
        say.document({"claim": number, "files": [str(path) for path in placed], **job.as_json(ran)})
    else:
        for path in placed if not dry_run else ():
            say.path(path)
        job.tell(say, ran)
    return 0


def _ending(out: Path | None, *, png: bool, zpl: bool) -> str:
    """How the name of the file ends, which says what is written."""
    from claimpack.commands.desk.named_files import ending_of
    from claimpack.errors import BadInput

    if png and zpl:
        raise BadInput("--png and --zpl contradict each other", "A tag is written one way.", "Leave one of them out.")
    endings = (".png",) if png else (".zpl",) if zpl else (".pdf", ".png", ".zpl")
    why = "Tags are printed from a PDF; --png is for a picture a tag, --zpl for label printers."
    return ending_of(out, endings, why) or endings[0]


def _placed(world: World, out: Path | None, files: dict[str, bytes], target: Path) -> dict[Path, bytes]:
    """Every file with its place; none where the one there is goes to standard output, where it is by then."""
    from claimpack.commands.desk.named_files import goes_to_stdout, write_named

    if goes_to_stdout(out):
        write_named(world, target, _the_one(files))
        return {}
    return {_numbered(target, name): content for name, content in files.items()}


def _write(placed: dict[Path, bytes]) -> None:
    from claimpack.files import write_together

    write_together(placed)


def _the_one(files: dict[str, bytes]) -> bytes:
    """The file that goes to standard output.

    Raises:
        BadInput: there are several, each a picture of its own.
    """
    from claimpack.errors import BadInput

    if len(files) > 1:
        raise BadInput("--out -: each tag is a picture of its own", do="Choose one with --part, or give a file's name.")
    return next(iter(files.values()))


def _how_to_hold(case: Case) -> str:
    if case.entry is None:
        return "Add it under [[held]] in claim.toml."
    return f"Keep one: claimpack part hold {case.claim.number} PART --shelf SHELF"


def _files(
    case: Case, stock: str, which: tuple[int, int], dpi: int, ending: str
) -> tuple[dict[str, bytes], tuple[str, ...]]:
    part, start = which
    from claimpack.commands.folder.making import make_tag_labels, make_tag_pictures, make_tags

    if ending == ".png":
        return make_tag_pictures(case, stock, part, dpi)
    made = make_tag_labels(case, stock, part, dpi) if ending == ".zpl" else make_tags(case, stock, part, start)
    return {"": made.pdf}, made.notes


def _numbered(target: Path, name: str) -> Path:
    return target.with_name(f"{target.stem}-{name}{target.suffix}") if name else target
