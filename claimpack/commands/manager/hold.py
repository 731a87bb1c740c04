"""`claimpack hold`: the failed parts the shop keeps, listed, found and tagged."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

from claimpack.commands.desk.options import Json, Stock, Today
from claimpack.commands.line.declared import Argument, Context, Family, Option
from claimpack.commands.manager.hold_changes import call_back, move, release, scrap, send
from claimpack.commands.manager.hold_count import count
from claimpack.core.values.numbers_said import how_many

if TYPE_CHECKING:
    from collections.abc import Sequence

    from claimpack.book.held import HeldWanted
    from claimpack.commands.desk.desk import Desk
    from claimpack.commands.desk.say import Say
    from claimpack.commands.desk.world import World
    from claimpack.commands.manager.held_parts import JudgedPart

hold_app = Family(help="Failed parts kept for the maker: find, send, let go.")
"""The commands about held parts."""

Shelf = Annotated[str, Option("--shelf", metavar="SHELF", help="Only what is on it.")]


@hold_app.command("list")
def list_held(
    context: Context,
    shelf: Shelf = "",
    state: Annotated[
        str,
        Option(metavar="STATE", help="held, called back, released, sent, scrapped or all."),
    ] = "",
    may_go: Annotated[bool, Option("--may-go", help="Only what may be scrapped.")] = False,
    json: Json = False,
    today: Today = "",
) -> int:
    """List held parts, what to do first on top."""
    from claimpack.book.held import HeldWanted, states_named

    wanted = HeldWanted(states=states_named(state), shelf=shelf)
    return _list(context.obj, wanted, today, may_go=may_go, json=json)


@hold_app.command()
def find(
    context: Context,
    text: Annotated[str, Argument(metavar="TEXT|CODE", help="A tag's code, or words of part, unit or owner.")],
    json: Json = False,
    today: Today = "",
) -> int:
    """Find a held part: which shelf, what state."""
    from claimpack.book.held import EVERY_STATE, HeldWanted

    code = text.strip().rpartition("/")
    # a scanner types the whole code; people type part of a name
    is_code = bool(code[0]) and code[2].isdigit()
    wanted = HeldWanted(states=EVERY_STATE, claims=(code[0],)) if is_code else HeldWanted(EVERY_STATE, text=text)
    return _list(context.obj, wanted, today, only=int(code[2]) if is_code else 0, json=json)


def _list(world: World, wanted: HeldWanted, today: str, *, only: int = 0, may_go: bool = False, json: bool) -> int:
    from claimpack.commands.desk.desk import Desk, note_past
    from claimpack.commands.desk.say import Say
    from claimpack.commands.desk.terms_in_force import TermsInForce, tell_unread
    from claimpack.commands.manager.held_parts import as_json, listed, may_be_scrapped
    from claimpack.core.plans.terms import claims_by_terms

    say, desk = Say(world), Desk(world, today)
    rows = [row for row in desk.held(wanted) if only in (0, row.nth)]
    note_past(desk, say)
    parts = listed(rows, TermsInForce(desk, say), desk.day)
    # told of those as well that would perhaps be among what may go; terms give a draft no day
    named = ((part.row.claim, part.keeping.terms_unread) for part in parts if part.row.filed)
    unread = {claim: terms for claim, terms in named if terms}
    parts = [part for part in parts if may_be_scrapped(part)] if may_go else parts
    if json:
        say.document(
            {
                "today": desk.day.isoformat(),
                "parts": [{**as_json(part), **desk.shops.with_shop(part.row.claim)} for part in parts],
                "terms_unread": claims_by_terms(unread),
            }
        )
        return 0
    if not parts:
        # a tag that is scanned may hang on another shop's part
        for whose in filter(None, map(desk.shops.told_of, wanted.claims)):
            say.note(f"Its claim is in the book{whose}.")
        say.note("No held part matches." if rows else _none(desk, wanted))
    _tell(say, desk, parts)
    tell_unread(say, unread)
    return 0


def _none(desk: Desk, wanted: HeldWanted) -> str:
    from claimpack.book.held import EVERY_STATE, HELD_NOW, HeldWanted

    if not desk.held(HeldWanted(states=EVERY_STATE)):
        return "No part is held yet. Keep one: claimpack part hold CLAIM PART"
    if wanted == HELD_NOW:
        return "No part is held now. Those let go before: claimpack hold list --state all"
    return "No held part matches."


def _tell(say: Say, desk: Desk, parts: Sequence[JudgedPart]) -> None:
    from claimpack.commands.manager.held_parts import last_days, mark_under, may_be_scrapped, what_to_do
    from claimpack.commands.screen.columns import ScreenColumn, Under, tell_columns

    if not parts:
        return
    back = sum(1 for part in parts if part.row.state == "called back")
    free = sum(1 for part in parts if may_be_scrapped(part))
    count = how_many(len(parts), "part")
    say.answer(say.styled(f"{count}: {back} to send, {free} may be scrapped", "strong"))
    say.answer()
    columns = (
        ScreenColumn("Code", [str(part.row.code) for part in parts], most=28),
        ScreenColumn("Shop", [desk.shops.shown(part.row.claim) for part in parts], most=16),
        ScreenColumn("Shelf", [part.row.shelf or "nowhere" for part in parts], most=12, least=6),
        ScreenColumn("Part", [part.row.part for part in parts], most=24, least=5),
        ScreenColumn("Maker", [part.row.maker for part in parts], lesser=3, most=16),
        ScreenColumn("Model", [part.row.model for part in parts], lesser=2, most=14),
        ScreenColumn("State", [part.row.state for part in parts]),
        ScreenColumn("Since", [str(part.row.since or "") for part in parts], lesser=4),
        ScreenColumn("Keep until", last_days(parts)),
    )
    tell_columns(say, columns, [Under(mark_under(part, desk.day), what_to_do(part)) for part in parts], indent=1)


@hold_app.command("tag")
def reprint(
    context: Context,
    code: Annotated[str, Argument(metavar="CODE", help="As on the tag: 26-0041/1.")],
    out: Annotated[
        Path | None,
        Option("--out", metavar="FILE", help="The file to write, .pdf or .png; default: NUMBER-INDEX-tag.pdf."),
    ] = None,
    stock: Stock = "",
    png: Annotated[
        bool, Option("--png", help="A picture, for thermal printers; a name in .png says the same.")
    ] = False,
    dpi: Annotated[int, Option("--dpi", min=100, max=1200, help="The printer's dots to the inch, with --png.")] = 203,
    json: Json = False,
) -> int:
    """Print the tag of one held part again."""
    from claimpack.commands.desk.desk import Desk
    from claimpack.commands.desk.named_files import answering_beside, ending_of, write_named
    from claimpack.commands.desk.say import Say
    from claimpack.commands.desk.terms_in_force import TermsInForce
    from claimpack.commands.folder.making import the_stock_at
    from claimpack.commands.manager.held_parts import at_hand
    from claimpack.tag.draw import tag_notes, tag_pdf, tag_png

    say, endings = Say(answering_beside(context.obj, out, json)), (".png",) if png else (".pdf", ".png")
    ending = ending_of(out, endings, "A tag is a PDF; --png is for a picture of it, for thermal printers.")
    png = png or ending == ".png"
    desk = Desk(context.obj)
    part = at_hand(desk, TermsInForce(desk, say), code)
    paper, said = the_stock_at(desk.shop, desk.places, stock), desk.shop.settings
    tag = part.tag.of_shop(said.name, said.dealer_number(part.tag.maker))
    content = tag_png(tag, paper, dpi) if png else tag_pdf([tag], paper, said.name)
    name = f"{part.code.claim}-{part.code.nth}-tag.{'png' if png else 'pdf'}"
    path = context.obj.path(out or name)
    write_named(context.obj, path, content)
    if json:
        say.document({"code": str(part.code), "file": str(path), "cautions": list(part.tag.cautions)})
        return 0
    say.path(path)
    for note in (*tag_notes([tag], paper, dpi if png else None), *part.tag.cautions):
        say.note(note)
    return 0


@hold_app.command()
def sheet(
    context: Context,
    shelf: Annotated[str, Argument(metavar="[SHELF]", help="One shelf; without it, all.")] = "",
    out: Annotated[Path, Option("--out", metavar="FILE", help="The PDF to write.")] = Path("shelf-list.pdf"),
    paper: Annotated[str, Option("--paper", metavar="letter|legal|a4", help="The paper.")] = "letter",
    json: Json = False,
    today: Today = "",
) -> int:
    """Write a shelf list to print and tick off."""
    from claimpack.book.held import HeldWanted
    from claimpack.commands.desk.desk import Desk
    from claimpack.commands.desk.named_files import answering_beside, ending_of, write_named
    from claimpack.commands.desk.say import Say
    from claimpack.commands.desk.terms_in_force import TermsInForce
    from claimpack.commands.manager.held_parts import last_days, listed, state_shown
    from claimpack.printing.papers import page_of
    from claimpack.reports.shelf_list import ShelfLine, shelf_list_pdf

    ending_of(out, (".pdf",), "The shelf list is printed from a PDF.")
    # a shelf stands in one shop
    world = context.obj.of_one_shop()
    say, desk = Say(answering_beside(world, out, json)), Desk(world, today)
    page = page_of(paper)
    parts = listed(desk.held(HeldWanted(shelf=shelf)), TermsInForce(desk, say), desk.day)
    lines = [
        ShelfLine(
            shelf=part.row.shelf,
            code=str(part.row.code),
            part=part.row.part,
            unit=f"{part.row.maker} {part.row.model}",
            state=state_shown(part),
            until=str(part.row.send_by or "") if part.row.state == "called back" else until,
        )
        for part, until in zip(parts, last_days(parts), strict=True)
    ]
    path = context.obj.path(out)
    write_named(context.obj, path, shelf_list_pdf(lines, desk.shop.settings.name, desk.day, page))
    if json:
        say.document({"file": str(path), "parts": len(lines)})
    else:
        say.path(path)
    return 0


hold_app.command()(move)
hold_app.command("call-back")(call_back)
hold_app.command()(send)
hold_app.command()(release)
hold_app.command()(scrap)
hold_app.command()(count)
