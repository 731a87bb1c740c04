"""`claimpack received`: the day the maker received a claim, from which its time to answer runs."""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated

from claimpack.commands.desk.options import Json, On, Today
from claimpack.commands.desk.say import Say
from claimpack.commands.line.declared import Argument, Context

if TYPE_CHECKING:
    from datetime import date

    from claimpack.commands.desk.world import World
    from claimpack.commands.money.settled import Taken
    from claimpack.core.events.events import NewEvent
    from claimpack.core.events.standing import Standing
    from claimpack.core.steps.settling import Step


def received(
    context: Context,
    claims: Annotated[
        list[str], Argument(metavar="CLAIM…", help="Numbers of claims in the book; all are noted, or none.")
    ],
    on: On = "",
    today: Today = "",
    json: Json = False,
) -> int:
    """Note the day the maker received a claim."""
    from claimpack.commands.money.settled import each_once, take_all
    from claimpack.core.steps.settling import received

    before: dict[str, date | None] = {}

    def step(standing: Standing, step: Step) -> NewEvent:
        # seen under the lock, so that what is told as replaced is what was there
        before[step.claim] = standing.received
        return received(standing, step)

    numbers = each_once(claims)
    all_taken = take_all(context.obj, dict.fromkeys(numbers, step), on, "", today)
    told = [_told(context.obj, taken, before[taken.claim.number], json=json) for taken in all_taken]
    if json:
        Say(context.obj).document({"claims": told} if len(told) > 1 else told[0])
    return 0


def _told(world: World, taken: Taken, before: date | None, *, json: bool) -> dict[str, str | None]:
    """The day a claim was received, and until when the maker has to answer; told unless it goes into a document."""
    from claimpack.commands.desk.terms_in_force import TermsInForce
    from claimpack.core.payment.payment_dates import payment_dates

    say, number, standing = Say(world), taken.claim.number, taken.standing
    dates = payment_dates(standing, TermsInForce(taken.desk, say).of(taken.claim))
    due = dates.answer_due.isoformat() if dates.answer_due else None
    facts = {"claim": number, "received": str(standing.received), "answer_due": due}
    if json:
        return facts
    say.answer(f"{number} was received by the maker on {standing.received}")
    if before and before != standing.received:
        say.note(f"It was noted as {before} before; this day counts now, and the history keeps both.")
    if dates.answer_due:
        silence = "; silence then accepts it" if dates.accepted_by_silence_on else ""
        silence = "; silence then refuses it" if dates.refused_by_silence_on else silence
        say.note(f"The maker has until {dates.answer_due} to answer{silence}.")
    return facts
