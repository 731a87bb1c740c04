"""`claimpack shop`: a shop's folder made, looked at and proved."""

from __future__ import annotations

from pathlib import Path
from shlex import quote
from typing import TYPE_CHECKING, Annotated

import typer

from claimpack.commands.options import Json

if TYPE_CHECKING:
    from claimpack.commands.say import Say
    from claimpack.commands.world import World
    from claimpack.shop import Shop

shop_app = typer.Typer(help="Make a shop's folder, look at it, prove its book.", no_args_is_help=True)
"""The commands about the shop itself."""


@shop_app.callback()
def shop() -> None:
    """Make a shop's folder, look at it, prove its book."""


@shop_app.command()
def init(
    context: typer.Context,
    folder: Annotated[Path, typer.Argument(metavar="DIR", help="The folder to make.")],
    name: Annotated[str, typer.Option(help="The shop's name, as packets print it.", show_default=False)] = "",
    terms: Annotated[
        str, typer.Option(metavar="ID", help="Payment terms in force, as in us-tx.", show_default=False)
    ] = "",
    currency: Annotated[str, typer.Option(metavar="CODE", help="As in USD.", show_default=False)] = "",
    json: Json = False,
) -> int:
    """Make a shop folder: settings, an empty book, room for the shop's own plans, terms, layouts and stocks."""
    from claimpack.book.book import open_book
    from claimpack.commands.say import Say
    from claimpack.core.keys import record_from
    from claimpack.errors import BadInput
    from claimpack.files import make_folders, write_atomically
    from claimpack.shop import SHOP_FILE, ShopSettings
    from claimpack.template_files import Places, read_terms

    world: World = context.obj
    home = world.path(folder)
    if (home / SHOP_FILE).exists():
        raise BadInput(
            f"{folder} is a shop already",
            f"A new {SHOP_FILE} would wipe out its settings.",
            f"Edit {folder / SHOP_FILE}, or choose another folder.",
        )
    if terms:
        read_terms(terms, Places())
    named = {key: f"--{key}" for key in ("name", "terms", "currency")}
    record_from(ShopSettings, {"name": name, "terms": terms, "currency": currency or None}, "shop init", named)
    make_folders(home / kind for kind in ("coverage", "terms", "packet", "tag", "vault"))
    open_book(str(home / "book.sqlite"), create=True).engine.dispose()
    write_atomically(home / SHOP_FILE, _settings(name, terms, currency).encode())
    say = Say(world)
    if json:
        say.document({"shop": str(home), "settings": str(home / SHOP_FILE), "book": str(home / "book.sqlite")})
        return 0
    say.answer(f"{folder} is a shop now; its settings are in {folder / SHOP_FILE}.")
    say.note(f"Go into it ({_change_to(folder)}) and take a unit in: claimpack open")
    return 0


def _settings(name: str, terms: str, currency: str) -> str:
    """The commented settings file with the values given filled in."""
    import tomlkit

    from claimpack.files import read_text
    from claimpack.shop import SHOP_FILE
    from claimpack.template_files import shipped

    document = tomlkit.parse(read_text(shipped("shop") / SHOP_FILE))
    for key, value in (("name", name), ("terms", terms), ("currency", currency)):
        if value:
            document[key] = value
        elif key == "currency":
            document.remove(key)
    return tomlkit.dumps(document)


def _change_to(folder: Path) -> str:
    return f"cd {quote(str(folder))}"


@shop_app.command("show")
def show_shop(context: typer.Context, json: Json = False) -> int:
    """Say which shop this is, and what its book holds."""
    from claimpack.commands.gather import the_book, the_shop
    from claimpack.commands.say import Say

    found = the_shop(context.obj)
    found.home()
    book = the_book(context.obj, found)
    facts = {
        "shop": str(found.folder),
        "name": found.settings.name,
        "book": found.settings.book,
        "claims": book.count(),
        "terms": found.settings.terms,
    }
    say = Say(context.obj)
    if json:
        say.document(facts)
    else:
        say.table([(key, str(value)) for key, value in facts.items()], indent=0)
    return 0


@shop_app.command("verify")
def verify_shop(context: typer.Context, json: Json = False) -> int:
    """Prove that the history is whole, that every claim is what it says, and that every kept file is unchanged."""
    from claimpack.commands.gather import the_shop
    from claimpack.commands.say import Say

    found = the_shop(context.obj)
    say = Say(context.obj)
    problems, counts = _proved(context.obj, say, found)
    if json:
        say.document({"whole": not problems, **counts, "problems": problems})
        return 3 if problems else 0
    style, word = ("bad", "NOT WHOLE") if problems else ("good", "WHOLE")
    say.answer(f"{say.styled(word, style)}  {', '.join(_counted(count, what) for what, count in counts.items())}")
    for problem in problems:
        say.item(say.mark("fail"), problem)
    return 3 if problems else 0


def _counted(count: int, what: str) -> str:
    return f"{count} {what.removesuffix('s') if count == 1 else what}"


def _proved(world: World, say: Say, found: Shop) -> tuple[list[str], dict[str, int]]:
    from claimpack.book.moving import content_named
    from claimpack.book.proof import book_problems
    from claimpack.commands.gather import the_book, the_vault

    book = the_book(world, found)
    problems, names = book_problems(book), content_named(book)
    vault = the_vault(found)
    with say.progress("Proving files", len(names)) as advance:
        for sha256, name in names.items():
            problems += [f"{name} {wrong}" for _, wrong in vault.damaged([sha256])]
            advance()
    return problems, {"events": book.chain_end()[0], "claims": book.count(), "files": len(names)}
