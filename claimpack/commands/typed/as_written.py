"""Days and amounts as people of the shop's country write them; what was read is told."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, Any

from claimpack.errors import BadInput

if TYPE_CHECKING:
    from claimpack.commands.desk.world import World

DAY, AMOUNT = "DATE", "AMOUNT"
_AS_IT_IS = {DAY: re.compile(r"\d{4}-\d\d-\d\d", re.ASCII), AMOUNT: re.compile(r"\d+(\.(\d{1,2}|\d{4,}))?", re.ASCII)}
_TO_COME = ("--send-by", "--again", "expires")
"""What says a day to come: without a year it is the next one."""


def as_meant(world: World, kind: str, name: str, written: str, today: str = "", claim: str = "") -> str:
    """What somebody wrote for a day, in ISO 8601, or for an amount, in digits with a point; what is none is left.

    Args:
        world: the world of the command.
        kind: DATE or AMOUNT.
        name: the option or key, for messages.
        written: as it was written.
        today: the day it is, as written; empty for the day it is.
        claim: whose amount it is, for its currency; empty where it is of none, then the shop's counts.

    Raises:
        BadInput: it can be read two ways.
    """
    if not written or _AS_IT_IS[kind].fullmatch(written):
        return written
    from claimpack.commands.desk.say import Say

    try:
        ahead = name.endswith(_TO_COME)
        meant = _day(world, written, today, ahead=ahead) if kind == DAY else _amount(world, written, claim)
    except ValueError as error:
        raise BadInput(f"{name}: {error}") from None
    if meant != written:
        Say(world).note(f"{name}: {written} is {meant}.")
    return meant


def _day(world: World, written: str, today: str, *, ahead: bool) -> str:
    from claimpack.commands.desk.gather import the_shop
    from claimpack.commands.desk.options import the_day
    from claimpack.core.values.typed.days import day_written

    day = day_written(written, the_day(world, today), the_shop(world).settings.dates, ahead=ahead)
    return day.isoformat() if day else written


def _amount(world: World, written: str, claim: str) -> str:
    from claimpack.commands.desk.gather import the_shop
    from claimpack.core.values.typed.amounts import amount_written

    own = _currency_of(world, claim)
    whose = "the claim's" if own else "the shop's"
    return amount_written(written, own or the_shop(world).settings.currency or "", whose)


def _currency_of(world: World, claim: str) -> str:
    """The currency of a claim: its own, or that of its plan; empty where neither is known."""
    from claimpack.commands.desk.gather import is_folder, the_book
    from claimpack.commands.desk.one_claim import number_of

    if claim and is_folder(world, claim):
        return _currency_in_folder(world, claim)
    entry = next(iter(the_book(world).entries([number_of(claim)])), None) if claim else None
    return (entry.standing.currency or entry.claim.currency or entry.summary.currency) if entry else ""


def _currency_in_folder(world: World, claim: str) -> str:
    from claimpack.commands.desk.gather import the_shop
    from claimpack.core.verdict.matching import match
    from claimpack.folder.claim_folder import read_claim_folder
    from claimpack.template_files import Places, read_plans

    folder = read_claim_folder(world.path(claim))
    places = Places(claim=folder.path, shop=the_shop(world, folder.path).folder)
    plan = match(folder.claim, read_plans(places)).plan
    return folder.claim.currency or (plan.currency if plan else "")


def options_as_meant(world: World, params: dict[str, Any], kinds: dict[str, tuple[str, str]]) -> None:
    """The days and amounts among the options of a command, each as it is meant; today's day is the first to be read.

    Args:
        world: the world of the command.
        params: the options by name; changed in place.
        kinds: DATE or AMOUNT, and how the option is written, by its name.
    """
    for name in sorted(kinds, key=lambda name: name != "today"):
        kind, option = kinds[name]
        if isinstance(params.get(name), str):
            today = "" if name == "today" else params.get("today") or ""
            named = params.get("claim") or params.get("claims") or ""
            claim = named if isinstance(named, str) else str(named[0])
            params[name] = as_meant(world, kind, option, params[name], today, claim)
