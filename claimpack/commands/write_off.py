"""`claimpack write-off`: what is outstanding, or refused, given up."""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated

import typer

from claimpack.commands.options import Because, BookClaim, Json, On, Today

if TYPE_CHECKING:
    from claimpack.core.events import Happening
    from claimpack.core.settling import Step
    from claimpack.core.states import Standing


def write_off(
    context: typer.Context,
    claim: BookClaim,
    because: Because = "",
    rest: Annotated[
        bool, typer.Option("--rest", help="Only what the maker refused; what it accepted is still waited for.")
    ] = False,
    on: On = "",
    today: Today = "",
    json: Json = False,
) -> int:
    """Give up what is outstanding or refused."""
    from claimpack.commands.settled import take, tell
    from claimpack.core.next_step import what_next
    from claimpack.core.paying import written_off

    def step(standing: Standing, step: Step) -> Happening:
        return written_off(standing, step, rest_only=rest)

    taken = take(context.obj, claim, step, on, because, today)
    return tell(taken, json=json, notes=what_next(taken.claim.number, taken.standing))
