"""`claimpack part`: parts used in a repair, and failed parts that are kept."""

from __future__ import annotations

from enum import StrEnum
from typing import TYPE_CHECKING, Annotated, Any

from claimpack.commands.desk.options import BookClaim, Json, Today
from claimpack.commands.line.declared import Argument, Context, Family, Option

if TYPE_CHECKING:
    from collections.abc import Sequence

    from claimpack.commands.desk.say import Say
    from claimpack.core.claims.claim import Claim
    from claimpack.core.facts.lines import HeldPart, Part

part_app = Family(help="Write down parts used, and failed parts that are kept.")
"""The commands about parts."""


class Source(StrEnum):
    """Where a part came from; the maker sends some at no charge."""

    stock = "stock"
    maker = "maker"


class Payer(StrEnum):
    """Who pays."""

    maker = "maker"
    owner = "owner"
    shop = "shop"


ForFailure = Annotated[
    int, Option("--failure", min=1, metavar="N", help="For which of several failures; the first is 1.")
]
"""Which failure of the claim a line is for."""

_ADDED = {
    "number": "NUMBER",
    "name": "NAME",
    "quantity": "--quantity",
    "unit_cost": "--cost",
    "list_price": "--list-price",
    "core": "--core",
    "core_returned": "--core-returned",
}
_HELD = {"part": "PART", "number": "--number", "serial": "--serial", "shelf": "--shelf", "since": "--since"}


@part_app.command("add")
def add_part(
    context: Context,
    claim: BookClaim,
    part_number: Annotated[str, Argument(metavar="NUMBER", help="The part's number.")],
    name: Annotated[
        str,
        Argument(metavar="NAME", help="What it is, as in 'ignition coil'; default: as the parts list says."),
    ] = "",
    quantity: Annotated[str, Option(help="How many, or how much.")] = "1",
    cost: Annotated[
        str,
        Option(metavar="AMOUNT", help="What one costs; default: as the parts list says."),
    ] = "",
    source: Annotated[Source, Option(help="maker: sent by the maker at no charge.")] = Source.stock,
    payer: Annotated[Payer, Option(help="Who pays for it.")] = Payer.maker,
    list_price: Annotated[str, Option("--list-price", metavar="AMOUNT", help="What the maker sells one for.")] = "",
    core: Annotated[str, Option(metavar="AMOUNT", help="The deposit on one until the old one is back.")] = "",
    core_returned: Annotated[
        str, Option("--core-returned", metavar="DATE", help="The day the old one went back.")
    ] = "",
    failure: ForFailure = 1,
    today: Today = "",
    json: Json = False,
) -> int:
    """Add a part that was used."""
    from claimpack.commands.desk.desk import Desk
    from claimpack.commands.desk.one_claim import must_have_failure, number_of
    from claimpack.commands.desk.say import Say
    from claimpack.commands.typed.parts_list import looked_up, must_have_a_name
    from claimpack.core.claims.days_ahead import refuse_days_ahead, written_days_ahead
    from claimpack.core.claims.parts_list_row import differs, filled_in
    from claimpack.core.facts.keys import record_from
    from claimpack.core.facts.lines import Part
    from claimpack.core.shelf.same_part import number_twice

    desk = Desk(context.obj, today)
    ahead = written_days_ahead([("parts.core_returned", core_returned)], desk.day)
    refuse_days_ahead(ahead, desk.day, "part add", {"parts.core_returned": "--core-returned"})
    # before anything is asked for: the parts list may know name and price
    listed = looked_up(desk, number_of(claim), part_number)
    keys: dict[str, Any] = {"number": part_number, "name": name, "quantity": quantity, "unit_cost": cost}
    keys |= {"list_price": list_price, "core": core, "core_returned": core_returned, "failure": failure}
    keys = filled_in({**keys, "source": source.value, "payer": payer.value}, listed)
    must_have_a_name(keys, "NAME")
    used = record_from(Part, {key: value for key, value in keys.items() if value != ""}, "part add", _ADDED)
    with desk.changing(number_of(claim)) as changing:
        must_have_failure(changing.claim, failure)
        parts = (*changing.claim.parts, used)
        changing.keep(changing.claim.model_copy(update={"parts": parts}), why=f"part {used.number} {used.name}")
    say = Say(context.obj)
    if json:
        say.document({"claim": claim, **_as_json(len(parts), used)})
        return 0
    plan = desk.plan_of(changing.claim)
    _, number, _, count, _, price, pays = _row(
        len(parts), used, plan.currency if plan else changing.claim.currency or ""
    )
    say.answer(f"{claim}: {used.name}{f' ({number})' if number else ''}, {count} x {price}, {pays}")
    for told in (*number_twice(claim, parts), differs(used, listed)):
        if told:
            say.note(told)
    # a cost of 0 that was typed is meant
    if not used.unit_cost and source is Source.stock and not cost:
        say.note("No cost was given, so it is priced at 0; say it with --cost AMOUNT.")
    return 0


