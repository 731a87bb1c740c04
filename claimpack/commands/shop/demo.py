"""`claimpack shop demo`: an invented busy shop, to see a Monday morning in before there is one of one's own."""

from __future__ import annotations

from datetime import date
from pathlib import Path
from random import Random
from shlex import quote
from typing import TYPE_CHECKING, Annotated

from claimpack.commands.desk.options import Json, Today
from claimpack.commands.line.declared import Argument, Context
from claimpack.core.values.numbers_said import how_many
from claimpack.errors import BadInput

if TYPE_CHECKING:
    from claimpack.book.tables.entries import Entry
    from claimpack.book.tables.rows import KeptFile
    from claimpack.commands.desk.desk import Desk
    from claimpack.commands.desk.say import Say
    from claimpack.commands.desk.world import World
    from claimpack.core.events.events import NewEvent
    from claimpack.demo.machines import MadeUp

_SEED = 40


def demo(
    context: Context,
    folder: Annotated[Path, Argument(metavar="DIR", help="The folder to make.")],
    today: Today = "",
    json: Json = False,
) -> int:
    """Make an invented busy shop to try everything in: 120 claims over 16 months, three makers, parts on shelves."""
    from claimpack.commands.desk.options import the_day
    from claimpack.commands.desk.say import Say
    from claimpack.files import folder_at_once

    world: World = context.obj
    say, home, day = Say(world), world.path(folder), the_day(world, today)
    if home.exists():
        raise BadInput(f"{folder} already exists", "Invented claims do not go among others.", "Name a new folder.")
    with folder_at_once(home) as place:
        count = _furnish(world.but(folder=place, environ=_without_shop(world)), say, place, day)
    if json:
        say.document({"shop": str(home), "claims": count, "today": day.isoformat()})
        return 0
    say.answer(f"{folder} is an invented shop now, with {how_many(count, 'claim')}: try anything in it.")
    say.note(f"Monday morning: cd {quote(str(folder))}; claimpack pending")
    return 0


def _without_shop(world: World) -> dict[str, str]:
    """The environment without the shop that it names: the claims go into the new one alone."""
    return {name: value for name, value in world.environ.items() if name != "CLAIMPACK_SHOP"}


def _furnish(world: World, say: Say, place: Path, day: date) -> int:
    """Settings, plans, parts lists, and every claim with what became of it; how many claims there are."""
    from claimpack.commands.desk.desk import Desk
    from claimpack.commands.shop.making import make_shop
    from claimpack.demo.machines import COUNT, drawn_claims, last_day, own_files
    from claimpack.files import write_together
    from claimpack.folders import make_folders

    files = own_files()
    make_shop(place, files.pop("shop.toml"))
    make_folders({(place / name).parent for name in files})
    write_together({place / name: content for name, content in files.items()})
    # Chance with a seed of its own for each claim: the shop is much the same on whatever day it is made.
    desk = Desk(world, last_day(day).isoformat())
    coming: list[tuple[Entry, tuple[NewEvent, ...]]] = []
    with say.progress("Inventing claims", COUNT) as advance:
        for drawn in drawn_claims(desk.day):
            coming.append(_coming(desk, drawn, Random(f"{_SEED} {len(coming)}")))  # noqa: S311
            advance()
    # all of them in one transaction, each with everything that became of it
    with desk.changing_all([], coming):
        pass
    # before the folder is renamed
    desk.book.engine.dispose()
    return len(coming)


def _coming(desk: Desk, drawn: MadeUp, fate: Random) -> tuple[Entry, tuple[NewEvent, ...]]:
    """A claim with its files kept, judged, and what became of it."""
    from claimpack.book.tables.entries import Entry
    from claimpack.core.claims.claim import Claim
    from claimpack.core.events.standing import Standing
    from claimpack.core.judging.claim_summary import ClaimSummary, summary_of
    from claimpack.demo.lives import life_of
    from claimpack.demo.pictures import picture_of, receipt_of

    # pictures by the claim's number, so that a shop made again has the same ones
    draw = Random(drawn.keys["number"])  # noqa: S311
    shots = {photo["file"]: photo["shot"] for photo in drawn.keys["photos"]}
    contents = {file: picture_of(shot, drawn.keys, drawn.story, draw) for file, shot in shots.items()}
    contents["papers/receipt.pdf"] = receipt_of(drawn.keys)
    files = tuple(_kept(desk, name, content) for name, content in contents.items())
    claim = Claim.model_validate(drawn.keys)
    assessment = desk.assess(Entry(claim, 1, Standing(), ClaimSummary(), files))
    life = life_of(assessment, fate, desk.day)
    return Entry(life.claim, 1, life.standing, summary_of(assessment, desk.mark_of_plans), files), life.events


def _kept(desk: Desk, name: str, content: bytes) -> KeptFile:
    """A file of a claim, kept in the vault."""
    from claimpack.book.tables.rows import KeptFile
    from claimpack.evidence.pictures.likeness import look_at

    sha256 = desk.vault.keep_content(content)
    if not name.endswith(".jpg"):
        return KeptFile(name, sha256, len(content))
    seen = look_at(desk.vault.place(sha256), name)
    return KeptFile(name, sha256, len(content), seen.taken, seen.likeness)
