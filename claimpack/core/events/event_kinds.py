"""Every event there is: what it is called, from where it follows, after which day, its words, and the command for it.

An event is added here, with a command that records it. One that changes more than the state has its fold in
`fold` or `part_state` besides.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Literal, NamedTuple

from claimpack.core.events.states import PartState, State, told_state

EventName = Literal[
    "opened",
    "imported",
    "edited",
    "corrected",
    "filed",
    "received",
    "answered",
    "answer undone",
    "paid",
    "payment undone",
    "charged back",
    "written off",
    "withdrawn",
    "reopened",
    "part moved",
    "part called back",
    "part sent",
    "part released",
    "part scrapped",
    "part call-back undone",
    "part sending undone",
    "part release undone",
    "part scrapping undone",
    "shelf counted",
    "noted",
    "finding settled",
    "finding taken up",
    "chased",
    "erased",
    "shop named",
]

Condition = Literal[
    "a rest is refused",
    "a rest was let go",
    "a charge-back was written off",
    "it was accepted without an answer",
    "an answer is there",
    "another day is named",
    "money is kept",
    "money moved while the maker has it",
    "a payment is there",
    "the answer came after the money",
]
"""What an event may depend on beside the state; `transitions` knows when each holds."""

Milestone = Literal[
    "call-back", "last answer", "last money", "last payment or charge-back", "money to take back", "receipt", "release"
]
"""A day that an event may have to come after; `day_order` knows which day it is."""

NOT_THERE_YET = "The maker cannot act on a claim it does not have."


class EventKind(NamedTuple):
    """What holds of every event of one name.

    Args:
        name: what the history calls it.
        follows: the states of the claim, or of the part it names, from which it follows; None for any.
        besides: where it follows all the same, from whatever state.
        unless: where it does not follow in spite of the state.
        needs: what must be there to be taken back by it, before it is named as a way on.
        takes_back: it undoes the last event of these kinds.
        after: days it cannot lie before, each with why.
        since_filing: why it cannot lie before the day of filing; None where it can.
        can: the event as something that can happen, in words; empty where it is not named.
        again: the same where the claim was filed, or money came, before.
        cannot: the step that is refused, after "it cannot"; empty for "be NAME".
        way: what one wants who takes that command, and the command; {number} is the claim.
        rather: what may be meant by somebody who tries it in vain.
        of_a_part: whether it is about a held part, which its facts name.
    """

    name: EventName
    follows: tuple[str, ...] | None = None
    besides: tuple[Condition, ...] = ()
    unless: Condition | None = None
    needs: Condition | None = None
    takes_back: tuple[EventName, ...] = ()
    after: tuple[tuple[Milestone, str], ...] = ()
    since_filing: str | None = NOT_THERE_YET
    can: str = ""
    again: tuple[Condition | Literal["filed before"], str] | None = None
    cannot: str = ""
    way: tuple[str, str] | None = None
    rather: EventName | None = None
    of_a_part: bool = False


_LATER_STILL = "It is taken up again after it was given up, and that was later still."
_LET_GO_LATER = "The maker still wanted the part when it called it back, and let it go later."
_SENT_AFTER = "A part goes to the maker after it was called back, not before."

_OF_CLAIMS = (
    EventKind("opened"),
    EventKind("imported"),
    EventKind("edited", ("draft",), can="the shop changes it"),
    EventKind(
        "corrected",
        ("filed", "questioned", "accepted", "refused"),
        besides=("a rest is refused",),
        can="the shop corrects it",
    ),
    EventKind(
        "filed",
        # an accepted claim is not sent in again: nothing is asked that was not granted
        ("draft", "questioned", "refused"),
        besides=("a rest is refused",),
        after=(("last answer", "A claim is sent in again after the maker answered, not before."),),
        can="it is filed",
        again=("filed before", "it is sent in again"),
        way=("send it in", "claimpack file {number}"),
    ),
    # noted again as often as it takes: nothing follows from it but days
    EventKind("received", ("filed", "questioned"), can="the day of its receipt is noted"),
    EventKind(
        "answered",
        # an answer to a refused claim is a maker that changed its mind
        ("filed", "questioned", "refused"),
        besides=("it was accepted without an answer", "a rest is refused"),
        after=(
            ("receipt", "The maker answers what it has received."),
            ("last answer", "An answer follows the one before it; the last one counts."),
        ),
        can="the maker answers it",
        way=("record an answer of the maker's", "claimpack answer {number} accepted|part|refused|questioned"),
    ),
    EventKind(
        "answer undone",
        ("questioned", "accepted", "refused"),
        besides=("the answer came after the money",),
        needs="an answer is there",
        takes_back=("answered",),
        after=(("last answer", "An answer is taken back after it was recorded."),),
        since_filing="The answer that is taken back came after the filing.",
        cannot="have its answer undone",
        way=("its answer was a mistake", "claimpack answer {number} --undo --because TEXT"),
    ),
    EventKind(
        "paid",
        # a paid claim may be paid more: whether the amount can be right is asked where it is recorded
        ("filed", "questioned", "accepted", "paid"),
        can="money comes in",
        again=("money is kept", "more money comes in"),
        way=("money came", "claimpack pay {number} AMOUNT"),
    ),
    EventKind(
        "payment undone",
        ("accepted", "paid"),
        besides=("money moved while the maker has it", "a charge-back was written off"),
        needs="a payment is there",
        takes_back=("paid", "charged back"),
        after=(("last payment or charge-back", "A payment is taken back after it was recorded."),),
        since_filing="The payment that is taken back came after the filing.",
        cannot="have its payment undone",
        way=("its payment was a mistake", "claimpack pay {number} --undo --because TEXT"),
    ),
    EventKind(
        "charged back",
        ("paid", "accepted"),
        besides=("money moved while the maker has it",),
        needs="money is kept",
        after=(("money to take back", "Nobody can take back what had not come in by then."),),
        can="the maker takes money back",
        way=("the maker took money back", "claimpack pay {number} AMOUNT --charged-back --because TEXT"),
    ),
    EventKind(
        "written off",
        ("filed", "questioned", "accepted", "refused"),
        besides=("a rest is refused",),
        after=(
            ("last answer", "What is given up is what that answer left."),
            ("last money", "What is given up is what that payment left."),
        ),
        since_filing="What is given up was claimed first.",
        can="it is written off",
        way=("give it up", "claimpack write-off {number} --because TEXT"),
    ),
    EventKind(
        "withdrawn",
        ("draft", "filed", "questioned", "accepted", "refused"),
        # what was paid for cannot be unsaid; it is charged back, or written off
        unless="money is kept",
        after=(("last answer", "The claim still stood when the maker answered it."),),
        since_filing="A claim that was filed is taken back after it went out, not before.",
        can="it is withdrawn",
        way=("take it back", "claimpack withdraw {number} --because TEXT"),
        rather="written off",
    ),
    EventKind(
        "reopened",
        ("withdrawn", "written off"),
        besides=("a rest was let go",),
        takes_back=("written off", "withdrawn"),
        after=(("last answer", _LATER_STILL), ("last money", _LATER_STILL)),
        since_filing="It is taken up again after it was filed, not before.",
        can="it is taken up again",
        way=("take up again what was given up", "claimpack reopen {number} --because TEXT"),
    ),
    EventKind(
        "chased",
        ("filed", "questioned", "accepted", "refused", "paid"),
        since_filing="A letter asks about what the maker has.",
        cannot="be chased",
    ),
    # these follow anywhere: they say what was seen, said or erased, and change no state
    EventKind("shelf counted"),
    EventKind("noted"),
    EventKind("finding settled"),
    EventKind("finding taken up"),
    EventKind("erased"),
    EventKind("shop named"),
)


def _of_a_part(name: EventName, follows: tuple[PartState, ...]) -> EventKind:
    return EventKind(name, follows, of_a_part=True)


def _undoing(name: EventName, follows: PartState, takes_back: EventName) -> EventKind:
    step = name.removeprefix("part ").removesuffix(" undone")
    return _of_a_part(name, (follows,))._replace(
        takes_back=(takes_back,), since_filing=None, cannot=f"have its {step} undone"
    )


_OF_PARTS = (
    _of_a_part("part moved", ("held", "called back", "released"))._replace(since_filing=None),
    _of_a_part("part called back", ("held",))._replace(
        besides=("another day is named",),
        after=(("call-back", "Another day to send it by is named after that."),),
    ),
    _of_a_part("part sent", ("called back",))._replace(after=(("call-back", _SENT_AFTER),)),
    _of_a_part("part released", ("held", "called back"))._replace(after=(("call-back", _LET_GO_LATER),)),
    _of_a_part("part scrapped", ("released",))._replace(
        after=(("release", "A part that the maker let go is scrapped after that, not before."),), since_filing=None
    ),
    _undoing("part call-back undone", "called back", "part called back"),
    _undoing("part sending undone", "sent", "part sent"),
    _undoing("part release undone", "released", "part released"),
    _undoing("part scrapping undone", "scrapped", "part scrapped"),
)

EVENT_KINDS: Mapping[EventName, EventKind] = {kind.name: kind for kind in (*_OF_CLAIMS, *_OF_PARTS)}
"""Every event by its name, those of claims first, each in the order a claim or a part meets them."""

WAYS: Mapping[State, tuple[EventName, ...]] = {
    "draft": ("filed", "withdrawn"),
    "filed": ("answered", "withdrawn"),
    "questioned": ("filed", "answered"),
    "accepted": ("answer undone", "payment undone", "paid"),
    "refused": ("filed", "answered", "written off"),
    "paid": ("reopened", "payment undone", "charged back", "filed"),
    "written off": ("reopened",),
    "withdrawn": ("reopened",),
}
"""What takes a claim further from each state, the likeliest first."""

PART_WAYS: Mapping[PartState, str] = {
    "held": "The maker wants it: claimpack hold call-back {code}; it lets it go: claimpack hold release {code} "
    "--because TEXT",
    "called back": "It goes to the maker: claimpack hold send {code}; the maker lets it go: claimpack hold release "
    "{code} --because TEXT; it names another day: claimpack hold call-back {code} --send-by DATE",
    "sent": "See what became of it: claimpack history {number}; if its sending was a mistake: claimpack hold send "
    "{code} --undo --because TEXT",
    "released": "It may go: claimpack hold scrap {code}; its release was a mistake: claimpack hold release {code} "
    "--undo --because TEXT",
    "scrapped": "See what became of it: claimpack history {number}; if its scrapping was a mistake: claimpack hold "
    "scrap {code} --undo --because TEXT",
}
"""What takes a held part further from each state."""


def command_of(kind: EventName, number: str) -> str:
    """The command that records an event of a claim."""
    way = EVENT_KINDS[kind].way
    return way[1].format(number=number) if way else ""


def from_where(kind: EventKind) -> str:
    """What an event of a claim is, and the states it follows from, in words."""
    said = kind.can or (kind.way[0] if kind.way else kind.name)
    besides = "".join(f", or where {condition}" for condition in kind.besides)
    unless = f", not where {kind.unless}" if kind.unless else ""
    states = [told_state(state) for state in kind.follows or ()]
    return f"{said[:1].upper()}{said[1:]}: while {either(states)}{besides}{unless}."


def either(said: Sequence[str]) -> str:
    """Several things of which one holds, in words."""
    return " or ".join([", ".join(said[:-1]), said[-1]] if len(said) > 1 else said)
