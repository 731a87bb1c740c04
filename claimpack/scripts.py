"""What scripts use: a claim read, judged and priced, its packet drawn, a shop's book opened; nothing is printed."""

from __future__ import annotations

import datetime as dt
import io
from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from claimpack.book.book import Book
    from claimpack.commands.desk.gather import Case
    from claimpack.commands.desk.world import World
    from claimpack.core.claims.claim import Claim
    from claimpack.core.judging.assessment import Assessment


def read_claim(folder: str | Path) -> Claim:
    """The claim of a claim folder.

    Raises:
        ClaimpackError: there is none, or it cannot be read; `what`, `why` and `do` say it.
    """
    from claimpack.folder.claim_folder import read_claim_folder

    return read_claim_folder(Path(folder)).claim


def judge(claim: str | Path, today: dt.date, *, plans: Sequence[Path] = (), shop: str | Path = ".") -> Assessment:
    """A claim judged and priced on a day, as `claimpack check` does.

    Args:
        claim: a claim folder, or a number in the shop's book.
        today: the day that is today.
        plans: files or folders of plans that come before the shop's and the program's.
        shop: the shop's folder, or one in it.

    Raises:
        ClaimpackError: the claim, the shop or a plan cannot be read.
    """
    return _case(_world(shop), claim, today, plans).assessment


def build(
    claim: str | Path, today: dt.date, *, plans: Sequence[Path] = (), shop: str | Path = ".", limit: str = ""
) -> dict[str, bytes]:
    """A claim's packet, tags and data as `claimpack build` writes them, by file name.

    Args:
        claim: a claim folder, or a number in the shop's book.
        today: the day that is today.
        plans: files or folders of plans that come before the shop's and the program's.
        shop: the shop's folder, or one in it.
        limit: the size the packet must fit, as in `5MB`; empty for none.

    Raises:
        ClaimpackError: the claim, a picture or a paper cannot be used, or the packet cannot be made to fit.
    """
    from claimpack.commands.desk.say import Say
    from claimpack.commands.folder.making import claim_data, make_tags
    from claimpack.commands.folder.packet_making import make_packet_and_form

    world = _world(shop)
    case = _case(world, claim, today, plans)
    packet, form = make_packet_and_form(case, Say(world), "", "", limit, None, None, None)
    drawn = {"packet.pdf": packet.pdf, "tag.pdf": make_tags(case, "").pdf, "form.pdf": form.pdf if form else b""}
    return {name: content for name, content in drawn.items() if content} | {"claim.json": claim_data(case)}


def open_book(shop: str | Path) -> Book:
    """The book of a shop: `numbers()`, `get(number)`, `history(number)`, `claims()`; close it with `engine.dispose()`.

    Raises:
        NotFound: there is no shop, or no book in it.
    """
    from claimpack.book.opening import open_book as opened
    from claimpack.commands.desk.gather import the_shop

    found = the_shop(_world(shop))
    return opened(found.book_place(), shop=found.settings.id)


def _world(shop: str | Path) -> World:
    """A world whose streams nobody sees."""
    from claimpack.commands.desk.world import World

    nobody = io.StringIO
    return World(stdin=nobody(), stdout=nobody(), stderr=nobody(), environ={}, folder=Path(shop).absolute())


def _case(world: World, claim: str | Path, today: dt.date, plans: Sequence[Path]) -> Case:
    from claimpack.commands.desk.gather import gather

    place = Path(claim).absolute()
    named = str(place) if place.exists() else str(claim)
    return gather(world, named, [Path(plan).absolute() for plan in plans], today.isoformat())
