"""`claimpack received`: the day the maker received a claim, from which its time to answer runs."""

from __future__ import annotations

from typing import TYPE_CHECKING

import typer

from claimpack.commands.desk.options import BookClaim, Json, On, Today

if TYPE_CHECKING:
    from datetime import date

    from claimpack.core.steps.claim_state import Standing
    from claimpack.core.steps.events import NewEvent
    from claimpack.core.steps.settling import Step


def received(context: typer.Context, claim: BookClaim, on: On = "", today: Today = "", json: Json = False) -> int:
    """Note the day the maker received a claim."""
    from claimpack.commands.desk.say import Say
    from claimpack.commands.desk.terms_in_force import TermsInForce
    from claimpack.commands.money.settled import take
    from claimpack.core.payment.payment_dates import payment_dates
    from claimpack.core.steps.settling import received

    before: list[date] = []

    def step(standing: Standing, step: Step) -> NewEvent:
        before.extend([standing.received] if standing.received else [])
        return received(standing, step)

    say = Say(context.obj)
    taken = take(context.obj, claim, step, on, "", today)
    number, standing = taken.claim.number, taken.standing
    dates = payment_dates(standing, TermsInForce(taken.desk, say).of(taken.claim))
    if json:
        due = dates.answer_due.isoformat() if dates.answer_due else None
        say.document({"claim": number, "received": str(standing.received), "answer_due": due})
        return 0
    say.answer(f"{number} was received by the maker on {standing.received}")
    if before and before[0] != standing.received:
        say.note(f"It was noted as {before[0]} before; this day counts now, and the history keeps both.")
    if dates.answer_due:
        silence = "; silence then accepts it" if dates.accepted_by_silence_on else ""
        silence = "; silence then refuses it" if dates.refused_by_silence_on else silence
        say.note(f"The maker has until {dates.answer_due} to answer{silence}.")
    return 0
