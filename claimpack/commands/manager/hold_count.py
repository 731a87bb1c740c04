"""`claimpack hold count`: a shelf walked with a scanner, compared with the book."""

from __future__ import annotations

import shlex
from collections.abc import Sequence
from typing import TYPE_CHECKING, Annotated, Any

from claimpack.commands.desk.options import Json, On, Today
from claimpack.commands.line.declared import Argument, Context, Option

if TYPE_CHECKING:
    from claimpack.commands.desk.desk import Desk
    from claimpack.commands.desk.say import Say
    from claimpack.core.shelf.shelf_count import Count
    from claimpack.core.steps.listed import ListedPart


def count(
    context: Context,
    shelf: Annotated[str, Argument(metavar="SHELF", help="The shelf to count.")],
    codes: Annotated[
        list[str] | None,
        Argument(metavar="[CODE…]", help="The codes found on it; without any they are read line by line."),
    ] = None,
    record: Annotated[bool, Option("--record/--look", help="Note missing parts in the book, or only look.")] = True,
    on: On = "",
    json: Json = False,
    today: Today = "",
) -> int:
    """Count a shelf: missing, extra, wrong shelf."""
    from claimpack.commands.desk.desk import Desk
    from claimpack.commands.desk.options import a_date
    from claimpack.commands.desk.say import Say
    from claimpack.core.shelf.shelf_count import to_record
    from claimpack.core.steps.settling import refuse_day_ahead

    # a shelf stands in one shop, and another's may go by the same name
    world = context.obj.of_one_shop()
    say, desk = Say(world), Desk(world, today)
    day = a_date(on, "--on") if on else desk.day
    refuse_day_ahead(day, desk.day)
    said = codes or _scanned(desk, say, shelf)
    counted = _counted(desk, shelf, said)
    if record:
        for number, new_events in to_record(counted, day).items():
            with desk.changing(number) as changing:
                changing.keep(changing.claim, *new_events)
    if json:
        say.document(_document(counted))
    else:
        _tell(say, counted, recorded=record)
    return 0 if counted.equal else 3


def _scanned(desk: Desk, say: Say, shelf: str) -> list[str]:
    """The codes from the scanner or the keyboard, a line each, up to an empty line.

    Raises:
        BadInput: there is none, and nothing ever lay on that shelf.
    """
    stdin = say.world.stdin
    if not stdin.isatty():
        found = [line.strip() for line in stdin if line.strip()]
        if not found:
            _must_know(desk, shelf)
        return found
    _must_know(desk, shelf)
    say.note(f"Scan or type what is on shelf {shelf}, a code a line. An empty line ends.")
    found = []
    try:
        while typed := (say.ask(f"{len(found) + 1}:") or "").strip():
            found.append(typed)
    except KeyboardInterrupt:
        again = shlex.join(["claimpack", "hold", "count", shelf, *found])
        so_far = f" What was scanned so far, to be counted as it is: {again}" if found else ""
        say.note(f"\nNothing was counted.{so_far}")
        raise
    return found


def _must_know(desk: Desk, shelf: str) -> None:
    from claimpack.book.held import EVERY_STATE, HeldWanted
    from claimpack.core.shelf.shelf_count import refuse_unknown_shelf

    if not desk.held(HeldWanted(shelf=shelf)):
        lay = [part.shelf for part in desk.held(HeldWanted(states=EVERY_STATE))]
        refuse_unknown_shelf(shelf, [*lay, *(event.facts["from"] for event in desk.book.told("from"))])


def _counted(desk: Desk, shelf: str, said: Sequence[str]) -> Count:
    from claimpack.book.held import EVERY_STATE, HeldWanted
    from claimpack.core.shelf.shelf_count import claims_named, count

    there = desk.held(HeldWanted(shelf=shelf))
    named = claims_named(said)
    others = desk.held(HeldWanted(states=EVERY_STATE, claims=named)) if named else []
    found = desk.book.entries(named) if named else ()
    whose = {each.claim.number: told for each in found if (told := desk.shops.other(each.standing.shop))}
    return count(shelf, said, dict.fromkeys([*there, *others]), whose)


def _document(counted: Count) -> dict[str, Any]:
    return {
        "shelf": counted.shelf,
        "equal": counted.equal,
        "found": [str(part.code) for part in counted.found],
        "missing": [_told(part) for part in counted.missing],
        "extra": [{"code": extra.said, "because": extra.why} for extra in counted.extra],
        "wrong_shelf": [_told(part) for part in counted.misplaced],
    }


def _told(part: ListedPart) -> dict[str, str]:
    return {"code": str(part.code), "part": part.part, "shelf": part.shelf, "state": part.state}


def _tell(say: Say, counted: Count, *, recorded: bool) -> None:
    style, word = ("good", "MATCHES") if counted.equal else ("bad", "DOES NOT MATCH")
    say.answer(f"Shelf {counted.shelf} {say.styled(word, style)}  {len(counted.found)} found as the book says")
    for part in counted.missing:
        since = f" (not found since {part.missing})" if part.missing else ""
        say.item(say.mark("fail"), f"missing: {part.code} {part.part}, {part.state}{since}")
    for part in counted.misplaced:
        where = f"the book has it on shelf {part.shelf}" if part.shelf else "the book has it nowhere"
        say.item(say.mark("unknown"), f"wrong shelf: {part.code} {part.part}, {where}")
    for extra in counted.extra:
        say.item(say.mark("unknown"), f"extra: {extra.said}, {extra.why}")
    if counted.misplaced:
        say.note(f"Put it back, or note where it lies: claimpack hold move CODE {shlex.quote(counted.shelf)}")
    if counted.missing and recorded:
        say.note("What is missing is noted in the history of its claim; counting it somewhere takes the note back.")
