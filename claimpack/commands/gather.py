"""What commands read before they decide: the claim, the shop, the plans, the day."""

from __future__ import annotations

import datetime as dt
import re
from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING, NamedTuple

from claimpack.errors import BadInput

if TYPE_CHECKING:
    from claimpack.claim_folder import ClaimFolder
    from claimpack.commands.world import World
    from claimpack.core.assessment import Assessment
    from claimpack.shop import Shop
    from claimpack.template_files import Places


class Case(NamedTuple):
    """A claim with everything it is judged by."""

    folder: ClaimFolder
    shop: Shop
    places: Places
    assessment: Assessment


def the_day(world: World, written: str) -> dt.date:
    """The day written with --today, else the day it is.

    Raises:
        BadInput: what is written is no date.
    """
    return a_date(written, "--today") if written else world.today()


def a_date(written: str, option: str) -> dt.date:
    """A date written on the command line.

    Raises:
        BadInput: it is no date of the calendar in the form 2026-02-05.
    """
    try:
        if not re.fullmatch(r"\d{4}-\d\d-\d\d", written, re.ASCII):
            raise ValueError("form")
        return dt.date.fromisoformat(written)
    except ValueError:
        raise BadInput(
            f"{option}: {written!r} is not a date of the calendar",
            "Dates are written year, month, day, so that nobody can read them two ways.",
            "Write it as in 2026-02-05.",
        ) from None


def gather(world: World, claim: str, plans: Sequence[Path] | None, today: str) -> Case:
    """Read a claim and its plans, and assess it.

    Raises:
        ClaimpackError: the claim, the shop or a plan cannot be read.
    """
    from claimpack.claim_folder import read_claim_folder
    from claimpack.core.assessment import assess
    from claimpack.shop import find_shop
    from claimpack.template_files import Places, read_plans

    folder = read_claim_folder(world.folder / claim)
    shop = find_shop(folder.path, world.environ.get("CLAIMPACK_SHOP", ""))
    places = Places(named=tuple(plans or ()), claim=folder.path, shop=shop.folder)
    day = the_day(world, today)
    assessment = assess(folder.claim, read_plans(places), day, taken=_taken(folder))
    return Case(folder, shop, places, assessment)


def _taken(folder: ClaimFolder) -> dict[str, dt.datetime | None]:
    from claimpack.evidence.originals import read_original
    from claimpack.evidence.photos import taken_at

    return {photo.file: taken_at(read_original(folder.path, photo.file)) for photo in folder.claim.photos}
