"""A statement of a maker's: its rows, the claims they may be about, and what each row comes to."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from datetime import date
from decimal import Decimal
from typing import Literal, NamedTuple

from claimpack.core.events.events import NewEvent
from claimpack.core.events.standing import Standing
from claimpack.core.values.money import ZERO

Outcome = Literal["paid in full", "short", "over", "charge-back", "cannot be booked"]
By = Literal["number", "reference", "serial", "part", "said"]


class StatementRow(NamedTuple):
    """One row: where it stands in the file, and what it says; below zero the maker took money back.

    `same_as` is the place of a row before it that says the same in every column, zero where there is none.
    """

    place: int
    amount: Decimal
    number: str = ""
    reference: str = ""
    serial: str = ""
    part: str = ""
    on: date | None = None
    because: str = ""
    same_as: int = 0

    @property
    def named(self) -> str:
        """What it names, in words."""
        return " ".join(name for name in (self.number, self.reference, self.serial, self.part) if name) or "no name"


class KnownClaim(NamedTuple):
    """A claim that a row may be about: serials, the maker's reference and the held parts as such numbers compare.

    `whose` says, where it is not to be booked with this shop's, that it is another shop's.
    """

    number: str
    is_of_maker: bool
    maker: str
    standing: Standing
    revision: int
    serials: tuple[str, ...] = ()
    reference: str = ""
    parts: tuple[str, ...] = ()
    whose: str = ""


class Statement(NamedTuple):
    """A whole statement: its memo number, its day, the mark of its file, the currency of its amounts, its rows."""

    memo: str
    on: date
    mark: str
    currency: str
    rows: tuple[StatementRow, ...]


class StatementMatch(NamedTuple):
    """A claim with its rows: what came in and was taken back, what was outstanding before, what will be recorded.

    `reasons` says what the difference comes to, or why it cannot be booked.
    """

    kind: Outcome
    claim: KnownClaim
    rows: tuple[StatementRow, ...]
    by: By
    paid: Decimal = ZERO
    charged_back: Decimal = ZERO
    reasons: tuple[str, ...] = ()
    events: tuple[NewEvent, ...] = ()

    @property
    def difference(self) -> Decimal:
        """What was outstanding, less what came in: above zero where it is short."""
        return self.claim.standing.outstanding - self.paid

    @property
    def because(self) -> str:
        """What the maker says of it."""
        return "; ".join(dict.fromkeys(row.because for row in self.rows if row.because))


class Unknown(NamedTuple):
    """A row that is about no claim for certain: why, and the claims it may be about."""

    row: StatementRow
    why: str
    perhaps: tuple[str, ...] = ()


class Matched(NamedTuple):
    """A statement matched: by claim in the order of its rows, and the rows that are left."""

    matches: tuple[StatementMatch, ...]
    unknown: tuple[Unknown, ...]


RowsSaid = Mapping[int, Sequence[tuple[str, Decimal | None]]]
"""The claims that somebody says a row is about, by the row's place; of several, each with its amount."""

_BETWEEN = re.compile(r"\s*(?:[,;/&+]|\band\b)\s*|\n|\s{2,}")


def numbers_in(cell: str) -> list[str]:
    """The numbers that stand side by side in one cell, as in `26-0001 / 26-0002`."""
    return [name for name in _BETWEEN.split(cell.strip()) if name]
