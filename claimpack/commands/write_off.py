"""`claimpack write-off`: what is outstanding given up."""

from __future__ import annotations

import typer

from claimpack.commands.options import Because, BookClaim, Json, On, Today


def write_off(
    context: typer.Context, claim: BookClaim, because: Because = "", on: On = "", today: Today = "", json: Json = False
) -> int:
    """Give up what is still outstanding."""
    from claimpack.commands.settled import take, tell
    from claimpack.core.next_step import what_next
    from claimpack.core.settling import written_off

    taken = take(context.obj, claim, written_off, on, because, today)
    return tell(taken, json=json, notes=what_next(taken.claim.number, taken.standing))
