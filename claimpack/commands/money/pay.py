"""`claimpack pay`: money that came in for a claim, or was taken back."""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated

import typer

from claimpack.commands.desk.options import Because, BookClaim, Json, On, Today

if TYPE_CHECKING:
    from claimpack.core.steps.claim_state import Standing
    from claimpack.core.steps.events import NewEvent
    from claimpack.core.steps.settling import Step


def pay(
    context: typer.Context,
    claim: BookClaim,
    amount: Annotated[str, typer.Argument(metavar="AMOUNT", help="As in 120.00.", show_default=False)] = "",
    on: On = "",
    charged_back: Annotated[bool, typer.Option("--charged-back", help="The maker took it back.")] = False,
    because: Because = "",
    anyway: Annotated[
        str,
        typer.Option(metavar="REASON", help="Take more than is owed, or the same twice.", show_default=False),
    ] = "",
    undo: Annotated[bool, typer.Option("--undo", help="The last payment was entered by mistake.")] = False,
    today: Today = "",
    json: Json = False,
) -> int:
    """Record a payment, or money taken back."""
    from claimpack.commands.desk.say import Say
    from claimpack.commands.desk.terms_in_force import TermsInForce
    from claimpack.commands.money.settled import take, tell
    from claimpack.core.payment.next_step import what_next
    from claimpack.core.payment.remarks import of_the_charge_back, remarks
    from claimpack.core.steps import paying
    from claimpack.core.steps.paying import payment_undone

    def step(standing: Standing, step: Step) -> NewEvent:
        if undo:
            return payment_undone(standing, step)
        if charged_back:
            return paying.charged_back(standing, step, amount, anyway=bool(anyway))
        return paying.paid(standing, step, amount, anyway=bool(anyway))

    taken = take(context.obj, claim, step, on, because or anyway, today)
    number, standing = taken.claim.number, taken.standing
    with_a_rest = standing.state == "paid" and standing.refused_rest and not undo
    has_dates = with_a_rest or taken.new_event.what == "charged back"
    terms = TermsInForce(taken.desk, Say(context.obj)).of(taken.claim) if has_dates else None
    late = (*remarks(number, standing, terms), *of_the_charge_back(number, standing, terms)) if has_dates else ()
    return tell(taken, json=json, notes=(*late, *what_next(number, standing)))
