"""Payment terms: how fast a maker must answer and pay, and what silence means."""

from __future__ import annotations

from decimal import Decimal
from typing import Literal

from claimpack.core.claim import Record
from claimpack.core.days import Day
from claimpack.core.money import PartOfOne
from claimpack.core.periods import Duration
from claimpack.core.plan import TemplateId
from claimpack.core.words import Line, Named, Text


class Terms(Record):
    """Payment terms of one law or dealer agreement; a term that is absent is not known to exist."""

    format: Literal[1] = 1
    id: TemplateId
    name: Named
    cites: Line = ""
    read_on: Day | None = None
    answer_within: Duration | None = None
    answer_from: Literal["received", "filed"] = "received"
    silence: Literal["accepted", "refused", "nothing"] = "nothing"
    without_grounds: Literal["accepted", "nothing"] = "nothing"
    pay_within: Duration | None = None
    resubmit_within: Duration | None = None
    inspect_within: Duration | None = None
    inspect_from: Literal["filed", "received"] = "filed"
    audit_reach: Duration | None = None
    audit_from: Literal["paid"] = "paid"
    parts_floor: PartOfOne | None = None
    labour_floor: Literal["retail", "none"] = "none"
    note: Text = ""

    def floor_of(self, cost: Decimal) -> Decimal | None:
        """The least the law lets a maker pay for a part of that cost, unrounded; None where it sets no floor."""
        return None if self.parts_floor is None else cost * (1 + self.parts_floor)
