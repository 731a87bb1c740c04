"""What failed, one thing or several, and what was measured."""

from __future__ import annotations

from collections.abc import Callable
from typing import Annotated, Any

from claimpack.core.facts.fields import Defect
from claimpack.core.facts.record import Record
from claimpack.core.values.marks import BeforeValidator, WrapSerializer
from claimpack.core.values.words import Line, Named, Text
from claimpack.core.values.written import WrittenAs


class FailedPart(Record):
    """The part that failed.

    Args:
        number: the maker's part number.
        name: what the part is called, as in `short block`.
        serial: its serial number, where it has one.
    """

    number: Line = ""
    name: Line = ""
    serial: Line = ""


class Failure(Record):
    """Complaint, cause and correction, and what failed.

    Args:
        complaint: what is wrong, in the owner's words.
        cause: what the technician found to be the cause.
        correction: what was done about it.
        component: what failed, in the word the plan uses, as in `short block`.
        defect: the kind of defect.
        part: the part that failed, as in `{number = "70-1180", name = "short block"}`.
    """

    complaint: Text = ""
    cause: Text = ""
    correction: Text = ""
    component: Line = ""
    defect: Defect | None = None
    part: FailedPart = FailedPart.model_construct()

    @property
    def word(self) -> str:
        """The word for what failed; empty where none is given."""
        return self.component or self.part.name


class Failures(Failure):
    """What failed: mostly one thing; where several did, `[[failure]]` is written once for each.

    Args:
        also: the second failure and those after it, each with what it says of itself.
    """

    also: tuple[Failure, ...] = ()


def _as_failures(said: Any) -> Any:
    """Failures in a row as the first of them with the others; one alone as it is."""
    if not isinstance(said, (list, tuple)) or not said or not isinstance(said[0], dict):
        return said
    return said[0] if len(said) == 1 else {**said[0], "also": said[1:]}


def _failures_in_a_row(failures: Failures, written: Callable[[Failures], dict[str, Any]]) -> Any:
    first = written(failures)
    # one failure is written as the table it always was; only several make a list
    others = first.pop("also", None)
    return [first, *others] if others else first


AllFailures = Annotated[
    Failures,
    BeforeValidator(_as_failures),
    WrapSerializer(_failures_in_a_row),
    WrittenAs(Failure | tuple[Failure, ...]),
]
"""What failed, as one table or several."""


class Finding(Record):
    """One measured fact and its limits.

    Args:
        what: what was measured, as in `compression`.
        value: what was found, as in `42`.
        unit: the unit of value and limits, as in `psi`.
        low: the lowest value that is right, as in `110`.
        high: the highest value that is right, as in `150`.
    """

    what: Named
    value: Named
    unit: Line = ""
    low: Line = ""
    high: Line = ""
