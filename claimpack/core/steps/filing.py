"""Filing: whether a claim may go to the maker, and what is recorded when it does."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from datetime import date
from typing import NamedTuple

from claimpack.core.events.day_order import refuse_before_what_it_follows
from claimpack.core.events.events import Event, NewEvent
from claimpack.core.events.standing import Standing
from claimpack.core.events.transitions import may_follow
from claimpack.core.facts.record import Record
from claimpack.core.judging.assessment import Assessment
from claimpack.core.steps.settling import refuse_day_ahead
from claimpack.core.values.days import Day
from claimpack.core.values.money import plain
from claimpack.core.values.wording.sentence import Sentence
from claimpack.core.values.words import Line, Text
from claimpack.errors import BadInput, NotFound

NOTHING = "nothing"
"""What spoke against a filing that a reason was given for in vain."""


class Sent(Record):
    """How a claim went out: the day, the day the maker received it, the maker's reference, why it went all the same.

    `layout` is the packet's, where it was asked for by name.
    """

    on: Day
    received: Day | None = None
    reference: Line = ""
    anyway: Text = ""
    layout: Line = ""


def refuse_unfilable(assessment: Assessment, standing: Standing, sent: Sent, today: date) -> None:
    """Refuse what no reason can make right: a step out of turn, an impossible day, a claim without a price.

    Raises:
        WrongState: the claim is in a state from which it is not filed.
        BadInput: the day of filing or of receipt cannot be, or no plan says what is claimed.

    Source: a rule of this tool's, no source.
    """
    # the state first: on a claim that cannot be filed no option would help
    may_follow(standing, NewEvent(what="filed", on=sent.on), assessment.claim.number)
    presented = assessment.claim.dates.presented
    if sent.on < presented:
        raise BadInput(
            f"--on: {sent.on} is before {presented}, the day the unit came in",
            "A claim is filed after the repair.",
            "Correct the day; or the claim's dates.presented.",
        )
    if standing.filed and sent.on < standing.filed:
        raise BadInput(
            f"--on: {sent.on} is before {standing.filed}, the day it was filed before",
            "A claim is sent in again after it was sent in.",
            "Correct the day.",
        )
    refuse_before_what_it_follows(standing, NewEvent(what="filed", on=sent.on))
    for day, option in ((sent.on, "--on"), (sent.received, "--received")):
        if day:
            refuse_day_ahead(day, today, option)
    # sent and received on one day is the rule with a maker's portal
    if sent.received and sent.received < sent.on:
        raise BadInput(
            f"--received: {sent.received} is before {sent.on}, the day of filing",
            "The maker cannot receive what was not sent.",
            "Correct one of the two days.",
        )
    if assessment.amounts is None:
        raise BadInput(
            f"claim {assessment.claim.number} has no price: {assessment.headline}",
            "What is claimed is frozen with the packet, and without a plan nobody knows how much that is.",
            f"See why: claimpack check {assessment.claim.number}",
        )


def blocks(assessment: Assessment, said: Callable[[Sentence], str] = Sentence.plainly) -> tuple[str, ...]:
    """What speaks against filing, a sentence each; empty for a complete claim in time, covered or asking for goodwill.

    Args:
        assessment: the claim as it would go out.
        said: how a sentence is said: for the history and scripts, or for people.

    Source: common practice, no source.
    """
    # a favour is asked of the maker because the claim is not covered
    refused = assessment.verdict != "covered" and not (assessment.goodwill and assessment.claim.asks_goodwill)
    verdict = (said(assessment.headline),) if refused else ()
    late = (said(assessment.late.says),) if assessment.late else ()
    nothing = assessment.claim.case == "declined" and not (assessment.amounts and assessment.amounts.claimed)
    declined = ("The owner declined, and the plan pays nothing of what was done.",) if nothing else ()
    sellers = ("The seller owes it alone, and nothing is asked of the maker.",) if assessment.seller_alone else ()
    lacking = tuple(f"{said(item.what)}. {said(item.why)}" for item in assessment.missing if item.blocks_filing)
    return verdict + declined + sellers + late + lacking


def filed(
    assessment: Assessment, sent: Sent, packet: str, revision: int, against: tuple[str, ...] | None = None
) -> NewEvent:
    """What is recorded of a filing.

    Args:
        assessment: the claim as it went out.
        sent: how it went out.
        packet: the SHA-256 of the frozen packet.
        revision: the revision of the claim that the packet was drawn from.
        against: what spoke against it; None for what the assessment says.
    """
    amounts, against = assessment.amounts, blocks(assessment) if against is None else against
    facts = {
        "packet": packet,
        "claimed": plain(amounts.claimed) if amounts else "0",
        "currency": amounts.currency if amounts else "",
        "revision": str(revision),
        "received": sent.received.isoformat() if sent.received else "",
        "reference": sent.reference,
        "verdict": assessment.verdict,
        # an older book has no such fact; NOTHING tells a filing that nothing spoke against from one nobody recorded it
        # of
        "against": "; ".join(said.rstrip(".") for said in against) or (NOTHING if sent.anyway else ""),
        "layout": sent.layout,
    }
    told = {name: fact for name, fact in facts.items() if fact}
    return NewEvent(what="filed", on=sent.on, why=sent.anyway, facts=told)


def filings(history: Iterable[Event]) -> list[Event]:
    """The filings among events, the first one first; each names its frozen packet."""
    # a claim taken over from elsewhere was filed without a packet of this book's
    return [event for event in history if event.what == "filed" and "packet" in event.facts]


def layout_before(history: Iterable[Event]) -> str:
    """The layout that the packet filed last was asked for in; empty where it was the shop's."""
    return next((filing.facts.get("layout", "") for filing in reversed(filings(history))), "")


