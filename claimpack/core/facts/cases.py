"""What only some claims have: approval, goodwill, a part sold, questions, earlier repairs."""

from __future__ import annotations

from datetime import date
from decimal import Decimal
from typing import Literal, Self

from claimpack.core.facts.fields import MeterHours
from claimpack.core.facts.record import Record
from claimpack.core.facts.unit import HOURS, Meters
from claimpack.core.values.days import Day
from claimpack.core.values.marks import model_validator
from claimpack.core.values.money import NotNegative
from claimpack.core.values.words import Line, Named, Text, folded


class Approval(Record):
    """The maker's word before the repair: asked for, given for an amount and up to a day, or refused.

    Args:
        number: the number the maker approved it under.
        on: the day the maker approved or refused it.
        by: who said so.
        up_to: the amount it was approved for, as in `"450.00"`.
        expires: the last day to repair under it.
        state: where it stands; absent where nobody wrote that down.
        asked: the day it was asked for.
        question: what the maker was asked.
        conditions: what the maker ties it to.
        because: why the maker refused it.
    """

    number: Line = ""
    on: Day | None = None
    by: Line = ""
    up_to: NotNegative | None = None
    expires: Day | None = None
    state: Literal["asked", "given", "refused"] | None = None
    asked: Day | None = None
    question: Text = ""
    conditions: Text = ""
    because: Text = ""

    @model_validator(mode="after")
    def _in_order(self) -> Self:
        if self.on and self.expires and self.expires < self.on:
            raise ValueError(f"expires {self.expires} is before on {self.on}")
        if self.on and self.asked and self.on < self.asked:
            raise ValueError(f"on {self.on} is before asked {self.asked}")
        return self

    @property
    def is_refused(self) -> bool:
        """Whether the maker said no."""
        return self.state == "refused"

    @property
    def is_waited_for(self) -> bool:
        """Whether it was asked for, and the maker has not said yes or no; a number is a yes."""
        return self.state == "asked" and not self.number

    @property
    def is_given(self) -> bool:
        """Whether the maker said yes: its number is proof of that."""
        return bool(self.number) and not self.is_refused

    def falls_short_of(self, claimed: Decimal) -> bool:
        """Whether more is claimed than it was given for."""
        return self.up_to is not None and claimed > self.up_to

    def came_after(self, repaired: date | None) -> bool:
        """Whether it was given only after the day of the repair."""
        return bool(self.on and repaired and self.on > repaired)

    def had_run_out(self, on: date | None) -> bool:
        """Whether its last day is before a day."""
        return bool(self.expires and on and self.expires < on)


class EarlierRepair(Record):
    """A repair of the same unit before this one.

    Args:
        component: what was repaired, as in `short block`.
        repaired: the day it was repaired.
        presented: the first day it was in the shop.
        returned: the last day it was in the shop.
        hours: the reading of the hour meter then, in hours, as in `"88.0"`.
        meters: the readings of other meters then, as in `[{kind = "cycles", value = "4100"}]`.
        claim: the number of the claim it was, as in `25-0310`.
        paid: what the maker paid for it, its tax left out, as in `"120.00"`.
        mended: whether it mended what had failed; false where the same came back.
        told: the day the owner told that it had not mended it; absent for the day the unit was brought in again.
    """

    component: Named
    repaired: Day
    presented: Day | None = None
    returned: Day | None = None
    hours: MeterHours | None = None
    meters: Meters = ()
    claim: Line = ""
    paid: NotNegative | None = None
    mended: bool | None = None
    told: Day | None = None

    @model_validator(mode="after")
    def _told_of_what_it_did_not_mend(self) -> Self:
        if self.told and self.mended:
            raise ValueError("told is the day the owner told that it did not mend it; take it away, or mended = true")
        if self.told and self.told < self.repaired:
            raise ValueError(f"told {self.told} is before repaired {self.repaired}")
        return self

    @model_validator(mode="after")
    def _in_order(self) -> Self:
        if self.presented and self.repaired < self.presented:
            raise ValueError(f"repaired {self.repaired} is before presented {self.presented}")
        if self.returned and self.returned < self.repaired:
            raise ValueError(f"returned {self.returned} is before repaired {self.repaired}")
        return self

    @model_validator(mode="after")
    def _hours_alone(self) -> Self:
        if any(folded(meter.kind) == HOURS for meter in self.meters):
            raise ValueError("the reading of the hour meter stands under hours, not under meters")
        return self


class Goodwill(Record):
    """A favour asked of the maker out of cover: why, and what.

    Args:
        because: why the maker is asked for a favour.
        asks: what is asked for, in words and kinds of line; those kinds alone are claimed, as in `parts`.
    """

    because: Text = ""
    asks: Line = ""


class PartSold(Record):
    """A part that was sold over the counter or fitted earlier, and has a warranty of its own.

    Args:
        number: its part number.
        name: what it is.
        serial: its own serial number; empty where it has none.
        sold: the day on its receipt.
        fitted: the day the shop fitted it.
        never_fitted: the shop did not fit it.
    """

    number: Line = ""
    name: Line = ""
    serial: Line = ""
    sold: Day | None = None
    fitted: Day | None = None
    never_fitted: bool = False

    @model_validator(mode="after")
    def _fitted_once_sold(self) -> Self:
        if self.sold and self.fitted and self.fitted < self.sold:
            raise ValueError(f"fitted {self.fitted} is before sold {self.sold}")
        if self.fitted and self.never_fitted:
            raise ValueError(f"never_fitted is true, but fitted is {self.fitted}")
        return self


class Question(Record):
    """What the maker asked about a claim, and what the shop answered.

    Args:
        asked: the day the question came in.
        text: what was asked.
        answered: the day it was answered.
        answer: what was answered.
    """

    asked: Day
    text: Text = ""
    answered: Day | None = None
    answer: Text = ""

    @model_validator(mode="after")
    def _asked_first(self) -> Self:
        if self.answered and self.answered < self.asked:
            raise ValueError(f"answered {self.answered} is before asked {self.asked}")
        return self
