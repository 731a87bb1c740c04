"""`claimpack shop move`: photos and papers carried into another vault, counted and proved before the shop uses it."""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated, NamedTuple

from claimpack.commands.desk.options import Json
from claimpack.commands.line.declared import Argument, Context
from claimpack.core.values.numbers_said import how_many
from claimpack.core.values.words import more_than

if TYPE_CHECKING:
    from collections.abc import Mapping

    from claimpack.commands.desk.say import Say
    from claimpack.commands.desk.world import World
    from claimpack.evidence.vault import Vault
    from claimpack.shop import Shop

_AT_ONCE = 8
_MOST = 12


class Carried(NamedTuple):
    """How many files were sent, how many were there and whole before, and what could not be carried."""

    sent: int
    there: int
    problems: list[str]


def move(
    context: Context,
    vault: Annotated[str, Argument(metavar="VAULT", help="A folder, or a store as in s3://bucket/prefix.")],
    json: Json = False,
) -> int:
    """Carry photos and papers into another vault, prove them there, and name it in shop.toml.

    Stopped, it goes on where it was with the same command. The vault that was left stays as it is.
    """
    from claimpack.book.keeping.moving import content_named
    from claimpack.commands.desk.gather import the_book, the_shop, the_vault
    from claimpack.commands.desk.say import Say
    from claimpack.errors import BadInput

    world, say = context.obj, Say(context.obj)
    before = the_shop(world)
    after = _with_vault(world, before, vault)
    book, old, new = the_book(world, before), the_vault(world, before), the_vault(world, after)
    if new.name == old.name:
        raise BadInput(
            f"VAULT: {vault!r} is the vault the shop has",
            "Nothing was moved.",
            "Name another folder, or a store as in s3://bucket/prefix.",
        )
    new.must_take()
    names = content_named(book)
    done = _carried(say, names, old, new)
    moved = not done.problems
    if moved:
        _name_in_settings(after)
        # What others put into the old vault while this went on; from here on this shop uses the new one.
        meanwhile = {sha256: name for sha256, name in content_named(book).items() if sha256 not in names}
        later = _carried(say, meanwhile, old, new)
        done = Carried(done.sent + later.sent, done.there + later.there, later.problems)
    if json:
        say.document({"from": old.name, "to": new.name, "moved": moved, **done._asdict()})
    else:
        _tell(say, done, old, new, moved=moved)
    return 3 if done.problems else 0


def _with_vault(world: World, shop: Shop, named: str) -> Shop:
    """The shop with another vault; a folder is named from where one stands.

    Raises:
        BadInput: it is no vault.
    """
    from claimpack.core.facts.keys import record_from
    from claimpack.core.values.typed.stores import is_store
    from claimpack.errors import BadInput
    from claimpack.shop import ShopSettings

    home, place = shop.home(), named.strip().rstrip("/")
    if place and not is_store(place):
        whole = world.path(place)
        place = whole.relative_to(home).as_posix() if whole.is_relative_to(home) else str(whole)
    place = record_from(ShopSettings, {"vault": place}, "shop move", {"vault": "VAULT"}).vault
    if place in ("", "."):
        raise BadInput(
            f"VAULT: {named!r} is no folder of its own",
            "Nothing was moved.",
            "Name another folder, or a store as in s3://bucket/prefix.",
        )
    return shop._replace(settings=shop.settings.model_copy(update={"vault": place}))


def _carried(say: Say, names: Mapping[str, str], old: Vault, new: Vault) -> Carried:
    """Every file the book names in the new vault and proved there, several at once; those there already stay."""
    from concurrent.futures import ThreadPoolExecutor

    from claimpack.errors import BadInput, NotFound

    def carry(sha256: str) -> str | None:
        if not any(new.damaged([sha256])):
            return None
        try:
            content = old.content(sha256, names[sha256])
        except (BadInput, NotFound) as error:
            # one that cannot be asked at all lacks nothing: that ends the move
            old.holds(sha256)
            return error.what
        new.take_over(content)
        return ""

    with ThreadPoolExecutor(_AT_ONCE) as carrying, say.progress("Moving files", len(names)) as advance:
        told = []
        for said in carrying.map(carry, names):
            told.append(said)
            advance()
    return Carried(told.count(""), told.count(None), [said for said in told if said])


def _name_in_settings(shop: Shop) -> None:
    import tomlkit

    from claimpack.file_contents import read_text
    from claimpack.files import write_atomically
    from claimpack.folder.shop_folder import SHOP_FILE

    path = shop.home() / SHOP_FILE
    document = tomlkit.parse(read_text(path))
    document["vault"] = shop.settings.vault
    write_atomically(path, tomlkit.dumps(document).encode())


def _tell(say: Say, done: Carried, old: Vault, new: Vault, *, moved: bool) -> None:
    counts = f"{how_many(done.sent, 'file')} carried, {how_many(done.there, 'file')} there before"
    if moved:
        say.answer(f"{say.styled('MOVED', 'good')}  {counts}, all proved; the shop uses {new.name}.")
    else:
        say.answer(f"{say.styled('NOT MOVED', 'bad')}  {counts}; the shop uses {old.name} as before.")
    for problem in done.problems[:_MOST]:
        say.item(say.mark("fail"), problem)
    if more := more_than(done.problems, _MOST):
        say.note(more)
    if done.problems:
        filed_meanwhile = "Filed meanwhile, and not whole there: add them to their claims again."
        say.note(filed_meanwhile if moved else "Put them back from a backup, then the same command again.")
    if moved:
        say.note(f"{old.name} was left as it is. On other machines, name the new one in their shop.toml.")
