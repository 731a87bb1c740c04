"""Options that several commands share, and what some of them mean."""

from __future__ import annotations

import datetime as dt
import re
from collections.abc import Mapping, Sequence
from contextlib import suppress
from enum import StrEnum
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

from claimpack.commands.line.declared import Argument, Option
from claimpack.errors import BadInput

if TYPE_CHECKING:
    from claimpack.commands.desk.world import World

ClaimArgument = Annotated[str, Argument(metavar="CLAIM", help="A claim folder, or a claim's number in the book.")]
BookClaim = Annotated[str, Argument(metavar="CLAIM", help="The claim's number in the book.")]
Yes = Annotated[bool, Option("--yes", help="Do not ask.")]
Json = Annotated[bool, Option("--json", help="Answer with one JSON document on stdout.")]
Today = Annotated[str, Option("--today", metavar="DATE", help="Answer as if it were this day.")]
Plans = Annotated[
    list[Path] | None,
    Option("--plans", metavar="PATH", help="Look for coverage plans here first (file or folder, repeatable)."),
]
Layout = Annotated[str, Option("--layout", metavar="ID", help="The packet's layout: an id, or a file.")]
Stock = Annotated[str, Option("--stock", metavar="ID", help="What tags are printed on: an id, or a file.")]
Limit = Annotated[str, Option("--limit", metavar="SIZE", help="Make the packet fit, as in 5MB.")]


class Reader(StrEnum):
    """Whom a packet is for."""

    MAKER = "maker"
    OWNER = "owner"
    SHOP = "shop"


WrittenFor = Annotated[
    Reader | None,
    Option(
        "--for",
        metavar="maker|owner|shop",
        help="Who it is for: the owner sees no shop prices, the shop its own doubts too; default: the maker.",
    ),
]
MakersForm = Annotated[
    str,
    Option(
        "--form",
        metavar="ID",
        help="The maker's own form in front: an id, a file, or none; default: the maker's in shop.toml.",
    ),
]
Sign = Annotated[bool, Option("--sign", help="Sign it with the shop's key (sign in shop.toml).")]
Originals = Annotated[
    bool | None,
    Option(
        "--originals/--no-originals",
        help="Attach photos and papers themselves, where the limit allows; default: the shop's way.",
    ),
]
On = Annotated[str, Option("--on", metavar="DATE", help="The day it happened; default: today.")]
Because = Annotated[str, Option("--because", metavar="TEXT", help="Why, for the history.")]
Shot = Annotated[str, Option("--shot", metavar="TEXT", help="What it shows, as in 'serial plate'.")]
Caption = Annotated[str, Option("--caption", metavar="TEXT", help="A sentence printed below it.")]
Purchased = Annotated[str, Option("--purchased", metavar="DATE", help="Bought on, as in 2025-03-14.")]
Delivered = Annotated[str, Option("--delivered", metavar="DATE", help="Delivered on, if on another day.")]
Registered = Annotated[str, Option("--registered", metavar="DATE", help="Registered with the maker on.")]
NeverRegistered = Annotated[bool, Option("--never-registered", help="Not registered with the maker.")]
Presented = Annotated[str, Option("--presented", metavar="DATE", help="Brought in on; default: today.")]
Failed = Annotated[str, Option("--failed", metavar="DATE", help="Stopped working on.")]
MeterReading = Annotated[str, Option("--hours", metavar="HOURS", help="Hour-meter reading.")]
SoldIn = Annotated[str, Option("--sold-in", metavar="PLACE", help="Where sold, as in US-CA.")]
Case = Annotated[
    str,
    Option("--case", metavar="KIND", help="stock, part, campaign or goodwill; a plain repair without it."),
]
OfCampaign = Annotated[str, Option("--campaign", metavar="ID", help="With --case campaign: which one.")]
Invoiced = Annotated[
    str,
    Option("--invoiced", metavar="DATE", help="A stock unit: invoiced to the dealer on."),
]
Built = Annotated[str, Option("--built", metavar="DATE", help="The day it was built.")]
Resold = Annotated[str, Option("--resold", metavar="DATE", help="A second owner bought it on.")]
Transferred = Annotated[
    str,
    Option("--transferred", metavar="DATE", help="The maker was told of that on."),
]
PartNumber = Annotated[str, Option("--part-number", metavar="NUMBER", help="With --case part: its number.")]
PartName = Annotated[str, Option("--part-name", metavar="NAME", help="With --case part: what it is.")]
PartSerial = Annotated[str, Option("--part-serial", metavar="SERIAL", help="With --case part: its own serial.")]
Sold = Annotated[str, Option("--sold", metavar="DATE", help="With --case part: the day on its receipt.")]
Fitted = Annotated[str, Option("--fitted", metavar="DATE", help="With --case part: the day you fitted it.")]
NeverFitted = Annotated[bool, Option("--never-fitted", help="With --case part: you did not fit it.")]
OtherMeters = Annotated[
    list[str] | None,
    Option("--meter", metavar="KIND=READING", help="Another meter, as in cycles=4100, or cycles=none (repeatable)."),
]
ModelYear = Annotated[str, Option("--model-year", metavar="YEAR", help="The maker's model year.")]
Use = Annotated[str, Option(help="household, professional, rental, or a word of the plan.")]
NoMeter = Annotated[bool, Option("--no-meter", help="The unit has no hour meter.")]

