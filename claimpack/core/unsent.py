"""A correction that the maker has not: what changed after a claim was filed, until it is filed again."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from typing import NamedTuple

from claimpack.core.audited import filing_course
from claimpack.core.events import Event


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
