"""What a plan knows of the work: operations, kits, and who else covers a component."""

from __future__ import annotations

from typing import Literal

from claimpack.core.clauses.window import EventRole
from claimpack.core.facts.fields import Defect
from claimpack.core.facts.record import Record
from claimpack.core.values.days import Day
from claimpack.core.values.marks import Field
from claimpack.core.values.money import NotNegative
from claimpack.core.values.periods import Duration
from claimpack.core.values.words import Line, Named


class Excluded(Record):
    """What the plan does not cover.

    Args:
        components: what is never covered, unless a window says `despite_exclusions`, as in `["air filter", "spark
            plug"]`.
        defects: the kinds of defect that are never covered, as in `["misuse", "wear"]`.
        cites: where it is written, as in `warranty booklet p. 6`.
    """

    components: tuple[Named, ...] = ()
    defects: tuple[Defect, ...] = ()
    cites: Line = ""


class Elsewhere(Record):
    """Components that another maker covers, and why.

    Args:
        components: what another maker covers, as in `["engine"]`.
        maker: that other maker, as in `orrin-vale`.
        because: why, in words for the owner, as in `warranted by the engine's own maker`.
    """

    components: tuple[Named, ...] = Field(min_length=1)
    maker: Named
    because: Named


class Operation(Record):
    """One line of the maker's time schedule; hours are flat-rate hours, the class is what its labour rate may go by.

    Args:
        code: the maker's code of the operation, as in `short-block-replace`.
        name: what is done, in words, as in `Replace short block`.
        class_: what its labour rate may go by, as in `engine`.
        hours: what the maker pays for it, in hours, as in `"1.6"`.
        includes: codes of operations that are part of it and are not paid beside it, as in `["starter-replace"]`.
    """

    code: Named
    name: Line = ""
    class_: Line = Field(default="", alias="class")
    hours: NotNegative
    includes: tuple[Named, ...] = ()


class Kit(Record):
    """A part that is sold with others in it, which are not paid again.

    Args:
        number: the number of the kit, as in `K-70`.
        name: what it is called, as in `gasket kit`.
        includes: the numbers of the parts in it; one that is in it twice is named twice, as in `["G-1", "G-2"]`.
    """

    number: Named
    name: Line = ""
    includes: tuple[Named, ...] = Field(min_length=1)


class Filing(Record):
    """By when a claim must be filed.

    Args:
        within: how soon a claim must be filed, as in `P30D`.
        of: the day that is counted from.
        roll: whether a last day on a weekend or holiday moves to the next working day.
        holidays: days that are no working days, as in `[2026-12-25]`.
    """

    within: Duration
    of: EventRole = "repaired"
    roll: Literal["none", "next-working-day"] = "none"
    holidays: tuple[Day, ...] = ()


class Hold(Record):
    """How long a failed part is kept.

    Args:
        for_: how long a failed part is kept, as in `P90D`.
        of: the day that is counted from.
    """

    for_: Duration = Field(alias="for")
    of: Literal["filed", "repaired", "paid"] = "filed"