OPTION_OF: Mapping[str, str] = {
    "case": "--case",
    "campaign": "--campaign",
    "goodwill.because": "--because",
    "part_sold.number": "--part-number",
    "part_sold.name": "--part-name",
    "part_sold.serial": "--part-serial",
    "part_sold.sold": "--sold",
    "part_sold.fitted": "--fitted",
    "part_sold.never_fitted": "--never-fitted",
    "failure.complaint": "--complaint",
    "maker": "--maker",
    "unit.model": "--model",
    "unit.kind": "--kind",
    "unit.serials.@unit": "--serial",
    "unit.serials.@engine": "--engine-serial",
    "unit.use": "--use",
    "unit.model_year": "--model-year",
    "unit.meter": "--hours",
    "unit.hours": "--hours",
    "unit.sold_in": "--sold-in",
    "unit.invoiced": "--invoiced",
    "unit.built": "--built",
    "dates.purchased": "--purchased",
    "dates.delivered": "--delivered",
    "proof.kind": "--proof",
    "dates.registered": "--registered",
    "dates.never_registered": "--never-registered",
    "owner.first_owner": "--first-owner",
    "dates.resold": "--resold",
    "dates.transferred": "--transferred",
    "owner.name": "--owner",
    "owner.phone": "--phone",
    "owner.email": "--email",
    "dates.failed": "--failed",
    "dates.presented": "--presented",
    "failure.component": "--component",
}
"""The option that gives each fact of a claim, in the order a conversation asks for them."""


def asks_questions(command: str) -> BadInput:
    """The refusal of `--json` where a command asks its questions one after the other."""
    return BadInput(
        f"{command} asks questions and takes answers, which no JSON document holds",
        do=f"Write the file with every key in it and ask nothing: claimpack {command} … --blank --json",
    )


def the_day(world: World, written: str) -> dt.date:
    """The day written with --today, else the day it is.

    Raises:
        BadInput: what is written is no date.
    """
    return a_date(written, "--today") if written else world.today()


def a_date(written: str, option: str) -> dt.date:
    """A date written on the command line.

    Raises:
        BadInput: it is no date of the calendar in the form 2026-02-05, or of no century that matters.
    """
    day = None
    if re.fullmatch(r"\d{4}-\d\d-\d\d", written, re.ASCII):
        with suppress(ValueError):
            day = dt.date.fromisoformat(written)
    if day:
        return _of_our_time(day, option)
    raise BadInput(
        f"{option}: {written!r} is not a date of the calendar",
        "Dates are written year, month, day, so that nobody can read them two ways.",
        "Write it as in 2026-02-05.",
    )


def _of_our_time(day: dt.date, option: str) -> dt.date:
    from claimpack.core.values.days import of_our_time

    try:
        return of_our_time(day)
    except ValueError as error:
        raise BadInput(f"{option}: {error}", "No repair was made then.", "Correct the year.") from None


def one_meter(hours: str, *, no_meter: bool) -> None:
    """Refuse a reading of a unit that has no hour meter.

    Raises:
        BadInput: both were given.
    """
    if hours and no_meter:
        raise BadInput(
            f"--hours {hours} and --no-meter contradict each other",
            "Without a meter the limits in hours do not count, so only one of them can be right.",
            "Leave one of them out.",
        )


def meters_told(written: Sequence[str] | None) -> list[dict[str, object]]:
    """The keys of each meter told of, as in `cycles=4100`; `none` is a meter the unit does not have.

    Raises:
        BadInput: one has no reading.
    """
    found: list[dict[str, object]] = []
    for each in written or ():
        kind, _, reading = (part.strip() for part in each.partition("="))
        if not (kind and reading):
            raise BadInput(f"--meter: {each!r} tells no reading", do="As in --meter cycles=4100, or cycles=none.")
        found.append({"kind": kind, **({"fitted": False} if reading == "none" else {"value": reading})})
    return found


def as_given(**options: str | bool | Sequence[Path] | Sequence[str] | None) -> list[str]:
    """Options as they are typed once more, by their names; those that were not given are left out."""
    words: list[str] = []
    for name, value in options.items():
        if isinstance(value, bool):
            words += [f"--{name}"] if value else []
            continue
        for each in [value] if isinstance(value, str) else value or ():
            words += [f"--{name}", str(each)] if each else []
    return words
