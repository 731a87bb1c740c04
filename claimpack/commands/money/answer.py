"""`claimpack answer`: what the maker said to a filed claim."""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated

import typer

from claimpack.commands.desk.options import Because, BookClaim, Json, On, Today

if TYPE_CHECKING:
    from claimpack.core.steps.claim_state import Standing
    from claimpack.core.steps.events import NewEvent
    from claimpack.core.steps.settling import Step


def answer(
    context: typer.Context,
    claim: BookClaim,
    said: Annotated[
        str, typer.Argument(metavar="ANSWER", help="accepted, part, refused or questioned.", show_default=False)
    ] = "",
    on: On = "",
    amount: Annotated[
        str, typer.Option(metavar="AMOUNT", help="With part: how much is accepted in all.", show_default=False)
    ] = "",
    because: Because = "",
    form: Annotated[bool, typer.Option("--form", help="Refused for form alone: it can be put right.")] = False,
    undo: Annotated[bool, typer.Option("--undo", help="The last answer was entered by mistake.")] = False,
    today: Today = "",
    json: Json = False,
) -> int:
    """Record the maker's answer to a claim."""
    from claimpack.commands.desk.say import Say
    from claimpack.commands.desk.terms_in_force import TermsInForce
    from claimpack.commands.money.settled import take, tell
    from claimpack.core.payment.next_step import what_next
    from claimpack.core.payment.remarks import remarks, too_late_again
    from claimpack.core.steps.paying import answer_undone
    from claimpack.core.steps.settling import answered

    def step(standing: Standing, step: Step) -> NewEvent:
        return answer_undone(standing, step) if undo else answered(standing, step, said, amount, form=form)

    taken = take(context.obj, claim, step, on, because, today)
    number, standing = taken.claim.number, taken.standing
    terms = None if undo else TermsInForce(taken.desk, Say(context.obj)).of(taken.claim)
    remarked = () if undo else (*remarks(number, standing, terms), *too_late_again(standing, terms, taken.desk.day))
    return tell(taken, json=json, notes=(*remarked, *what_next(number, standing)))
