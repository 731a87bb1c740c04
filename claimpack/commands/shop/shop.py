"""`claimpack shop`: a shop's folder made, looked at and proved."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path
from shlex import quote
from typing import TYPE_CHECKING, Annotated

from claimpack.commands.desk.options import Json
from claimpack.commands.line.declared import Argument, Context, Family, Option
from claimpack.commands.shop.backing_up import backup, restore
from claimpack.commands.shop.demo import demo
from claimpack.commands.shop.forget import forget
from claimpack.commands.shop.moving import move
from claimpack.commands.shop.proving import verify_shop
from claimpack.commands.shop.roles import roles
from claimpack.commands.shop.taking import take
from claimpack.core.values.numbers_said import how_many
from claimpack.folders import way

if TYPE_CHECKING:
    from claimpack.commands.desk.world import World

shop_app = Family(help="Make a shop's folder, look at it, verify its book.")
"""The commands about the shop itself."""


@shop_app.command()
def init(
    context: Context,
    folder: Annotated[Path, Argument(metavar="DIR", help="The folder to make.")],
    name: Annotated[str, Option(help="The shop's name, as packets print it.")] = "",
    terms: Annotated[str, Option(metavar="ID", help="Payment terms in force, as in us-tx.")] = "",
    currency: Annotated[str, Option(metavar="CODE", help="As in USD.")] = "",
    shop_id: Annotated[
        str,
        Option("--id", metavar="ID", help="What a book of several shops calls it, as in ashby."),
    ] = "",
    numbers: Annotated[
        str,
        Option(metavar="PREFIX", help="What its claim numbers begin with, as in A for A26-0001."),
    ] = "",
    book: Annotated[
        str,
        Option(metavar="PLACE", help="The book it shares: a file, or the URL of a database."),
    ] = "",
    inside: Annotated[bool, Option("--inside", help="Make it even though it is inside another shop.")] = False,
    json: Json = False,
) -> int:
    """Make a shop folder: settings, an empty book, room for the shop's own plans, terms, layouts and stocks."""
    from claimpack.commands.desk.say import Say
    from claimpack.commands.shop.making import make_shop
    from claimpack.core.facts.keys import record_from
    from claimpack.core.values.passwords import without_password
    from claimpack.errors import BadInput
    from claimpack.folder.shop_folder import SHOP_FILE, shop_above
    from claimpack.shop import ShopSettings
    from claimpack.template_files import Places, read_terms

    world: World = context.obj
    home = world.path(folder)
    if (home / SHOP_FILE).exists():
        raise BadInput(
            f"{folder} is a shop already",
            f"A new {SHOP_FILE} would wipe out its settings.",
            f"Edit {folder / SHOP_FILE}, or choose another folder.",
        )
    around = None if inside else shop_above(home.parent)
    if around:
        raise BadInput(
            f"{folder} is inside the shop {around}",
            "Whoever works in it would write into another book than before.",
            f"Choose a folder outside of {around}; or say --inside if it is to be a shop of its own.",
        )
    if terms:
        read_terms(terms, Places())
    if book and not shop_id:
        raise BadInput(
            "--book needs --id too",
            "A book that several shops share tells them apart by their ids.",
            "As in: claimpack shop init hollis --id hollis --book postgresql://hollis@host/claims",
        )
    # a file is named from the shop's own folder, so that both may be moved together
    place = book if "://" in book or not book or Path(book).is_absolute() else way(world.path(book), home)
    given = {"name": name, "terms": terms, "currency": currency, "id": shop_id, "numbers": numbers, "book": place}
    told = {key: value for key, value in given.items() if value or key == "currency"}
    record_from(ShopSettings, {**told, "currency": currency or None}, "shop init", {key: f"--{key}" for key in given})
    whole_place = place if "://" in place or not place else str(home / place)
    # not by way of its own folder, which is made only then
    was_there = bool(book) and _is_book(book if "://" in book else str(world.path(book)))
    make_shop(home, _settings(told).encode(), whole_place)
    say = Say(world)
    if json:
        book_made = without_password(place) if place else str(home / "book.sqlite")
        joined = _claims_in(whole_place) if place else {}
        facts = {"shop": str(home), "settings": str(home / SHOP_FILE), "book": book_made}
        say.document({**facts, "joined": was_there, "claims": joined})
        return 0
    say.answer(f"{folder} is a shop now; its settings are in {folder / SHOP_FILE}.")
    if place:
        joined = _claims_in(whole_place)
        there = ", ".join(f"{shop or 'no shop yet'} {count:,}" for shop, count in joined.items())
        shown = without_password(book)
        if was_there:
            say.answer(
                f"It joined the book {shown}, with {how_many(sum(joined.values()), 'claim')} in it: {there}."
                if there
                else f"It joined the book {shown}, which has no claim in it yet."
            )
        else:
            say.answer(
                f"A new book was made at {shown}; there is no claim in it. Other shops join it by the same place."
            )
    if "://" in place:
        say.note(
            "Shops of one book keep photos and papers in one vault: name the same folder or store in each (vault)."
        )
    say.note(f"Go into it ({_change_to(folder)}) and take a unit in: claimpack open")
    return 0


