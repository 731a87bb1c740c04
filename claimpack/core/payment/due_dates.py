"""Everything with a date: what must be done by when, by whom, and the section or the plan that says so."""

from __future__ import annotations

import hashlib
from collections.abc import Callable, Iterable, Mapping
from datetime import date, timedelta
from typing import NamedTuple

from claimpack.core.claims.part_codes import PartCode
from claimpack.core.holding.release_rules import Keeping, kept_until
from claimpack.core.payment.next_step import letter_sent
from claimpack.core.payment.payment_dates import PaymentDates, Turn, clock_starts, inspect_by, payment_dates
from claimpack.core.payment.silence import as_of
from claimpack.core.plans.terms import Terms
from claimpack.core.steps.listed import ListedClaim, ListedPart
from claimpack.core.steps.notes import Note
from claimpack.core.values.periods import Period, moved

CONTEST = "contest the refusal"
"""What is due where a letter may contest a refusal."""

CONTEST_CHARGE_BACK = "contest the charge-back"
"""What is due where a letter may contest that money was taken back."""

_ASKED_FOR = ("answer expected", "payment expected", CONTEST, CONTEST_CHARGE_BACK)

APPROVAL_EXPIRES, FILE_BY, RESUBMIT_BY, SEND_PART_BY = (
    "approval expires",
    "file by",
    "resubmit by",
    "send the part by",
)
"""What is due where a day that is missed may cost the money."""

_MONTHS_DIFFER = timedelta(days=4)


class DueItem(NamedTuple):
    """One date to keep among those of all claims; nth and part are 0 and empty for what is about the whole claim.

    It is made from rows of lists, without the plan at hand: the days up to filing are those that a `Deadline` told when
    the claim was assessed, and the days after filing come from payment terms, which an assessment does not read.
    """

    on: date
    what: str
    claim: str
    nth: int
    part: str
    whose: Turn
    cites: str
    because: str

    @property
    def code(self) -> str:
        """The code of the part it is about, or an empty text."""
        return str(PartCode(self.claim, self.nth)) if self.nth else ""

    def missed(self, today: date) -> bool:
        """Whether the day is over."""
        return self.on < today

    def uid(self, shop: str) -> str:
        """A name of this date that stays the same when the day moves, unlike any other shop's."""
        # a calendar takes a date of the same name for the same one: two shops count claims alike
        home = hashlib.sha256(shop.encode()).hexdigest()[:12]
        about = f"{self.claim}.{self.nth}" if self.nth else self.claim
        return f"{self.what.replace(' ', '-')}.{about}@{home}.claimpack"


class _Owing(NamedTuple):
    claim: ListedClaim
    dates: PaymentDates
    terms: Terms | None
    today: date


DueRule = Callable[[_Owing], DueItem | None]


def file_by(case: _Owing) -> DueItem | None:
    """A draft must be filed by the maker's last day to file.

    Source: common practice, no source; the period is the plan's.
    """
    on = case.claim.file_by if case.claim.state == "draft" else None
    return _item(case, on, FILE_BY, "shop", "the maker's limit to file; it is still a draft", cited=False)


def approval_expires(case: _Owing) -> DueItem | None:
    """A repair that the maker approved must be made while the approval holds.

    Source: common practice, no source; the day is the approval's.
    """
    because = "the maker approved a repair up to then, and none is noted yet"
    return _item(case, case.claim.approval_until, APPROVAL_EXPIRES, "shop", because, cited=False)


def answer_expected(case: _Owing) -> DueItem | None:
    """The maker should answer, until silence has spoken for it.

    Source: the section the terms cite.
    """
    # nobody waits for an answer that silence has given
    if case.dates.silence_has_spoken(case.today):
        return None
    terms, claim = case.terms, case.claim
    filed, received = clock_starts(claim, terms) if terms else (claim.filed, claim.received)
    counted_from = received if terms and terms.answer_from == "received" else filed
    if counted_from:
        because = _counted(terms.answer_within if terms else None, f"{_start(terms)} on {counted_from}")
    else:
        because = f"counted from filing on {filed}: the day it was received is not noted"
    return _item(case, case.dates.answer_due, "answer expected", "maker", because)