@part_app.command("list")
def list_parts(context: Context, claim: BookClaim, json: Json = False) -> int:
    """List the parts used, and those that are kept."""
    from claimpack.commands.desk.desk import Desk
    from claimpack.commands.desk.one_claim import number_of
    from claimpack.commands.desk.say import Say

    say = Say(context.obj)
    found = Desk(context.obj).book.get(number_of(claim)).claim
    if json:
        parts = [_as_json(place, used) for place, used in enumerate(found.parts, start=1)]
        say.document({"claim": claim, "parts": parts, "held": [_held_json(n, found) for n in _places(found)]})
        return 0
    if found.parts:
        _tell_parts(say, found.parts)
    if found.held:
        say.heading("Held for the maker")
        _tell_held(say, found.held)
    if not found.parts and not found.held:
        say.note(f"No part yet: claimpack part add {claim} NUMBER NAME")
    return 0


@part_app.command("remove")
def remove_part(
    context: Context,
    claim: BookClaim,
    place: Annotated[int, Argument(metavar="N", help="Which one, as listed.")],
    json: Json = False,
) -> int:
    """Take a part off the parts used."""
    from claimpack.commands.desk.one_claim import take_off
    from claimpack.commands.desk.say import Say

    used = take_off(context.obj, claim, place, "parts", "name")
    say = Say(context.obj)
    if json:
        say.document({"claim": claim, "removed": _as_json(place, used)})
    else:
        say.answer(f"{claim}: {used.name} removed")
    return 0


@part_app.command("hold")
def hold_part(
    context: Context,
    claim: BookClaim,
    name: Annotated[str, Argument(metavar="PART", help="What it is, as in 'short block'.")],
    number: Annotated[str, Option(help="Its part number.")] = "",
    serial: Annotated[str, Option(help="Its serial number, where it has one.")] = "",
    shelf: Annotated[str, Option(help="Where it is put, as in B3.")] = "",
    drained: Annotated[bool | None, Option("--drained/--not-drained", help="Fuel and oil are out.")] = None,
    boxed: Annotated[bool, Option("--boxed", help="It is in its box.")] = False,
    since: Annotated[str, Option(metavar="DATE", help="Kept since; default: today.")] = "",
    another: Annotated[bool, Option("--another", help="A further one, like one that is already held.")] = False,
    today: Today = "",
    json: Json = False,
) -> int:
    """Keep a failed part for the maker."""
    from claimpack.commands.desk.desk import Desk
    from claimpack.commands.desk.one_claim import number_of
    from claimpack.commands.desk.options import a_date
    from claimpack.commands.desk.say import Say
    from claimpack.core.claims.days_ahead import refuse_days_ahead, written_days_ahead
    from claimpack.core.facts.keys import record_from
    from claimpack.core.facts.lines import HeldPart
    from claimpack.core.shelf.same_part import must_be_another

    desk, say = Desk(context.obj, today), Say(context.obj)
    day = a_date(since, "--since") if since else desk.day
    ahead = written_days_ahead([("held.since", since)], desk.day)
    refuse_days_ahead(ahead, desk.day, "part hold", {"held.since": "--since"})
    keys = {"part": name, "number": number, "serial": serial, "shelf": shelf, "drained": drained, "boxed": boxed}
    kept = record_from(HeldPart, {**keys, "since": day}, "part hold", _HELD)
    with desk.changing(number_of(claim)) as changing:
        must_be_another(changing.claim, changing.entry.standing, kept, another=another)
        held = (*changing.claim.held, kept)
        changing.keep(changing.claim.model_copy(update={"held": held}), why=f"{kept.part} held")
    # the part just put on is the last one
    place, cautions = len(held), desk.assess(desk.book.get(changing.claim.number)).tags[-1].cautions
    if json:
        say.document({"claim": claim, **_held_json(place, changing.claim), "cautions": list(cautions)})
        return 0
    say.answer(f"{claim}/{place}: {kept.part} held since {day}{f', shelf {kept.shelf}' if kept.shelf else ''}")
    for caution in cautions:
        say.item(say.mark("todo"), caution)
    say.note(f"Print its tag: claimpack tag {claim} --part {place}")
    return 0


