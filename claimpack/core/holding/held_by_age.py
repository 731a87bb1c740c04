"""Held parts by age and state: what must be sent, what may go now, what a count did not find."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from datetime import date
from typing import NamedTuple

from claimpack.core.values.ageing import BY_AGE, age, age_bucket

STATES = ("held", "called back", "released")
"""The states of a part that is still in the shop, as a report lists them."""


class ShelvedPart(NamedTuple):
    """A held part that is still in the shop; rule is empty while it must be kept, because says why it may go.

    Doubt says why a part that a rule lets go is better kept; it is empty where nothing speaks so. `terms_unread` is
    what the terms are named by that could let it go and cannot be read.
    """

    code: str
    part: str
    maker: str
    model: str
    shelf: str
    state: str
    since: date | None
    send_by: date | None
    keep_until: date | None
    missing: date | None
    rule: str = ""
    because: str = ""
    doubt: str = ""
    terms_unread: str = ""

    @property
    def may_go(self) -> bool:
        """Whether a rule lets it go, and nothing speaks for keeping it."""
        return bool(self.rule) and not self.doubt


class HeldByAge(NamedTuple):
    """Held parts counted by state and bucket, from young to old; a part whose day is not noted is in the last count.

    Whether what `may_be_free` may go nobody can say, as the terms that may let it cannot be read.
    """

    buckets: tuple[str, ...]
    states: tuple[tuple[str, tuple[int, ...]], ...]
    parts: int
    may_go: tuple[ShelvedPart, ...]
    better_kept: tuple[ShelvedPart, ...]
    may_be_free: tuple[ShelvedPart, ...]
    to_send: tuple[ShelvedPart, ...]
    missing: tuple[ShelvedPart, ...]


NO_DAY = "no day noted"


def held_by_age(parts: Iterable[ShelvedPart], today: date) -> HeldByAge:
    """The parts in the shop by days since they were put on the shelf; what was put there after the day is left out.

    Source: common practice, no source; the buckets are those of claims.
    """
    # a report of an earlier day must not show what came after it
    listed = [part for part in parts if part.since is None or part.since <= today]
    buckets = (*BY_AGE, *([NO_DAY] if any(part.since is None for part in listed) else []))
    to_send = [part for part in listed if part.state == "called back"]
    return HeldByAge(
        buckets=buckets,
        states=tuple((state, _counts(listed, state, buckets, today)) for state in STATES),
        parts=len(listed),
        may_go=tuple(part for part in listed if part.may_go),
        better_kept=tuple(part for part in listed if part.rule and part.doubt),
        may_be_free=tuple(part for part in listed if part.state == "held" and not part.rule and part.terms_unread),
        to_send=tuple(sorted(to_send, key=lambda part: (part.send_by or date.max, part.code))),
        missing=tuple(part for part in listed if part.missing),
    )


def _counts(parts: Sequence[ShelvedPart], state: str, buckets: tuple[str, ...], today: date) -> tuple[int, ...]:
    counts = dict.fromkeys(buckets, 0)
    for part in parts:
        if part.state == state:
            counts[age_bucket(age(part.since, today)) if part.since else NO_DAY] += 1
    return tuple(counts.values())
