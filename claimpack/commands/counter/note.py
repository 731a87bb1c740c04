"""`claimpack note`: something written down about a claim, perhaps to be looked at again on a day."""

from __future__ import annotations

from typing import Annotated

from claimpack.commands.desk.options import BookClaim, Json, Today
from claimpack.commands.line.declared import Argument, Context, Option


def note(
    context: Context,
    claim: BookClaim,
    text: Annotated[str, Argument(metavar="TEXT", help="What to remember.")],
    again: Annotated[
        str,
        Option("--again", metavar="DATE", help="Look at it again that day; due lists it."),
    ] = "",
    json: Json = False,
    today: Today = "",
) -> int:
    """Write a note about a claim, to look at again on a day.

    The latest note of a claim says when to look at it again; one without a day takes it off.
    """
    from claimpack.commands.desk.desk import Desk
    from claimpack.commands.desk.one_claim import number_of
    from claimpack.commands.desk.options import a_date
    from claimpack.commands.desk.say import Say
    from claimpack.core.steps.notes import noting

    desk, say = Desk(context.obj, today), Say(context.obj)
    noted = noting(text, desk.day, a_date(again, "--again") if again else None)
    with desk.changing(number_of(claim)) as changing:
        changing.keep(changing.claim, noted)
    day = noted.facts.get("again")
    if json:
        say.document({"claim": changing.claim.number, "note": noted.why, "again": day})
    else:
        say.answer(f"{changing.claim.number}: noted{f', to look at again on {day}' if day else ''}")
    return 0
