"""The words of a letter that contests a refusal or a charge-back: the shop's grounds, the dates, the evidence."""

from __future__ import annotations

from datetime import date
from typing import Literal, NamedTuple

from claimpack.core.events.standing import Standing
from claimpack.core.payment.chasing import DAYS_TO_REACT, Chased, Matter, matter
from claimpack.core.payment.letters.chase_letter import NO_ADVICE, grounds_of
from claimpack.core.payment.letters.letter import Letter, Sender
from claimpack.core.payment.letters.told_in_letters import (
    accepted_label,
    anything_more,
    each_payment,
    facts_of,
    filed_and_paid,
    how_it_was_answered,
    how_it_was_filed,
    reason_noted,
    refused_on,
)
from claimpack.core.payment.payment_dates import payment_dates
from claimpack.core.values.days import in_a_letter
from claimpack.core.values.money import in_money
from claimpack.core.values.periods import Period, moved
from claimpack.errors import WrongState

NO_SECTION = "Our own grounds; no section of law is named. Check the dealer agreement."

Against = Literal["refusal", "refusal of the rest", "charge-back"]


class Contested(NamedTuple):
    """What is contested, how much of the claim is in dispute, and until when an answer is asked for."""

    against: Against
    by: date


def contested_on(chased: Chased, today: date) -> Contested:
    """What of a claim may be contested on the shop's own grounds.

    Args:
        chased: the claim.
        today: the day it is.

    Raises:
        WrongState: it is not covered, and so was a favour; or nothing is refused or taken back that is still open.

    Source: common practice, no source.
    """
    standing, by = chased.standing, moved(today, Period(days=DAYS_TO_REACT))
    # taken back and paid again since leaves nothing to dispute
    taken_back = standing.state == "accepted" and standing.charged_back_on and standing.outstanding
    asked = matter(chased, today)
    # a favour may be refused for any reason, or none; what silence had accepted before is owed all the same
    if chased.is_favour and not taken_back and not (asked and asked.contests):
        raise WrongState(
            f"claim {chased.number} is out of cover: that a favour is refused breaks no term of the warranty",
            "A letter contests what the maker owes.",
            f"Ask once more, with what speaks for it: claimpack file {chased.number}",
        )
    if standing.state == "refused":
        return Contested("refusal", by)
    if taken_back:
        return Contested("charge-back", by)
    if standing.refused_rest:
        return Contested("refusal of the rest", by)
    raise WrongState(
        f"claim {chased.number} is {standing.state}: nothing is refused or taken back that could be contested",
        "A letter contests what the maker did.",
        f"See where it stands: claimpack show {chased.number}",
    )


def contest(
    chased: Chased, contested: Contested, grounds: str, sender: Sender, today: date, enclosed: tuple[str, ...]
) -> Letter:
    """The letter, for a person to read and sign: it asks for another look, with what speaks for it."""
    standing, asked = chased.standing, matter(chased, today)
    section = _section(chased, asked, today) if asked and asked.contests else ""
    along = " Our evidence is enclosed." if enclosed else ""
    return Letter(
        sender=sender,
        on=today,
        to=chased.maker,
        subject=f"Warranty claim {chased.number}: we contest your {contested.against}",
        facts=_facts(chased, sender),
        amounts=_amounts(standing, contested.against),
        paragraphs=(
            _what_happened(chased, contested.against),
            *([section] if section else []),
            f"We do not agree. Our grounds: {' '.join(grounds.split())}",
            f"We ask you to look at the claim again.{along}",
        ),
        ask=(
            f"Please tell us in writing by {in_a_letter(contested.by)}, naming our claim number {chased.number}, "
            f"whether your {contested.against} stands, and on which term of your warranty."
        ),
        closing=anything_more(sender, part_held=chased.part_held),
        small_print=NO_ADVICE if section else NO_SECTION,
        enclosed=enclosed,
    )


def _section(chased: Chased, asked: Matter, today: date) -> str:
    """What the terms say for the shop, as in a letter without grounds of its own; why money was taken back is told."""
    return grounds_of(
        chased._replace(taken_back_because=""), payment_dates(chased.standing, chased.terms), asked, today
    )


def _facts(chased: Chased, sender: Sender) -> tuple[tuple[str, str], ...]:
    standing = chased.standing
    days = (
        ("Refused on", refused_on(standing)),
        (accepted_label(standing), standing.accepted_on if standing.accepted is not None else None),
        ("Paid on", standing.charged_from),
        ("Charged back on", standing.charged_back_on),
    )
    told = ((label, in_a_letter(on) if on else "") for label, on in days)
    return tuple(fact for fact in (*facts_of(chased, sender), *told) if fact[1])


def _what_happened(chased: Chased, against: Against) -> str:
    standing = chased.standing
    if against != "charge-back":
        return filed_and_paid(standing, how_it_was_answered(standing))
    why = reason_noted(chased.taken_back_because)
    return f"{how_it_was_filed(standing)} You {each_payment(standing)}; {why}"


def _amounts(standing: Standing, against: Against) -> tuple[tuple[str, str], ...]:
    disputed = standing.refused_rest if against == "refusal of the rest" else standing.outstanding
    said = [("Claimed", standing.claimed)]
    if standing.owed != standing.claimed:
        said.append(("Accepted", standing.owed))
    if standing.paid:
        said.append(("Paid so far", standing.paid))
    said.append(("In dispute", disputed))
    return tuple((label, in_money(amount, standing.currency)) for label, amount in said)
