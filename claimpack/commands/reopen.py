"""`claimpack reopen`: a withdrawn or written-off claim taken up again."""

from __future__ import annotations

import typer

from claimpack.commands.options import Because, BookClaim, Json, On, Today


def reopen(
    context: typer.Context, claim: BookClaim, because: Because = "", on: On = "", today: Today = "", json: Json = False
) -> int:
    """Take a withdrawn or written-off claim up again."""
    from claimpack.commands.settled import take, tell
    from claimpack.core.next_step import what_next
    from claimpack.core.paying import reopened

    taken = take(context.obj, claim, reopened, on, because, today)
    return tell(taken, json=json, notes=what_next(taken.claim.number, taken.standing))