class FilingFound(NamedTuple):
    """The filing a packet is held against: which, counted from 1, its day, and whether it froze this very packet."""

    version: int
    on: date
    same: bool


def filing_with(history: Iterable[Event], packet: str) -> FilingFound | None:
    """The filing that froze the packet of this SHA-256, else the last one, which froze another; None without any."""
    found = [FilingFound(nth, each.on, each.facts["packet"] == packet) for nth, each in enumerate(filings(history), 1)]
    return next((filing for filing in found if filing.same), found[-1] if found else None)


def filing_of(number: str, history: Iterable[Event], version: int = 0) -> Event:
    """One filing of a claim, counted from 1; the last one for 0.

    Raises:
        NotFound: it has not been filed so often.
    """
    found = filings(history)
    if found and 0 <= version <= len(found):
        return found[version - 1]
    times = {0: "has not been filed", 1: "was filed once"}.get(len(found), f"was filed {len(found)} times")
    raise NotFound(
        f"claim {number} {times}" + (f", so there is no version {version} of its packet" if found else ""),
        "Filing freezes the packet as it goes out.",
        f"See: claimpack history {number}" if found else f"File it: claimpack file {number}",
    )


IMPORT = "import"
"""The fact of events that came with a list of claims: which import it was."""


class FilingCourse(NamedTuple):
    """How a claim was filed: the first day, and the last correction since it was sent, with its reason.

    Of the last filing: the verdict, what spoke against it, and why it went all the same; older books keep no against.
    `elsewhere`: it was filed before the claim came into the book, so what went with it is not known.
    """

    first_filed: date | None = None
    corrected: date | None = None
    why: str = ""
    verdict: str = ""
    against: str = ""
    anyway: str = ""
    elsewhere: bool = False


NEVER_FILED = FilingCourse()
"""A claim that was never filed."""


def filing_course(events: Iterable[Event | NewEvent], start: FilingCourse = NEVER_FILED) -> FilingCourse:
    """How a claim was filed, from its events in their order; a claim that was withdrawn begins anew."""
    course = start
    for event in events:
        if event.what == "filed":
            verdict, against = (event.facts.get(name, "") for name in ("verdict", "against"))
            first, elsewhere = course.first_filed or event.on, IMPORT in event.facts
            # sent anew, what was corrected before has gone out with it
            course = FilingCourse(first, None, "", verdict, against, event.why, elsewhere)
            if against == NOTHING:
                # an --anyway that nothing called for is no sign of a claim pushed through
                course = course._replace(against="", anyway="")
        elif event.what == "corrected":
            course = course._replace(corrected=event.on, why=event.why)
        elif event.what == "withdrawn":
            # taken back and filed again, it counts from its new first day
            course = NEVER_FILED
    return course


class Unsent(NamedTuple):
    """The day of the last correction that was not sent, and the revision that the maker has."""

    on: date
    sent_as: int

    def told(self, number: str) -> str:
        """When it was corrected, that this version was not sent, and how to see the one that was."""
        return (
            f"{self.on}, after it was filed; this version was not sent. "
            f"What the maker has: claimpack show {number} --revision {self.sent_as}"
        )


def unsent(events: Sequence[Event]) -> Unsent | None:
    """The last correction after the last filing; None where the maker has the claim as it is, or does not have it.

    Source: a rule of this tool's, no source.
    """
    corrected = filing_course(events).corrected
    sent_as = next((event.revision for event in reversed(events) if event.what == "filed"), None)
    return Unsent(corrected, sent_as) if corrected and sent_as else None
