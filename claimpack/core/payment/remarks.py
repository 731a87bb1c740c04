"""What is remarked on after a step, under the terms: what came late, what was refused, and what to do about it."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from datetime import date
from typing import TYPE_CHECKING

from claimpack.core.payment.late_answers import contested
from claimpack.core.payment.payment_dates import CHECK_TEXT, payment_dates
from claimpack.core.payment.refused_rests import RefusedRest
from claimpack.core.values.money import in_money, summed
from claimpack.core.values.numbers_said import how_many
from claimpack.core.values.words import some_of

if TYPE_CHECKING:
    from claimpack.core.events.standing import Standing
    from claimpack.core.payment.pending import Pending
    from claimpack.core.plans.terms import Terms

_MOST_NAMED = 6


def remarks(number: str, standing: Standing, terms: Terms | None) -> tuple[str, ...]:
    """What is to be said of an answer under the terms: that it came late, that a refusal gives no reason.

    Source: the section the terms cite.
    """
    return (*_of_lateness(number, standing, terms), *_of_no_reason(number, standing, terms))


def _of_lateness(number: str, standing: Standing, terms: Terms | None) -> tuple[str, ...]:
    dates = payment_dates(standing, terms)
    silent = dates.accepted_by_silence_on
    if terms is None or silent is None or dates.answered_late is None or standing.state not in _LETTERS:
        return ()
    if standing.state == "paid" and not standing.refused_rest:
        return ()
    pay = f", and the last day to pay stays {dates.pay_due}" if dates.pay_due else ""
    late = f"the answer of {standing.answered}" if standing.answered else f"the payment of {dates.answered_late}"
    said = f"Silence accepted it on {silent}, before {late}{pay}: {terms.section} ({CHECK_TEXT})."
    if not contested(standing, dates):
        return (said,)
    again = "Filing it again would start its time to answer anew."
    return (said, f"{_LETTERS[standing.state]}: claimpack chase {number}. {again}")


_OF_THE_REST = "A letter that contests the refusal of the rest"


_LETTERS = {
    "refused": "A letter that contests the refusal",
    "questioned": "A letter that says so",
    "accepted": _OF_THE_REST,
    "paid": _OF_THE_REST,
}


def _of_no_reason(number: str, standing: Standing, terms: Terms | None) -> tuple[str, ...]:
    if not standing.gave_no_grounds:
        return ()
    said = (
        f"No reason is recorded. Where the maker gave one: claimpack answer {number} --undo --because TEXT, then the "
        f"answer again with --because."
    )
    if terms is None or terms.without_grounds != "accepted":
        return (said,)
    dates = payment_dates(standing, terms)
    pay = f"; then the last day to pay is {dates.pay_due}" if dates.no_grounds_on and dates.pay_due else ""
    counts = f"A refusal without grounds counts as acceptance{pay}: {terms.section} ({CHECK_TEXT})."
    letter = (f"A letter that says so: claimpack chase {number}",) if dates.no_grounds_on else ()
    return (said, counts, *letter)


def of_the_charge_back(number: str, standing: Standing, terms: Terms | None) -> tuple[str, ...]:
    """What is to be said of money taken back after an audit could reach; empty where it was in time.

    Source: the section the terms cite.
    """
    reached_to = payment_dates(standing, terms).audit_reached_to
    if terms is None or reached_to is None or standing.charged_back_on is None:
        return ()
    days = (standing.charged_back_on - reached_to).days
    said = (
        f"An audit of the payment on {standing.charged_from} reached to {reached_to}, "
        f"{how_many(days, 'day')} before the charge-back: {terms.section} ({CHECK_TEXT})."
    )
    return (said, f"A letter that contests the charge-back: claimpack chase {number}")


def too_late_again(standing: Standing, terms: Terms | None, on: date) -> tuple[str, ...]:
    """That the time to send a refused claim in again is over, in a sentence; empty where it is not, or none is set.

    Source: the section the terms cite.
    """
    last = payment_dates(standing, terms).resubmit_by
    if terms is None or last is None or on <= last:
        return ()
    days = (on - last).days
    late = f"{how_many(days, 'day')} before"
    return (f"The last day to resubmit it was {last}, {late}: {terms.section} ({CHECK_TEXT}).",)


def first_said(items: Sequence[Pending], today: date) -> str:
    """How many claims that are filed and not settled makers are late with, and how many wait for the shop.

    Of how many nobody can say whether the maker is late is told as well.
    """
    # each counts once, under what a letter about it would ask for
    back = [item for item in items if item.dates.audit_reached_to]
    again = [item for item in items if item.owed_again and item not in back]
    late = [item for item in items if item.days_overdue and not item.part_awaited and item not in back]
    answered = [item for item in items if _is_to_contest(item, today)]
    ours = sum(item.turn == "shop" for item in items if item not in answered)
    said = []
    if late:
        most = max(item.days_overdue for item in late)
        overdue = f"{how_many(len(late), 'claim')}, by up to {how_many(most, 'day')}"
        said.append(f"the maker's answer or payment is overdue on {overdue}")
    if again:
        said.append(f"money charged back is owed again on {how_many(len(again), 'claim')}")
    if back:
        said.append(f"{how_many(len(back), 'charge-back')} came after an audit could reach, to be contested")
    if answered:
        said.append(f"{how_many(len(answered), 'answer')} came after silence had accepted, to be contested")
    if ours:
        said.append(f"{how_many(ours, 'filed claim')} {'waits' if ours == 1 else 'wait'} for the shop")
    unknown = sum(not item.dates.terms_known and item.turn == "maker" for item in items if item not in again)
    if unknown:
        whose = "its terms are" if unknown == 1 else "their terms are"
        said.append(
            f"whether the maker is late with {how_many(unknown, 'claim')} nobody can say: {whose} not known here"
        )
    if not said:
        nothing = "No answer and no payment is overdue, and no filed claim waits for the shop."
        return nothing if items else "Nothing is filed and not settled."
    sentence = "; ".join(said)
    return f"{sentence[0].upper()}{sentence[1:]}."


def _is_to_contest(item: Pending, today: date) -> bool:
    answered = item.state in ("refused", "questioned") and item.dates.answered_late is not None
    return answered and (item.dates.pay_due is None or today > item.dates.pay_due)


def rests_said(rests: Iterable[RefusedRest]) -> tuple[str, ...]:
    """How much was refused, of which claims, and what to do; what silence had accepted is told by itself."""
    found = list(rests)
    silent = [rest for rest in found if rest.accepted_by_silence_on]
    others = [rest for rest in found if not rest.accepted_by_silence_on]
    told = (
        (silent, "in part after silence had accepted the whole; contest with claimpack chase CLAIM"),
        (others, "in part; resubmit or write off"),
    )
    return tuple(_said(some, how) for some, how in told if some)


def _said(found: Sequence[RefusedRest], how: str) -> str:
    sums = summed((rest.currency, rest.amount) for rest in found).items()
    amounts = " and ".join(in_money(amount, currency) for currency, amount in sums)
    many = f"{how_many(len(found), 'claim')} accepted {how}"
    return f"{amounts} refused on {many}: {some_of([rest.claim for rest in found], _MOST_NAMED)}"
