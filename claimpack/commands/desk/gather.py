"""What commands read before they decide: the claim, the shop, the book, the plans, the day."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, NamedTuple

from claimpack.commands.desk.options import the_day
from claimpack.commands.desk.shops import not_ours, shop_said, world_of
from claimpack.errors import BadInput, NotFound

if TYPE_CHECKING:
    from claimpack.book.book import Book
    from claimpack.book.tables.entries import Author, Entry
    from claimpack.commands.desk.world import World
    from claimpack.core.claims.claim import Claim
    from claimpack.core.judging.assessment import Assessment, Circumstances
    from claimpack.core.plans.plan import Plan
    from claimpack.evidence.vault import Vault
    from claimpack.folder.claim_folder import ClaimFolder
    from claimpack.shop import Shop
    from claimpack.template_files import Places


class Case(NamedTuple):
    """A claim with everything it is judged by; entry is None for a claim that is a folder only."""

    claim: Claim
    file: Callable[[str], Path]
    unlisted: tuple[str, ...]
    entry: Entry | None
    shop: Shop
    places: Places
    circumstances: Circumstances
    assessment: Assessment


def the_shop(world: World, start: Path | None = None) -> Shop:
    """The shop that CLAIMPACK_SHOP names, else the nearest above a folder.

    Raises:
        NotFound: the settings name terms, a layout or a stock that is not there.
    """
    from claimpack.folder.shop_folder import SHOP_FILE
    from claimpack.shop import find_shop
    from claimpack.template_files import Places, must_be_there

    shop = find_shop(start or world.folder, world.environ.get("CLAIMPACK_SHOP", ""))
    for key, kind, named in shop.settings.templates_named() if shop.folder else ():
        must_be_there(kind, named, Places(shop=shop.folder), f"{shop.home() / SHOP_FILE}, key {key}")
    return shop


def the_book(world: World, shop: Shop | None = None) -> Book:
    """The shop's book, open until the command ends: SQLite then leaves it whole in one file.

    Raises:
        NotFound: there is no shop, or no book in it.
    """
    from claimpack.book.opening import open_book
    from claimpack.commands.desk.say import Say

    shop = shop or the_shop(world)
    book = open_book(shop.book_place(), shop=shop.settings.id, all_shops=world.all_shops)
    # Left open, SQLite keeps what was written last in a second file, which a copy of the book would miss.
    world.closing.callback(book.engine.dispose)
    hindered = book.engine.hindered
    if hindered:
        Say(world).note_once(f"The book can be read, but not changed: {hindered.what}.")
    return book


def the_vault(world: World, shop: Shop) -> Vault:
    """Where the shop keeps photos and papers: a folder, or a store of objects."""
    from claimpack.core.values.typed.stores import is_store, store_address
    from claimpack.evidence.vault import Vault

    place, folder = shop.settings.vault, shop.vault_folder()
    if not is_store(place):
        return Vault(folder)
    from claimpack.commands.desk.say import Say
    from claimpack.evidence.object_store import ObjectStore
    from claimpack.evidence.store_vault import StoreVault

    return StoreVault(ObjectStore(store_address(place), world.environ, Say(world).progress), folder)


def the_author(world: World) -> Author:
    """Who changes the book, and the time it is."""
    from claimpack.book.tables.entries import Author

    return Author(world.who(), world.now())


def is_folder(world: World, claim: str) -> bool:
    """Whether a CLAIM argument names a claim folder rather than a number of the book."""
    path = world.path(claim)
    return (path / "claim.toml").is_file() or path.name == "claim.toml" or "/" in claim or claim in (".", "..")


def gather(world: World, claim: str, plans: Sequence[Path] | None, today: str, *, only_looks: bool = False) -> Case:
    """Read a claim, from its folder or from the book, and assess it under the plans within reach.

    Args:
        world: the world of the command.
        claim: a number of the book, or a folder.
        plans: where plans are looked for first.
        today: the day that is asked about, as it was written.
        only_looks: nothing is made of it, so that it may be another shop's, which is told.

    Raises:
        ClaimpackError: the claim, the shop or a plan cannot be read; or the claim is another shop's.
    """
    day = the_day(world, today)
    shop = the_shop(world)
    _must_be_somewhere(world, shop, claim)
    if is_folder(world, claim) or shop.folder is None:
        return _from_folder(world, world.path(claim), plans, day)
    return from_book(world, shop, claim, plans, day, only_looks=only_looks)


def _must_be_somewhere(world: World, shop: Shop, claim: str) -> None:
    """Refuse a word that may be a claim's number where there is no shop to look it up, nor a folder of that name.

    Raises:
        NotFound: it is one.
    """
    if shop.folder is None and not is_folder(world, claim) and not world.path(claim).exists():
        raise NotFound(
            f"{claim}: there is no such claim folder here, and no shop whose book could know that number",
            "A claim is named by its folder, or in a shop by its number.",
            "Go into the shop's folder, or name it in CLAIMPACK_SHOP; a new claim folder: claimpack start FOLDER",
        )


def spellings_in(case: Case) -> tuple[str, ...]:
    """The maker of a claim as it is written, then as the plans within reach write it."""
    from claimpack.core.plans.makers import spellings
    from claimpack.template_files import read_plans

    plan = case.assessment.plan
    return spellings(case.claim.maker, [plan] if plan else read_plans(case.places))


def _from_folder(world: World, path: Path, plans: Sequence[Path] | None, day: dt.date) -> Case:
    from claimpack.evidence.originals import read_original
    from claimpack.evidence.pictures.exif import taken_at
    from claimpack.folder.claim_folder import read_claim_folder
    from claimpack.template_files import Places

    folder: ClaimFolder = read_claim_folder(path)
    shop = the_shop(world, folder.path)
    places = Places(named=tuple(plans or ()), claim=folder.path, shop=shop.folder)

    def file(name: str) -> Path:
        return read_original(folder.path, name)

    taken = {photo.file: taken_at(file(photo.file), photo.file) for photo in folder.claim.photos}
    circumstances = circumstances_of(folder.claim, shop, day, taken)
    assessment = assessed(folder.claim, places, day, circumstances)
    return Case(folder.claim, file, folder.unlisted, None, shop, places, circumstances, assessment)


def from_book(
    world: World,
    shop: Shop,
    number: str,
    plans: Sequence[Path] | None,
    day: dt.date,
    *,
    only_looks: bool = False,
) -> Case:
    """A claim of the book, assessed on a day under the plans within reach; another shop's only to look at.

    Raises:
        ClaimpackError: the claim or a plan cannot be read; or the claim is another shop's.
    """
    from claimpack.commands.desk.say import Say
    from claimpack.core.judging.assessment import assess
    from claimpack.core.judging.conditions.missing_items import files_lacking
    from claimpack.template_files import Places, plans_for

    book = the_book(world, shop)
    entry = book.get(number)
    whose = entry.standing.shop
    if whose != shop.settings.id:
        if not only_looks:
            raise not_ours(shop, number, whose)
        theirs = world_of(world, shop, whose)
        here = "" if theirs else "; it is judged here by this one's plans and prices, and its terms are not known"
        Say(world).note_once(f"Claim {number} is {shop_said(whose)}{here}.")
        if theirs:
            shop = the_shop(theirs)
    places = Places(named=tuple(plans or ()), shop=shop.folder)
    vault = the_vault(world, shop)
    hashes = {kept.path: kept.sha256 for kept in entry.files}

    def file(name: str) -> Path:
        if name not in hashes:
            lacking = files_lacking(entry.claim, [name])[0]
            raise BadInput(f"claim {number} names {name}, which a packet has to show", str(lacking.why))
        # Whoever wants one of them wants most of them, and from a store they come several at once.
        vault.bring(hashes.values())
        return vault.find(hashes[name], name)

    read = plans_for(entry.claim, places, entry.summary.plan)
    circumstances = circumstances_in_book(entry, shop, day, None if plans else read)
    assessment = assess(entry.claim, read, day, circumstances)
    return Case(entry.claim, file, (), entry, shop, places, circumstances, assessment)


def circumstances_of(claim: Claim, shop: Shop, day: dt.date, taken: dict[str, dt.datetime | None]) -> Circumstances:
    """What an assessment goes by beside claim, plan and day, at this shop's prices."""
    from claimpack.core.judging.assessment import Circumstances

    return Circumstances(taken=taken, retail=shop.settings.retail(claim.dates.repaired or day))