def payment_expected(case: _Owing) -> DueItem | None:
    """The maker should pay once the claim is accepted, in writing or by silence.

    Source: the section the terms cite.
    """
    accepted, silent, bare = case.claim.accepted_on, case.dates.accepted_by_silence_on, case.dates.no_grounds_on
    # of these the shop contests first; until the maker gives in it expects no money
    contested = case.claim.state in ("refused", "paid") and not bare
    if contested or not (accepted or bare or case.dates.silence_has_spoken(case.today)):
        return None
    how = f"acceptance by silence on {silent}" if silent else f"acceptance on {accepted}"
    how = f"the refusal on {bare}, which counts as acceptance as no grounds are on record" if bare else how
    because = _counted(case.terms.pay_within if case.terms else None, how)
    if case.claim.part_awaited:
        because = f"{because}; by its plan the maker pays when the part is back, and it is not sent yet"
    return _item(case, case.dates.pay_due, "payment expected", "maker", because)


def contest_the_refusal(case: _Owing) -> DueItem | None:
    """A refusal that came after silence had accepted the claim is contested while the time to pay runs, and after.

    So is that of the rest, once the part that was accepted is paid.

    Source: the section the terms cite.
    """
    of_the_rest = case.claim.state == "paid" and bool(case.claim.refused_rest)
    if case.dates.answered_late is None or not (of_the_rest or case.claim.state == "refused"):
        return None
    silent, answered = case.dates.accepted_by_silence_on, case.claim.answered
    what, refused = ("all of it", "the refusal of the rest") if of_the_rest else ("it", "the refusal")
    because = f"silence accepted {what} on {silent}, before {refused} of {answered}"
    pay = case.terms.pay_within if case.terms else None
    counted = f"; to be paid within {pay.in_words()} of that day" if pay else ""
    # without a time to pay the shop may contest from the day the answer came
    on = case.dates.pay_due or case.dates.answered_late
    return _item(case, on, CONTEST, "shop", f"{because}{counted}")


def send_again_by(case: _Owing) -> DueItem | None:
    """A claim refused for form, or by silence, can be sent in again for a time.

    Source: the section the terms cite.
    """
    how = "by silence " if case.dates.refused_by_silence_on else ""
    refusal = f"the refusal {how}on {case.claim.answered}"
    because = _counted(case.terms.resubmit_within if case.terms else None, refusal)
    return _item(case, case.dates.resubmit_by, RESUBMIT_BY, "shop", because)


def contest_the_charge_back(case: _Owing) -> DueItem | None:
    """Money taken back after an audit could reach is contested, from the day it was taken back.

    Source: the section the terms cite.
    """
    reached_to, claim = case.dates.audit_reached_to, case.claim
    if reached_to is None:
        return None
    because = f"an audit of the payment on {claim.charged_from} reached to {reached_to}, before money was taken back"
    return _item(case, claim.charged_back_on, CONTEST_CHARGE_BACK, "shop", because)


def keep_records_until(case: _Owing) -> DueItem | None:
    """After payment the maker may audit for a time. A day that is over is nothing to do.

    Source: the section the terms cite.
    """
    on = case.dates.audit_until
    if on is None or on < case.today:
        return None
    reach = case.terms.audit_reach if case.terms else None
    said = f"an audit reaches back {reach.in_words()}" if reach else "an audit reaches back"
    return _item(case, on, "keep records until", "shop", f"{said} from the payment on {case.claim.paid_on}")


DUE_RULES: tuple[DueRule, ...] = (
    approval_expires,
    file_by,
    answer_expected,
    payment_expected,
    contest_the_refusal,
    contest_the_charge_back,
    send_again_by,
    keep_records_until,
)
"""Every date of a claim, in the order it meets them."""


