"""`claimpack received`: the day the maker received a claim, from which its time to answer runs."""

from __future__ import annotations

from typing import Annotated

import typer

from claimpack.commands.options import Json, Today


def received(
    context: typer.Context,
    claim: Annotated[str, typer.Argument(metavar="CLAIM", help="A claim's number in the book.")],
    on: Annotated[str, typer.Option("--on", metavar="DATE", help="The day the maker received it.")],
    json: Json = False,
    today: Today = "",
) -> int:
    """Note the day the maker received a claim."""
    from claimpack.commands.desk import Desk
    from claimpack.commands.gather import a_date
    from claimpack.commands.say import Say
    from claimpack.commands.terms_in_force import TermsInForce
    from claimpack.core.events import Happening
    from claimpack.core.payment_dates import payment_dates
    from claimpack.core.states import not_before_filing

    say = Say(context.obj)
    desk = Desk(context.obj, today)
    day = a_date(on, "--on")
    with desk.changing(claim) as changing:
        not_before_filing(changing.entry.standing, day, desk.day)
        changing.keep(changing.claim, Happening(what="received", on=day))
    entry = desk.book.get(claim)
    dates = payment_dates(entry.standing, TermsInForce(desk, say).of(entry.claim))
    if json:
        due = dates.answer_due.isoformat() if dates.answer_due else None
        say.document({"claim": claim, "received": day.isoformat(), "answer_due": due})
        return 0
    say.answer(f"{claim}: received by the maker on {day}.")
    if dates.answer_due:
        silence = "; silence then accepts it" if dates.accepted_by_silence_on else ""
        say.note(f"The maker has until {dates.answer_due} to answer{silence}.")
    return 0
