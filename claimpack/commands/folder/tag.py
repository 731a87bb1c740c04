"""`claimpack tag`: the tags of a claim's held parts alone."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from claimpack.commands.desk.options import ClaimArgument, Json, Plans, Stock, Today
from claimpack.core.values.numbers_said import how_many

if TYPE_CHECKING:
    from claimpack.commands.desk.gather import Case


def tag(
    context: typer.Context,
    claim: ClaimArgument,
    out: Annotated[
        Path | None,
        typer.Option("--out", metavar="FILE", help="The file to write, .pdf or .png; default: NUMBER-tag.pdf."),
    ] = None,
    stock: Stock = "",
    part: Annotated[int, typer.Option("--part", metavar="N", help="Only the Nth held part.", show_default=False)] = 0,
    png: Annotated[
        bool, typer.Option("--png", help="A picture a tag, for thermal printers; a name in .png says the same.")
    ] = False,
    dpi: Annotated[int, typer.Option("--dpi", min=100, max=1200, help="Printer dots an inch of pictures.")] = 203,
    plans: Plans = None,
    today: Today = "",
    json: Json = False,
) -> int:
    """Write the tags of a claim's held parts."""
    from claimpack.commands.desk.gather import gather
    from claimpack.commands.desk.options import answering_beside, ending_of, goes_to_stdout, write_named
    from claimpack.commands.desk.say import Say
    from claimpack.errors import NotFound
    from claimpack.files import write_together

    say, endings = Say(answering_beside(context.obj, out, json)), (".png",) if png else (".pdf", ".png")
    ending = ending_of(out, endings, "Tags are printed from a PDF; --png is for a picture a tag, for thermal printers.")
    png = png or ending == ".png"
    case = gather(context.obj, claim, plans, today)
    number, held = case.assessment.claim.number, len(case.assessment.tags)
    if not held or not 0 <= part <= held:
        raise NotFound(
            f"claim {number} holds {how_many(held, 'part')}" + (f", not {part}" if part else ""),
            "A tag is printed for each failed part that is kept.",
            f"Give a number from 1 to {held}." if held else _how_to_hold(case),
        )
    files, notes = _files(case, stock, part, dpi if png else 0)
    target = context.obj.path(out or f"{number}-tag{'.png' if png else '.pdf'}")
    if goes_to_stdout(out):
        write_named(context.obj, target, _the_one(files))
        placed = {}
    else:
        placed = {_numbered(target, name): content for name, content in files.items()}
        write_together(placed)
    for note in notes:
        say.note(note)
    if json:
        say.document({"claim": number, "files": [str(path) for path in placed]})
    else:
        for path in placed:
            say.path(path)
    return 0


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


def _files(case: Case, stock: str, part: int, dpi: int) -> tuple[dict[str, bytes], tuple[str, ...]]:
    from claimpack.commands.folder.making import make_tag_pictures, make_tags

    if dpi:
        return make_tag_pictures(case, stock, part, dpi)
    made = make_tags(case, stock, part)
    return {"": made.pdf}, made.notes


def _numbered(target: Path, name: str) -> Path:
    return target.with_name(f"{target.stem}-{name}{target.suffix}") if name else target
