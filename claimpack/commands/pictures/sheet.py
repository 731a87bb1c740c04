"""`claimpack photo sheet`: the pictures of a claim on a contact sheet, gaps left empty."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

from claimpack.commands.desk.options import ClaimArgument, Json, Plans, Today
from claimpack.commands.line.declared import Context, Option

if TYPE_CHECKING:
    from claimpack.commands.desk.gather import Case
    from claimpack.commands.desk.say import Say
    from claimpack.reports.contact_sheet import SheetPicture


def sheet(
    context: Context,
    claim: ClaimArgument,
    out: Annotated[Path, Option("--out", metavar="FILE", help="The PDF or PNG to write.")] = Path("photos.pdf"),
    paper: Annotated[str, Option("--paper", metavar="letter|legal|a4", help="The paper.")] = "letter",
    plans: Plans = None,
    json: Json = False,
    today: Today = "",
) -> int:
    """Write a contact sheet, missing shots left empty."""
    from claimpack.commands.desk.gather import gather
    from claimpack.commands.desk.named_files import answering_beside, ending_of, write_named
    from claimpack.commands.desk.options import the_day
    from claimpack.commands.desk.say import Say
    from claimpack.core.judging.conditions.evidence_asked import shots_asked
    from claimpack.core.values.numbers_said import how_many
    from claimpack.printing.papers import page_of
    from claimpack.reports.contact_sheet import SheetTitles, cells, contact_sheet_pdf, contact_sheet_png

    ending = ending_of(out, (".pdf", ".png"), "A contact sheet is a PDF or a picture.")
    say, page = Say(answering_beside(context.obj, out, json)), page_of(paper)
    case = gather(context.obj, claim, plans, today)
    plan, unit = case.assessment.plan, case.claim.unit
    placed = cells(_pictures(say, case), shots_asked(case.claim, plan) if plan else ())
    missing = [cell.title for cell in placed if cell.picture is None]
    counted = how_many(len(placed) - len(missing), "picture")
    words = (case.assessment.maker_name, unit.model, unit.serial("unit"))
    day, shop = the_day(context.obj, today), case.shop.settings.name
    titles = SheetTitles(
        title=f"Claim {case.claim.number}",
        below=f"{' '.join(word for word in words if word)}: {counted}, {len(missing)} missing",
        foot=" · ".join(part for part in (shop, f"contact sheet of {day}") if part),
        author=shop,
    )
    drawn = contact_sheet_png if ending == ".png" else contact_sheet_pdf
    path = context.obj.path(out)
    write_named(context.obj, path, drawn(placed, titles, page))
    if json:
        say.document({"claim": case.claim.number, "file": str(path), "missing_shots": missing})
    else:
        say.path(path)
    return 0


def _pictures(say: Say, case: Case) -> list[SheetPicture]:
    """The pictures that are kept, made small; those that the claim only names are left out, and told."""
    from claimpack.commands.pictures.photo_filing import picture_notes
    from claimpack.evidence.pictures.photos import PrintSize, prepare_all
    from claimpack.reports.contact_sheet import SheetPicture

    numbered = list(enumerate(case.claim.photos, start=1))
    if case.entry:
        kept = {file.path for file in case.entry.files}
        for _, photo in numbered:
            if photo.file not in kept:
                say.note(f"{photo.file} is named by the claim, and the book does not keep it.")
        numbered = [(number, photo) for number, photo in numbered if photo.file in kept]
    doubts = {file: doubt.what for file, doubt in reversed(picture_notes(case))}
    with say.progress("Photos", len(numbered)) as advance:
        named = [(photo.file, case.file(photo.file)) for _, photo in numbered]
        small = prepare_all(named, PrintSize(long_edge=480 if len(numbered) > 6 else 1000), advance)
    return [
        SheetPicture(
            number,
            photo.shot,
            photo.file,
            f"{each.taken:%Y-%m-%d %H:%M}" if each.taken else "no time",
            doubts.get(photo.file, ""),
            each.jpeg,
            each.width,
            each.height,
        )
        for (number, photo), each in zip(numbered, small, strict=True)
    ]
