"""`claimpack write-off`, `withdraw` and `reopen`: a claim given up, taken back, and taken up again."""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated

from claimpack.commands.desk.options import Because, BookClaim, Json, On, Today
from claimpack.commands.line.declared import Context, Option

if TYPE_CHECKING:
    from claimpack.core.events.events import NewEvent
    from claimpack.core.events.standing import Standing
    from claimpack.core.steps.settling import Step


def write_off(
    context: Context,
    claim: BookClaim,
    because: Because = "",
    rest: Annotated[
        bool, Option("--rest", help="Only what the maker refused; what it accepted is still waited for.")
    ] = False,
    on: On = "",
    today: Today = "",
    json: Json = False,
) -> int:
    """Write off what is outstanding or refused."""
    from claimpack.commands.money.settled import take, tell
    from claimpack.core.steps.paying import written_off

    def step(standing: Standing, step: Step) -> NewEvent:
        return written_off(standing, step, rest_only=rest)

    taken = take(context.obj, claim, step, on, because, today)
    return tell(taken, json=json, notes=taken.next_steps)


def withdraw(
    context: Context,
    claim: BookClaim,
    because: Because = "",
    declined: Annotated[
        bool, Option("--declined", help="The owner declined: the unit leaves, and the part with it.")
    ] = False,
    on: On = "",
    today: Today = "",
    json: Json = False,
) -> int:
    """Take a claim back before it is paid."""
    from claimpack.commands.desk.one_claim import number_of
    from claimpack.commands.money.declining import decline
    from claimpack.commands.money.settled import take, tell
    from claimpack.core.steps.paying import withdrawn

    if declined:
        taken, notes = decline(context.obj, number_of(claim), on, because, today)
        return tell(taken, json=json, notes=notes)
    taken = take(context.obj, claim, withdrawn, on, because, today)
    return tell(taken, json=json, notes=taken.next_steps)


def reopen(
    context: Context, claim: BookClaim, because: Because = "", on: On = "", today: Today = "", json: Json = False
) -> int:
    """Take a withdrawn or written-off claim up again."""
    from claimpack.commands.desk.one_claim import number_of
    from claimpack.commands.money.declining import take_up_again
    from claimpack.commands.money.settled import take, tell
    from claimpack.core.steps.paying import reopened

    taken = take_up_again(context.obj, number_of(claim), on, because, today)
    taken = taken or take(context.obj, claim, reopened, on, because, today)
    return tell(taken, json=json, notes=taken.next_steps)