def circumstances_in_book(entry: Entry, shop: Shop, day: dt.date, plans: Sequence[Plan] | None = None) -> Circumstances:
    """The same for a claim of the book, from the files that the book keeps of it, and from where it stands.

    Args:
        entry: the claim as the book holds it.
        shop: the shop.
        day: the day it is.
        plans: those whose hold the book goes by; None for what its plan would say, judged anew.
    """
    from claimpack.core.holding.hold import hold_in_force
    from claimpack.core.judging.conditions.missing_items import not_kept

    claim, standing, known = entry.claim, entry.standing, entry.summary
    kept = {file.path: file.taken for file in entry.files}
    taken = {photo.file: kept.get(photo.file) for photo in claim.photos}
    by_id = {plan.id: plan for plan in plans or ()}
    in_book = {
        "filed": standing.filed,
        "first_filed": standing.first_filed,
        "paid": standing.paid_on,
        "anyway": standing.anyway,
        "not_kept": not_kept(claim, kept),
        "hold": None if plans is None else hold_in_force(known.plan, known.hold, by_id),
    }
    return circumstances_of(claim, shop, day, taken).model_copy(update=in_book)


def assessed(claim: Claim, places: Places, day: dt.date, circumstances: Circumstances) -> Assessment:
    """A claim assessed under the plans within reach."""
    from claimpack.core.judging.assessment import assess
    from claimpack.template_files import plans_for

    return assess(claim, plans_for(claim, places), day, circumstances)
