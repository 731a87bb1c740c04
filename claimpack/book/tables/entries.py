"""What the book hands out and takes back: whole claims, who changes them, and a change being made."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence
from typing import TYPE_CHECKING, NamedTuple

from claimpack.book.tables.rows import KeptFile
from claimpack.errors import BadInput

if TYPE_CHECKING:
    from claimpack.core.claims.claim import Claim
    from claimpack.core.events.events import Event, NewEvent
    from claimpack.core.events.standing import Standing
    from claimpack.core.judging.claim_summary import ClaimSummary


class Entry(NamedTuple):
    """A claim as the book holds it."""

    claim: Claim
    revision: int
    standing: Standing
    summary: ClaimSummary
    files: tuple[KeptFile, ...] = ()


class Author(NamedTuple):
    """Who changes the book, and when by the shop's clock."""

    who: str
    at: dt.datetime


class Clock(NamedTuple):
    """A running labour clock."""

    technician: str
    claim: str
    operation: str
    started: dt.datetime


class Wanted(NamedTuple):
    """Which claims a list is about; what is empty does not narrow it.

    `refused_rest`: those with a rest that the maker refused and nobody let go, whatever their state; beside those in
    the states wanted, where there are any. `text` is looked up in everything.
    """

    states: tuple[str, ...] = ()
    refused_rest: bool = False
    maker: str = ""
    text: str = ""
    limit: int | None = None


EVERY = Wanted()
"""Every claim."""


class Change:
    """A change being made to one claim, whose history is folded on; nothing is kept unless it is saved."""

    def __init__(self, entry: Entry, history: Sequence[Event] = ()) -> None:
        self.entry = entry
        self.standing = entry.standing
        self.history = history
        self.claim = entry.claim
        self.summary = entry.summary
        self.files = entry.files
        # empty means that nothing is written: a command may look under the lock and decide against it
        self.new_events: tuple[NewEvent, ...] = ()
        self.stopped: Clock | None = None

    def save(
        self,
        claim: Claim,
        summary: ClaimSummary,
        new_event: NewEvent,
        *more: NewEvent,
        files: Sequence[KeptFile] | None = None,
    ) -> None:
        """Keep the claim as it now is, and what happened; of several saves the last counts.

        Raises:
            WrongState: what happened does not follow from where the claim stands.
            BadInput: the claim's number is another one, or a held part would get another code.
        """
        from claimpack.core.claims.part_codes import refuse_moved_codes
        from claimpack.core.events.fold import Folding
        from claimpack.core.events.transitions import may_follow

        # the number is how everything beside the claim finds it: tags, packets, the history
        if claim.number != self.entry.claim.number:
            raise BadInput(
                f"number: {claim.number} is not {self.entry.claim.number}",
                "A claim keeps its number: tags and packets carry it.",
                "Open a new claim for another number.",
            )
        new_events = (new_event, *more)
        folding = Folding(self.history)
        # a part that went back to its maker keeps its code, so that its history stays its own
        states = {part.index: part.state for part in folding.standing.parts if part.state != "held"}
        refuse_moved_codes(claim.number, self.entry.claim.held, claim.held, states)
        # each against what those before it lead to: two events of one save follow each other
        for each in new_events:
            may_follow(folding.standing, each, claim.number)
            folding.take(each)
        self.claim, self.summary, self.new_events, self.standing = claim, summary, new_events, folding.standing
        self.files = self.entry.files if files is None else tuple(files)

    def stop_clock(self, clock: Clock) -> None:
        """Take a running clock away in the same transaction as what is saved, so that its time counts once."""
        self.stopped = clock
