"""Options that several commands share, and what file names given with them mean: a path, or - for a stream."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

if TYPE_CHECKING:
    from claimpack.commands.desk.world import World


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
MakersForm = Annotated[
    str,
    typer.Option(
        "--form",
        metavar="ID",
        help="The maker's own form in front: an id, a file, or none; default: the maker's in shop.toml.",
        show_default=False,
    ),
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
Case = Annotated[
    str,
    typer.Option(
        "--case",
        metavar="KIND",
        help="stock, part, campaign or goodwill; a plain repair without it.",
        show_default=False,
    ),
]
OfCampaign = Annotated[
    str, typer.Option("--campaign", metavar="ID", help="With --case campaign: which one.", show_default=False)
]
Invoiced = Annotated[
    str,
    typer.Option("--invoiced", metavar="DATE", help="A stock unit: invoiced to the dealer on.", show_default=False),
]
Built = Annotated[str, typer.Option("--built", metavar="DATE", help="The day it was built.", show_default=False)]
Resold = Annotated[
    str, typer.Option("--resold", metavar="DATE", help="A second owner bought it on.", show_default=False)
]
Transferred = Annotated[
    str,
    typer.Option("--transferred", metavar="DATE", help="The maker was told of that on.", show_default=False),
]
PartNumber = Annotated[
    str, typer.Option("--part-number", metavar="NUMBER", help="With --case part: its number.", show_default=False)
]
PartName = Annotated[
    str, typer.Option("--part-name", metavar="NAME", help="With --case part: what it is.", show_default=False)
]
PartSerial = Annotated[
    str, typer.Option("--part-serial", metavar="SERIAL", help="With --case part: its own serial.", show_default=False)
]
Sold = Annotated[
    str, typer.Option("--sold", metavar="DATE", help="With --case part: the day on its receipt.", show_default=False)
]
Fitted = Annotated[
    str, typer.Option("--fitted", metavar="DATE", help="With --case part: the day you fitted it.", show_default=False)
]
NeverFitted = Annotated[bool, typer.Option("--never-fitted", help="With --case part: you did not fit it.")]
OtherMeters = Annotated[
    list[str] | None,
    typer.Option(
        "--meter",
        metavar="KIND=READING",
        help="Another meter, as in cycles=4100, or cycles=none (repeatable).",
        show_default=False,
    ),
]
ModelYear = Annotated[
    str, typer.Option("--model-year", metavar="YEAR", help="The maker's model year.", show_default=False)
]
Use = Annotated[str, typer.Option(help="household, professional, rental, or a word of the plan.", show_default=False)]
NoMeter = Annotated[bool, typer.Option("--no-meter", help="The unit has no hour meter.")]

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


def meters_told(written: Sequence[str] | None) -> list[dict[str, object]]:
    """The keys of each meter told of, as in `cycles=4100`; `none` is a meter the unit does not have.

    Raises:
        BadInput: one has no reading.
    """
    from claimpack.errors import BadInput

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


STANDARD_OUTPUT = "-"


def ending_of(out: Path | None, endings: tuple[str, ...], why: str, option: str = "--out") -> str:
    """The ending of the name given for a file, in small letters; empty where none is given.

    Args:
        out: the name, if one is given.
        endings: those that there are, as in `.pdf`.
        why: what the file is for, for the message.
        option: what the name was given with.

    Raises:
        BadInput: the name ends in none of them, and is not that of standard output.
    """
    from claimpack.errors import BadInput

    if out is None or str(out) == STANDARD_OUTPUT:
        return ""
    if out.suffix.casefold() in endings:
        return out.suffix.casefold()
    kinds = [f"a {ending[1:].upper()}" for ending in endings]
    is_none = f"neither {' nor '.join(kinds)}" if kinds[1:] else f"not {kinds[0]}"
    raise BadInput(
        f"{option}: {out} is {is_none} file",
        why,
        f"Let the name end in {' or '.join(endings)}.",
    )


def goes_to_stdout(named: Path | None) -> bool:
    """Whether a name is that of standard output."""
    return str(named) == STANDARD_OUTPUT


def answering_beside(
    world: World, named: Path | None, others: object = None, option: str = "--out", *, is_text: bool = False
) -> World:
    """The world to answer in: where a file goes to standard output, everything else that is said goes beside it.

    Args:
        world: the world of the command.
        named: the name given for the file, if one is given.
        others: what else would go to standard output, or to another place in the same run.
        option: what the name was given with.
        is_text: whether the file is text, which a terminal can show.

    Raises:
        BadInput: something else would go there too, or it is a terminal and the file no text.
    """
    from claimpack.errors import BadInput

    if not goes_to_stdout(named):
        return world
    if others:
        raise BadInput(
            f"{option} -: the file goes to standard output, and nothing else can go there with it",
            "Whoever reads it would take the rest for a part of the file.",
            f"Leave out --json and other files, or give {option} the name of a file.",
        )
    if not is_text and world.stdout.isatty():
        raise BadInput(
            f"{option} -: standard output is a terminal, and the file is no text",
            "A terminal would show it as noise.",
            f"Send it to a file or another program, or give {option} a name.",
        )
    return replace(world, stdout=world.stderr)


def read_from(world: World, named: Path) -> Path:
    """The file that a name means; for `-` what comes in on standard input, in a file until the command ends."""
    from tempfile import TemporaryDirectory

    from claimpack.files import write_atomically

    if str(named) != STANDARD_OUTPUT:
        return world.path(named)
    stdin = world.stdin
    content = stdin.buffer.read() if hasattr(stdin, "buffer") else stdin.read().encode()
    held = Path(world.closing.enter_context(TemporaryDirectory(prefix="claimpack-"))) / "standard-input"
    write_atomically(held, content)
    return held


def write_named(world: World, path: Path, content: bytes) -> None:
    """Put a file where it was wanted: in place at once and whole, or to standard output as it is.

    Args:
        world: the world of the command, whose standard output is meant.
        path: the whole path, as the world gives it.
        content: what goes into the file.

    Raises:
        CannotWrite: the folder is not there, or does not take it.
    """
    from claimpack.commands.desk.say import Say
    from claimpack.files import write_atomically

    if path == world.path(STANDARD_OUTPUT):
        Say(world).content(content)
    else:
        write_atomically(path, content)
