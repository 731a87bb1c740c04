"""`claimpack pay`: money that came in for a claim, or was taken back."""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated

from claimpack.commands.desk.options import Because, Json, On, Today
from claimpack.commands.line.declared import Argument, Context, Option

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from claimpack.commands.desk.world import World
    from claimpack.commands.money.settled import Taken
    from claimpack.core.events.events import NewEvent
    from claimpack.core.events.standing import Standing
    from claimpack.core.steps.settling import Step


def pay(
    context: Context,
    claims: Annotated[
        list[str],
        Argument(metavar="CLAIM AMOUNT…", help="As in 26-0041 120.00; several pairs are recorded all or none."),
    ],
    on: On = "",
    charged_back: Annotated[bool, Option("--charged-back", help="The maker took it back.")] = False,
    because: Because = "",
    anyway: Annotated[
        str,
        Option(metavar="REASON", help="Take more than is owed, or the same twice."),
    ] = "",
    memo: Annotated[str, Option(metavar="NUMBER", help="The credit memo or transfer it came with.")] = "",
    undo: Annotated[bool, Option("--undo", help="The last payment was entered by mistake.")] = False,
    today: Today = "",
    json: Json = False,
) -> int:
    """Record a payment, or money taken back."""
    from claimpack.commands.money.settled import each_once, take_all, tell_all
    from claimpack.core.steps import paying
    from claimpack.core.steps.paying import payment_undone

    def step(amount: str) -> Callable[[Standing, Step], NewEvent]:
        def taken(standing: Standing, step: Step) -> NewEvent:
            if undo:
                return payment_undone(standing, step)
            moved = paying.charged_back if charged_back else paying.paid
            return moved(standing, step, amount, anyway=bool(anyway), memo=memo)

        return taken

    # undone is the last payment, whatever it was
    amounts = dict.fromkeys(each_once(claims), "") if undo else _amounts(context.obj, claims)
    steps = {claim: step(amount) for claim, amount in amounts.items()}
    all_taken = take_all(context.obj, steps, on, because or anyway, today)
    return tell_all(all_taken, [_notes(context.obj, each, undone=undo) for each in all_taken], json=json)


def _amounts(world: World, words: Sequence[str]) -> dict[str, str]:
    """The amount for every claim, as it was meant; the last one may be left out, and is asked for by who reads it.

    Raises:
        BadInput: a claim is named twice, or an amount reads two ways.
    """
    from claimpack.commands.money.settled import each_once
    from claimpack.commands.typed.as_written import AMOUNT, as_meant

    written = [*words[1::2], *([""] if len(words) % 2 else [])]
    return {
        claim: as_meant(world, AMOUNT, "AMOUNT", amount, claim=claim)
        for claim, amount in zip(each_once(words[::2]), written, strict=True)
    }


def _notes(world: World, taken: Taken, *, undone: bool) -> tuple[str, ...]:
    """What is remarked on of a payment, and what to do next."""
    from claimpack.commands.desk.say import Say
    from claimpack.commands.desk.terms_in_force import TermsInForce
    from claimpack.core.payment.remarks import of_the_charge_back, remarks

    number, standing = taken.claim.number, taken.standing
    with_a_rest = standing.state == "paid" and standing.refused_rest and not undone
    # only these have a last day under the terms
    has_dates = with_a_rest or taken.new_event.what == "charged back"
    terms = TermsInForce(taken.desk, Say(world)).of(taken.claim) if has_dates else None
    late = (*remarks(number, standing, terms), *of_the_charge_back(number, standing, terms)) if has_dates else ()
    return (*late, *taken.next_steps)