def _is_book(place: str) -> bool:
    """Whether a book is at a place already."""
    from claimpack.book.database import engines
    from claimpack.book.database.connections import database_errors
    from claimpack.book.tables.migrations import applied

    if not engines.exists(place):
        return False
    engine = engines.engine_for(place)
    try:
        return applied(engine) > 0
    except database_errors():
        # whoever opens it says what keeps it from being read
        return False
    finally:
        engine.dispose()


def _claims_in(place: str) -> dict[str, int]:
    """How many claims a book holds of each shop."""
    from claimpack.book.opening import open_book

    book = open_book(place)
    try:
        return book.shops()
    finally:
        book.engine.dispose()


def _settings(given: dict[str, str]) -> str:
    """The commented settings file with the values given filled in."""
    import tomlkit

    from claimpack.file_contents import read_text
    from claimpack.folder.shop_folder import SHOP_FILE
    from claimpack.folder.toml_lines import put_key
    from claimpack.template_files import shipped

    document = tomlkit.parse(read_text(shipped("shop") / SHOP_FILE))
    for key, value in given.items():
        if value:
            # where the file explains it, and not behind all others
            document = put_key(document, "", key, value)
        else:
            document.remove(key)
    return tomlkit.dumps(document)


def _change_to(folder: Path) -> str:
    return f"cd {quote(str(folder))}"


@shop_app.command("show")
def show_shop(context: Context, json: Json = False) -> int:
    """Say which shop this is, and what its book holds."""
    from claimpack.book.keeping.backups import last_backup
    from claimpack.commands.desk.gather import the_book, the_shop
    from claimpack.commands.desk.say import Say
    from claimpack.core.reporting.backing_up import backup_age

    found = the_shop(context.obj)
    found.home()
    book = the_book(context.obj, found)
    facts = {
        "shop": str(found.folder),
        "name": found.settings.name,
        "book": found.book_shown(),
        "claims": book.count(),
        **({"shops": book.shops(), "folders": dict(found.settings.shops)} if found.settings.id else {}),
        "terms": found.settings.terms,
        "backup": backup_age(last_backup(book), context.obj.today()),
    }
    say = Say(context.obj)
    if json:
        say.document(facts)
    else:
        held = ", ".join(f"{shop or 'no shop yet'} {count}" for shop, count in book.shops().items())
        folders = ", ".join(_folder_said(shop, folder, book.shops()) for shop, folder in found.settings.shops.items())
        told = {**facts, **({"shops": held, "folders": folders or "none named"} if found.settings.id else {})}
        say.table([(key, str(value)) for key, value in told.items()], indent=0)
    return 0


def _folder_said(shop: str, folder: str, known: Mapping[str, int]) -> str:
    """Another shop's folder, as it is named; an id under which the book holds no claim may be mistyped."""
    return f"{shop} in {folder}" + ("" if shop in known else " (no claim of the book is its)")


shop_app.command("demo")(demo)
shop_app.command("verify")(verify_shop)
shop_app.command("backup")(backup)
shop_app.command("restore")(restore)
shop_app.command("forget")(forget)
shop_app.command("move")(move)
shop_app.command("take")(take)
shop_app.command("roles")(roles)
