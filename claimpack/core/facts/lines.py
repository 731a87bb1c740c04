"""What a claim asks for, line by line: parts, labour, extras; and the parts that are kept."""

from __future__ import annotations

from decimal import Decimal
from typing import Literal, Self

from claimpack.core.facts.fields import ExtraKind, FailureNumber, Payer
from claimpack.core.facts.record import Record
from claimpack.core.values.days import Day, Moment, to_the_minute
from claimpack.core.values.marks import Field, model_validator
from claimpack.core.values.money import NotNegative, Positive
from claimpack.core.values.words import Line, Named, folded


class Part(Record):
    """A part used in the repair; its costs may carry more decimals than the currency.

    Args:
        number: the maker's part number, as in `70-1180`.
        name: what the part is called, as in `short block`.
        quantity: how many.
        unit_cost: what one costs the shop; may carry more decimals than the currency, as in `"146.40"`.
        list_price: what the maker sells one for, where it pays the handling of parts that it sent, as in `"183.00"`.
        core: the deposit on one until the old one is returned, as in `"45.00"`.
        core_returned: the day the old one was returned.
        source: from the shop's stock, or sent by the maker at no charge.
        payer: who pays it.
        failure: which failure of the claim it is for, counted from 1.
    """

    number: Line = ""
    name: Named
    quantity: Positive = Decimal(1)
    unit_cost: NotNegative = Decimal(0)
    list_price: NotNegative | None = None
    core: NotNegative | None = None
    core_returned: Day | None = None
    source: Literal["stock", "maker"] = "stock"
    payer: Payer = "maker"
    failure: FailureNumber = 1


# written by earlier versions where a login had no name, and by programs that insist on one
_NO_NAMES = ("somebody", "someone", "anybody", "nobody", "unknown", "not known", "n/a", "none")


def known_name(technician: str) -> str:
    """The technician that a name tells; empty where it is a word that stands for anybody."""
    return "" if folded(technician) in _NO_NAMES else technician


class Labour(Record):
    """Work by one technician: an operation of the plan's schedule or free text; hours, or a start and an end.

    Args:
        operation: a code of the plan's time schedule, or what was done in words, as in `short-block-replace`.
        class_: what the maker's labour rate may go by; absent for that of the operation, as in `engine`.
        hours: how long it took, in hours, as in `"1.6"`.
        started: when the work began, as in `2026-02-24T09:10:00`.
        ended: when the work ended, as in `2026-02-24T10:52:00`.
        technician: who did it.
        payer: who pays it.
        failure: which failure of the claim it is for, counted from 1.
    """

    operation: Named
    class_: Line = Field(default="", alias="class")
    hours: NotNegative | None = None
    started: Moment | None = None
    ended: Moment | None = None
    technician: Line = ""
    payer: Payer = "maker"
    failure: FailureNumber = 1

    @model_validator(mode="after")
    def _ends_after_it_starts(self) -> Self:
        if self.ended and not self.started:
            raise ValueError("ended is given without started")
        if self.started and self.ended:
            # a moment and a time on some wall cannot be subtracted
            if (self.started.tzinfo is None) != (self.ended.tzinfo is None):
                raise ValueError("started and ended must both carry a time zone, or neither")
            if self.ended < self.started:
                ended, started = to_the_minute(self.ended, self.started)
                raise ValueError(f"ended {ended} is before started {started}")
        return self

    @property
    def worker(self) -> str:
        """Who did it; empty where nobody is named, or by a word that stands for anybody."""
        return known_name(self.technician)


class Extra(Record):
    """Freight, outside work, travel, disposal: at an amount, or by the distance of a visit at the plan's rate.

    Args:
        what: what it is, in words, as in `freight for the short block`.
        kind: what kind it is, where the plan pays by kind.
        amount: what it costs, as in `"12.50"`.
        distance: how far a visit was, in the unit the plan pays by, instead of an amount, as in `34`.
        approval: the number under which the maker approved this alone.
        payer: who pays it.
        failure: which failure of the claim it is for, counted from 1.
    """

    what: Named
    kind: ExtraKind | None = None
    amount: NotNegative | None = None
    distance: NotNegative | None = None
    approval: Line = ""
    payer: Payer = "maker"
    failure: FailureNumber = 1

    @model_validator(mode="after")
    def _has_a_price(self) -> Self:
        if self.kind != "travel" and self.distance is not None:
            raise ValueError('distance is for kind = "travel"')
        if self.kind != "travel" and self.amount is None:
            raise ValueError("amount is missing")
        if self.amount is not None and self.distance is not None:
            raise ValueError("give an amount or a distance; the plan's rate gives the amount of a distance")
        return self


class HeldPart(Record):
    """A failed part that the shop keeps until the maker lets it go.

    Args:
        part: the part, as in `short block`.
        number: the maker's part number.
        serial: its serial number, where it has one.
        shelf: where it stands, as in `B3`.
        boxed: whether it is in its box.
        drained: whether fuel and oil were drained.
        hazard: what makes it dangerous to store or send.
        since: the day it was put there.
    """

    part: Named
    number: Line = ""
    serial: Line = ""
    shelf: Line = ""
    boxed: bool = False
    drained: bool | None = None
    hazard: Literal["fuel", "lithium battery", "wet battery", "none"] | None = None
    since: Day | None = None