def _start(terms: Terms | None) -> str:
    return "filing" if terms and terms.answer_from == "filed" else "receipt"


def _counted(length: Period | None, start: str) -> str:
    return f"{length.in_words()} from {start}" if length else f"counted from {start}"


def _item(case: _Owing, on: date | None, what: str, whose: Turn, because: str, *, cited: bool = True) -> DueItem | None:
    if on is None:
        return None
    cites = case.terms.cites if case.terms and cited else ""
    sent = letter_sent(case.claim, case.today) if what in _ASKED_FOR else ""
    because = f"{because}; {sent}" if sent else because
    return DueItem(on, what, case.claim.number, 0, "", whose, cites, because)


def due(
    claims: Iterable[ListedClaim],
    parts: Iterable[ListedPart],
    terms_of: Mapping[str, Terms],
    between: tuple[date, date],
) -> list[DueItem]:
    """Everything with a date up to a day, or missed and still to be done; the earliest first.

    Args:
        claims: claims that may have one; one named twice counts once.
        parts: held parts that may have one.
        terms_of: the payment terms in force, by claim number.
        between: the day it is, and the last day looked at.
    """
    today, until = between
    # claims are looked up by several of their days, and some are found by more than one
    once = {claim.number: claim for claim in claims}.values()
    with_terms = [(claim, terms_of.get(claim.number)) for claim in once]
    on_the_day = [(as_of(claim, terms, today), terms) for claim, terms in with_terms]
    cases = [_Owing(claim, payment_dates(claim, terms), terms, today) for claim, terms in on_the_day]
    found = [item for case in cases for rule in DUE_RULES if (item := rule(case))]
    found += [item for part in parts if (item := _of_part(part, terms_of.get(part.code.claim), today))]
    return in_order(item for item in found if item.on <= until)


def in_order(items: Iterable[DueItem]) -> list[DueItem]:
    """Dates as they are listed: the earliest first, those of one day by claim and part."""
    return sorted(items, key=lambda item: (item.on, item.claim, item.nth))


def look_again(claim: str, note: Note) -> DueItem:
    """A day that a note names, to look at a claim again."""
    because = f"{note.who} on {note.on}: {' '.join(note.text.split())}"
    return DueItem(note.again or note.on, "look again", claim, 0, "", "shop", "", because)


def _of_part(part: ListedPart, terms: Terms | None, today: date) -> DueItem | None:
    """A part called back must be sent; a held one must be kept until the first rule lets it go.

    Source: common practice, no source; the hold is the plan's, the time to inspect the terms'.
    """
    if part.state == "called back":
        if part.send_by is None:
            return None
        return _part_item(part, part.send_by, SEND_PART_BY, "", "the maker called it back")
    inspect = inspect_by(part.filed, part.received, terms)
    on = kept_until(Keeping(part.state, part.keep_until, inspect))
    # a part that may go is nothing to be done by a day: it stands in the list of what may be scrapped
    if on is None or on < today:
        return None
    if on == part.keep_until:
        return _part_item(part, on, "keep the part until", "", "the plan's hold ends")
    cites = terms.cites if terms else ""
    return _part_item(part, on, "keep the part until", cites, "the maker's time to inspect it ends")


def _part_item(part: ListedPart, on: date, what: str, cites: str, because: str) -> DueItem:
    return DueItem(on, what, part.code.claim, part.code.nth, part.part, "shop", cites, because)


def starts_of(length: Period, between: tuple[date, date]) -> tuple[date, date]:
    """The days between which a period may have begun that ends between two days; a few days too many, never too few.

    Months of different lengths make several days end on the same one, and days counted after months end elsewhere than
    days counted before them.
    """
    back = Period(*(-count for count in length))
    first, last = between
    # wider than need be: the book is asked for claims that may have a date, and the rules look at each
    return moved(first, back) - _MONTHS_DIFFER, moved(last, back) + _MONTHS_DIFFER
