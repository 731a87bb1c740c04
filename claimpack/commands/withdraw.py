"""`claimpack withdraw`: a claim the shop takes back."""

from __future__ import annotations

import typer

from claimpack.commands.options import Because, BookClaim, Json, On, Today


def withdraw(
    context: typer.Context, claim: BookClaim, because: Because = "", on: On = "", today: Today = "", json: Json = False
) -> int:
    """Take a claim back before it is paid."""
    from claimpack.commands.settled import take, tell
    from claimpack.core.next_step import what_next
    from claimpack.core.paying import withdrawn

    taken = take(context.obj, claim, withdrawn, on, because, today)
    return tell(taken, json=json, notes=what_next(taken.claim.number, taken.standing))
