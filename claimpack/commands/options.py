"""Options that several commands share, so that they read the same everywhere."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import Annotated

import typer

ClaimArgument = Annotated[str, typer.Argument(metavar="CLAIM", help="A claim folder, or a claim's number in the book.")]
BookClaim = Annotated[str, typer.Argument(metavar="CLAIM", help="The claim's number in the book.")]
Yes = Annotated[bool, typer.Option("--yes", help="Do not ask.")]
Json = Annotated[bool, typer.Option("--json", help="Answer with one JSON document on stdout.")]
Today = Annotated[
    str, typer.Option("--today", metavar="DATE", help="Answer as if it were this day.", show_default=False)
]
Plans = Annotated[
    list[Path] | None,
    typer.Option(
        "--plans",
        metavar="PATH",
        help="Look for coverage plans here first (file or folder, repeatable).",
        show_default=False,
    ),
]
Layout = Annotated[
    str, typer.Option("--layout", metavar="ID", help="The packet's layout: an id, or a file.", show_default=False)
]
Stock = Annotated[
    str, typer.Option("--stock", metavar="ID", help="What tags are printed on: an id, or a file.", show_default=False)
]
Limit = Annotated[
    str, typer.Option("--limit", metavar="SIZE", help="Make the packet fit, as in 5MB.", show_default=False)
]
Sign = Annotated[bool, typer.Option("--sign", help="Sign it with the shop's key (sign in shop.toml).")]
Originals = Annotated[
    bool | None,
    typer.Option(
        "--originals/--no-originals",
        help="Attach photos and papers themselves, where the limit allows; default: the shop's way.",
        show_default=False,
    ),
]
On = Annotated[
    str, typer.Option("--on", metavar="DATE", help="The day it happened; default: today.", show_default=False)
]
Because = Annotated[str, typer.Option("--because", metavar="TEXT", help="Why, for the history.", show_default=False)]
Shot = Annotated[
    str, typer.Option("--shot", metavar="TEXT", help="What it shows, as in 'serial plate'.", show_default=False)
]
Caption = Annotated[
    str, typer.Option("--caption", metavar="TEXT", help="A sentence printed below it.", show_default=False)
]
Purchased = Annotated[
    str, typer.Option("--purchased", metavar="DATE", help="Bought on, as in 2025-03-14.", show_default=False)
]
Delivered = Annotated[
    str, typer.Option("--delivered", metavar="DATE", help="Delivered on, if on another day.", show_default=False)
]
Registered = Annotated[
    str, typer.Option("--registered", metavar="DATE", help="Registered with the maker on.", show_default=False)
]
NeverRegistered = Annotated[bool, typer.Option("--never-registered", help="Not registered with the maker.")]
Presented = Annotated[
    str, typer.Option("--presented", metavar="DATE", help="Brought in on; default: today.", show_default=False)
]
Failed = Annotated[str, typer.Option("--failed", metavar="DATE", help="Stopped working on.", show_default=False)]
MeterReading = Annotated[str, typer.Option("--hours", metavar="HOURS", help="Hour-meter reading.", show_default=False)]
SoldIn = Annotated[str, typer.Option("--sold-in", metavar="PLACE", help="Where sold, as in US-CA.", show_default=False)]
NoMeter = Annotated[bool, typer.Option("--no-meter", help="The unit has no hour meter.")]

OPTION_OF: Mapping[str, str] = {
    "failure.complaint": "--complaint",
    "maker": "--maker",
    "unit.model": "--model",
    "unit.kind": "--kind",
    "unit.serials.@unit": "--serial",
    "unit.serials.@engine": "--engine-serial",
    "unit.use": "--use",
    "unit.meter": "--hours",
    "unit.hours": "--hours",
    "unit.sold_in": "--sold-in",
    "dates.purchased": "--purchased",
    "dates.delivered": "--delivered",
    "proof.kind": "--proof",
    "dates.registered": "--registered",
    "dates.never_registered": "--never-registered",
    "owner.first_owner": "--first-owner",
    "owner.name": "--owner",
    "owner.phone": "--phone",
    "owner.email": "--email",
    "dates.failed": "--failed",
    "dates.presented": "--presented",
    "failure.component": "--component",
}
"""The option that gives each fact of a claim, in the order a conversation asks for them."""


def as_given(**options: str | bool | Sequence[Path] | None) -> list[str]:
    """Options as they are typed once more, by their names; those that were not given are left out."""
    words: list[str] = []
    for name, value in options.items():
        if isinstance(value, bool):
            words += [f"--{name}"] if value else []
            continue
        for each in [value] if isinstance(value, str) else value or ():
            words += [f"--{name}", str(each)] if each else []
    return words