def _places(claim: Claim) -> range:
    return range(1, len(claim.held) + 1)


def _row(place: int, used: Part, currency: str) -> tuple[str, ...]:
    from claimpack.core.values.money import plain, unit_price

    came = "sent by the maker" if used.source == "maker" else unit_price(used.unit_cost, currency)
    return str(place), used.number, used.name, plain(used.quantity), "x", came, f"{used.payer} pays"


def _tell_parts(say: Say, parts: Sequence[Part]) -> None:
    """The parts used, in columns; where there is little room the number gives way."""
    from claimpack.commands.screen.columns import ScreenColumn, tell_columns
    from claimpack.core.values.money import grouped, plain

    columns = [
        ScreenColumn("", [str(place) for place in range(1, len(parts) + 1)], right=True),
        ScreenColumn("Number", [used.number for used in parts], lesser=1, most=18),
        ScreenColumn("Part", [used.name for used in parts], most=_widest_name(say)),
        ScreenColumn("Count", [plain(used.quantity) for used in parts], right=True),
        ScreenColumn(
            "Each", ["from maker" if used.source == "maker" else grouped(used.unit_cost) for used in parts], right=True
        ),
        ScreenColumn("Pays", [used.payer for used in parts]),
    ]
    tell_columns(say, columns, indent=0)


def _tell_held(say: Say, held: Sequence[HeldPart]) -> None:
    """The parts that are kept, in columns; where there is little room number, day and box give way."""
    from claimpack.commands.screen.columns import ScreenColumn, tell_columns

    drained = {True: "drained", False: "NOT drained", None: ""}
    columns = [
        ScreenColumn("", [str(place) for place in range(1, len(held) + 1)], right=True),
        ScreenColumn("Number", [kept.number for kept in held], lesser=3, most=18),
        ScreenColumn("Part", [kept.part for kept in held], most=_widest_name(say)),
        ScreenColumn("Shelf", [kept.shelf or "no shelf" for kept in held], most=12),
        ScreenColumn("Since", [str(kept.since or "") for kept in held], lesser=2),
        ScreenColumn("Box", ["boxed" if kept.boxed else "" for kept in held], lesser=1),
        ScreenColumn("Fuel and oil", [drained[kept.drained] for kept in held]),
    ]
    tell_columns(say, columns, indent=0)


def _widest_name(say: Say) -> int:
    return say.world.width() // 3 - 2


def _as_json(place: int, used: Part) -> dict[str, Any]:
    return {"n": place, **used.model_dump(mode="json")}


def _held_json(place: int, claim: Claim) -> dict[str, Any]:
    return {"n": place, "code": f"{claim.number}/{place}", **claim.held[place - 1].model_dump(mode="json")}
