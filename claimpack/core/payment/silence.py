"""What silence does to a claim that nobody answered, where the terms count it as a refusal."""

from __future__ import annotations

from datetime import date
from typing import TYPE_CHECKING

from claimpack.core.payment.payment_dates import payment_dates
from claimpack.core.steps.listed import ListedClaim

if TYPE_CHECKING:
    from claimpack.core.events.events import NewEvent
    from claimpack.core.events.standing import Standing
    from claimpack.core.payment.payment_dates import DatedFrom
    from claimpack.core.plans.terms import Terms


def refused_by_silence(claim: DatedFrom, terms: Terms | None, today: date) -> date | None:
    """The day silence refused a claim that waits for an answer; None while it has not.

    Silence takes effect at the end of the last day to answer. Where the day of receipt is not noted it has none.

    Source: the section the terms cite.
    """
    # asked before its dates are worked out: most silence refuses nothing
    if claim.state != "filed" or terms is None or terms.silence != "refused":
        return None
    on = payment_dates(claim, terms).refused_by_silence_on
    # the last day still belongs to the maker
    return on if on and today > on else None


def as_of(claim: ListedClaim, terms: Terms | None, today: date) -> ListedClaim:
    """A claim of a list as it stands on a day: refused, once silence has refused it."""
    on = refused_by_silence(claim, terms, today)
    # looked at and not recorded: nobody did anything on that day, and an answer that had come would change it
    return claim._replace(state="refused", answered=on) if on else claim


def standing_as_of(standing: Standing, terms: Terms | None, today: date) -> Standing:
    """Where a claim stands on a day: refused, once silence has refused it."""
    from claimpack.core.events.fold import left_by
    from claimpack.core.events.standing import Answer

    on = refused_by_silence(standing, terms, today)
    if on is None:
        return standing
    silent = Answer(on=on, answer="refused", because=_why(on, terms), after=len(standing.payments), silent=True)
    return standing.model_copy(update=left_by((*standing.answers, silent), standing.claimed))


def refusal_recorded(standing: Standing, terms: Terms | None, today: date) -> tuple[NewEvent, ...]:
    """What is recorded of a refusal by silence before a step that follows it; nothing where silence has not refused.

    Source: the section the terms cite.
    """
    from claimpack.core.events.events import NewEvent

    on = refused_by_silence(standing, terms, today)
    if on is None:
        return ()
    facts = {"answer": "refused", "silence": "yes"}
    # a step that follows the refusal needs it in the history, or its day would come before nothing
    return (NewEvent(what="answered", on=on, why=_why(on, terms), facts=facts),)


def _why(on: date, terms: Terms | None) -> str:
    section = terms.section if terms else ""
    return f"No answer by {on}, which counts as a refusal: {section}"
