"""`claimpack answer`: what the maker said to a filed claim."""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated

from claimpack.commands.desk.options import Because, Json, On, Today
from claimpack.commands.line.declared import Argument, Context, Option

if TYPE_CHECKING:
    from collections.abc import Sequence

    from claimpack.commands.desk.world import World
    from claimpack.commands.money.settled import Taken
    from claimpack.core.events.events import NewEvent
    from claimpack.core.events.standing import Standing
    from claimpack.core.steps.settling import Step


def answer(
    context: Context,
    claims: Annotated[
        list[str],
        Argument(
            metavar="CLAIM… ANSWER",
            help="One claim or several, all or none; then accepted, part, refused or questioned.",
        ),
    ],
    on: On = "",
    amount: Annotated[str, Option(metavar="AMOUNT", help="With part: how much is accepted in all.")] = "",
    because: Because = "",
    form: Annotated[bool, Option("--form", help="Refused for form alone: it can be put right.")] = False,
    undo: Annotated[bool, Option("--undo", help="The last answer was entered by mistake.")] = False,
    today: Today = "",
    json: Json = False,
) -> int:
    """Record the maker's answer to a claim."""
    from claimpack.commands.money.settled import each_once, take_all, tell_all
    from claimpack.core.steps.paying import answer_undone
    from claimpack.core.steps.settling import answered

    def step(standing: Standing, step: Step) -> NewEvent:
        return answer_undone(standing, step) if undo else answered(standing, step, said, amount, form=form)

    # the answer is the last word; an undo names claims alone, and one word alone may be either, which the step then
    # says
    *numbers, said = claims if len(claims) > 1 and not undo else [*claims, ""]
    each_once(numbers)
    _refuse_one_amount(numbers, amount)
    all_taken = take_all(context.obj, dict.fromkeys(numbers, step), on, because, today)
    return tell_all(all_taken, [_notes(context.obj, taken, undone=undo) for taken in all_taken], json=json)


def _refuse_one_amount(numbers: Sequence[str], amount: str) -> None:
    """Refuse one amount for several claims.

    Raises:
        BadInput: it is given for several.
    """
    from claimpack.errors import BadInput

    if amount and len(numbers) > 1:
        raise BadInput(
            f"--amount: {amount} cannot be what was accepted of each of {len(numbers)} claims",
            "Every claim has an amount of its own.",
            "Record the answers one by one.",
        )


def _notes(world: World, taken: Taken, *, undone: bool) -> tuple[str, ...]:
    """What is remarked on of an answer, and what to do next."""
    from claimpack.commands.desk.say import Say
    from claimpack.commands.desk.terms_in_force import TermsInForce
    from claimpack.core.payment.remarks import remarks, too_late_again
    from claimpack.core.steps.listed import is_favour

    number, standing = taken.claim.number, taken.standing
    # no terms are looked for, and none noted as missing, where nothing is remarked on
    terms = None if undone else TermsInForce(taken.desk, Say(world)).of(taken.claim)
    terms = terms.of_a_favour if terms and is_favour(taken.verdict) else terms
    remarked = () if undone else (*remarks(number, standing, terms), *too_late_again(standing, terms, taken.desk.day))
    return (*remarked, *taken.next_steps)
