"""`claimpack campaign`: the makers' campaigns, which units are in them, and which have not come yet."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Any

from claimpack.commands.desk.options import Json, Plans, Today
from claimpack.commands.line.declared import Argument, Context, Family

if TYPE_CHECKING:
    from claimpack.book.tables.entries import Entry
    from claimpack.commands.desk.desk import Desk
    from claimpack.commands.desk.say import Say
    from claimpack.core.plans.campaign import Campaign
    from claimpack.core.plans.plan import Plan

campaign_app = Family(help="Find units in makers' campaigns.")
"""The commands about campaigns."""

# A dealer's list of serials is longer than any counter needs; a file of millions was picked by mistake.
_MOST_SERIALS = 200_000


@campaign_app.command("list")
def list_campaigns(context: Context, plans: Plans = None, today: Today = "", json: Json = False) -> int:
    """List campaigns, and the units of the book that have not come for them yet."""
    from claimpack.commands.desk.desk import Desk
    from claimpack.commands.desk.say import Say
    from claimpack.core.judging.campaigns_open import every_campaign

    desk, say = Desk(context.obj, today, plans), Say(context.obj)
    found = [
        _campaign_json(one, plan, desk) | _of_the_book(desk, one, plan) for one, plan in every_campaign(desk.plans)
    ]
    if json:
        say.document({"today": desk.day.isoformat(), "campaigns": found})
        return 0
    for place, one in enumerate(found):
        if place:
            say.answer()
        _tell(say, one)
    if not found:
        say.note("No campaign is known. One of your maker's goes into campaigns/ of the shop, as a file.")
    return 0


@campaign_app.command("check")
def check_serials(
    context: Context,
    what: Annotated[str, Argument(metavar="FILE|SERIAL", help="A serial number, or a file with one on each line.")],
    plans: Plans = None,
    today: Today = "",
    json: Json = False,
) -> int:
    """Say which campaigns a serial number is in, or each of a file."""
    from claimpack.commands.desk.desk import Desk
    from claimpack.commands.desk.say import Say
    from claimpack.core.clauses.serial_ranges import is_in_range
    from claimpack.core.judging.campaigns_open import every_campaign

    desk, say = Desk(context.obj, today, plans), Say(context.obj)
    campaigns = every_campaign(desk.plans)
    found: list[dict[str, Any]] = []
    read = list(_serials(context, what))
    for serial in read:
        inside = [(one, plan) for one, plan in campaigns if is_in_range(serial, one.serials)]
        found += [{"serial": serial, **_campaign_json(one, plan, desk)} for one, plan in inside]
    if json:
        say.document({"today": desk.day.isoformat(), "checked": len(read), "found": found})
        return 0 if found else 3
    for one in found:
        state = f"open until {one['closes']}" if one["open"] else f"{one['opens']} to {one['closes']}, not open now"
        say.answer(f"{one['serial']} is in campaign {one['campaign']} ({one['name']}), {state}")
    if not found:
        say.answer(f"{what}: in no campaign" if len(read) == 1 else f"None of {len(read):,} serial numbers is in one.")
    return 0 if found else 3


def _serials(context: Context, what: str) -> Iterator[str]:
    """The serial numbers of a file, the first word of each line that holds a digit; else the one that was typed.

    Raises:
        BadInput: the file cannot be read, or has none.
    """
    from claimpack.commands.desk.named_files import read_from
    from claimpack.errors import BadInput
    from claimpack.file_contents import read_text

    path = read_from(context.obj, Path(what))
    if not path.is_file():
        if "/" in what or Path(what).suffix.casefold() in (".txt", ".csv"):
            raise BadInput(f"{what}: there is no such file", do="Check the path given, or type a serial number.")
        yield what
        return
    words = [cells[0].strip().strip('"') for line in read_text(path).splitlines() if (cells := _cells(line))]
    serials = [word for word in words if any(mark.isdigit() for mark in word)]
    if not serials or len(serials) > _MOST_SERIALS:
        raise BadInput(
            f"{what} holds {len(serials):,} serial numbers",
            "The file has one on each line, as the first word or the first cell.",
            "Choose another file.",
        )
    yield from serials


def _cells(line: str) -> list[str]:
    return [cell for cell in line.replace(";", ",").replace("\t", ",").split(",") if cell.strip()]


def _of_the_book(desk: Desk, one: Campaign, plan: Plan) -> dict[str, Any]:
    """How many units of the book are in a campaign's range, and those that have not come, by serial number."""
    from claimpack.book.lookups import claims_by_serial
    from claimpack.core.clauses.serial_ranges import is_in_range
    from claimpack.core.plans.makers import is_maker_of

    inside = {
        serial: numbers
        for serial, numbers in claims_by_serial(desk.book.engine).items()
        if is_in_range(serial, one.serials)
    }
    told, units = list[dict[str, Any]](), 0
    for serial in sorted(inside):
        entries = [entry for entry in desk.book.entries(inside[serial]) if is_maker_of(plan, entry.claim.maker)]
        units += bool(entries)
        if entries and not any(_has_come(desk, entry, one) for entry in entries):
            told.append(_unit(entries, one))
    return {"units": units, "not_come": told}


def _has_come(desk: Desk, entry: Entry, one: Campaign) -> bool:
    from claimpack.core.judging.campaigns_open import has_come

    return has_come(entry.claim, entry.standing.state, desk.summary_today(entry).verdict, one)


def _unit(entries: Sequence[Entry], one: Campaign) -> dict[str, Any]:
    claim = max(entries, key=lambda entry: entry.claim.dates.presented).claim
    owner = claim.owner
    return {
        "serial": one.serial_in(claim.unit),
        "model": claim.unit.model,
        "claim": claim.number,
        "owner": owner.name,
        "phone": owner.phone,
        "email": owner.email,
    }


def _campaign_json(one: Campaign, plan: Plan, desk: Desk) -> dict[str, Any]:
    return {
        "campaign": one.id,
        "name": one.name,
        "maker": plan.maker_name or plan.maker,
        "opens": one.opens.isoformat(),
        "closes": one.closes.isoformat(),
        "open": one.opens <= desk.day <= one.closes,
    }


def _tell(say: Say, one: dict[str, Any]) -> None:
    state = f"open until {one['closes']}" if one["open"] else f"{one['opens']} to {one['closes']}, not open now"
    say.lines(f"{one['campaign']} · {one['maker']} · {one['name']}: {state}")
    if not one["not_come"]:
        every = "every unit in the book that is in it has come"
        say.item("·", every if one["units"] else "no unit in the book is in it")
    for unit in one["not_come"]:
        said = (f"{unit['serial']} {unit['model']}", unit["owner"], unit["phone"], f"last here: {unit['claim']}")
        say.item(say.mark("todo"), " · ".join(part for part in said if part))
