"""`claimpack find`: claims looked up by anything a person remembers of them."""

from __future__ import annotations

from typing import Annotated

from claimpack.commands.desk.options import Json, Today
from claimpack.commands.line.declared import Argument, Context, Option
from claimpack.core.values.numbers_said import how_many


def find(
    context: Context,
    text: Annotated[
        list[str],
        Argument(metavar="TEXT...", help="Number, serial, owner, phone, model, part, shelf, complaint."),
    ],
    limit: Annotated[int, Option(min=0, metavar="N", help="Show at most so many; 0 shows all.")] = 30,
    today: Today = "",
    json: Json = False,
) -> int:
    """Look claims up by number, serial, owner, phone, words."""
    from claimpack.book.tables.entries import Wanted
    from claimpack.commands.desk.desk import Desk
    from claimpack.commands.desk.say import Say
    from claimpack.commands.screen.listing import tell_claims
    from claimpack.core.settlement.booking import LEFT_OUT, left_out
    from claimpack.core.values.words import folded
    from claimpack.errors import BadInput

    say, words = Say(context.obj), " ".join(text)
    if not folded(words):
        raise BadInput("find: there is no word to look for", do="Give a part of one; every claim: claimpack list --all")
    wanted = Wanted(text=words, limit=limit or None)
    desk = Desk(context.obj, today)
    shown, count = tell_claims(say, desk, wanted, json=json)
    if json:
        return 0 if count else 3
    if not count:
        if whose := desk.shops.told_of(words):
            say.note(f"{words} is in the book{whose}.")
        else:
            say.note(f"No claim says {words!r}. Try fewer words, or a part of one.")
        for event in desk.book.told(LEFT_OUT):
            for row in left_out(event):
                if folded(words) in folded(row.named):
                    memo = event.facts.get("memo", "")
                    say.note(f"Row {row.place} of memo {memo}, left out, names it: claimpack statement --booked")
        return 3
    found = f"{how_many(count, 'claim')} found"
    say.note(f"{shown} of {found}, the latest first. All: add --limit 0" if shown < count else f"{found}.")
    return 0
