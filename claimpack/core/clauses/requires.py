"""What a plan asks to be shown before a claim is filed."""

from __future__ import annotations

from decimal import Decimal
from typing import Annotated, Any, Self

from claimpack.core.clauses.picture_doubts import PictureLimits
from claimpack.core.clauses.required_shots import Shots
from claimpack.core.clauses.serial_pattern import MOST_FORMS, checked_form
from claimpack.core.facts.record import Record
from claimpack.core.values.marks import AfterValidator, BeforeValidator, Field, PlainSerializer, model_validator
from claimpack.core.values.money import NotNegative, Number, plain_or_none
from claimpack.core.values.words import Line, Named
from claimpack.core.values.written import WrittenAs

SerialPattern = Annotated[str, AfterValidator(checked_form)]
"""A regular expression that a whole serial number must match: at most 200 characters, without look-around and without
references back, so that no number keeps it busy."""


class RequiredPaper(Record):
    """A paper that a claim must carry.

    Args:
        kind: what kind of paper it is, as a claim names it, as in `maintenance record`.
        components: what must have failed for it to be asked for; absent for whatever failed.
    """

    kind: Named
    components: Annotated[tuple[Named, ...], Field(min_length=1)] | None = None


class RequiredFinding(Record):
    """A measurement that a claim must have; with a limit, a component counts as failed by it alone.

    Args:
        what: what is measured.
        unit: the unit the limit is in; empty where it has none.
        at_most: the highest value that counts as a failure, itself one.
        at_least: the lowest one, itself one.
        components: what must have failed for it to be asked for; absent for whatever failed.
    """

    what: Named
    unit: Line = ""
    at_most: Number | None = None
    at_least: Number | None = None
    components: Annotated[tuple[Named, ...], Field(min_length=1)] | None = None

    @model_validator(mode="after")
    def _has_one_limit(self) -> Self:
        if self.at_most is not None and self.at_least is not None:
            raise ValueError("give one limit: at_most, or at_least")
        return self

    @property
    def decides(self) -> bool:
        """Whether cover goes by it."""
        return self.at_most is not None or self.at_least is not None

    @property
    def limit(self) -> str:
        """The limit with its unit, as in `70 %`."""
        return f"{plain_or_none(self.bound) or ''} {self.unit}".strip()

    @property
    def bound(self) -> Decimal | None:
        """The limit as a number; None where it only has to be measured."""
        return self.at_most if self.at_most is not None else self.at_least

    def is_past(self, value: Decimal) -> bool:
        """Whether a value counts as a failure."""
        # the limit itself counts as failed: plans write 70 % or less
        return value <= self.at_most if self.at_most is not None else value >= (self.at_least or Decimal(0))


def _as_findings(said: Any) -> Any:
    """Measurements of which nothing more is said may be written as what is measured alone."""
    if not isinstance(said, (list, tuple)):
        return said
    return tuple({"what": finding} if isinstance(finding, str) else finding for finding in said)


def _findings_in_short(findings: tuple[RequiredFinding, ...]) -> list[str | dict[str, Any]]:
    told = (finding.model_dump(mode="json", exclude_defaults=True) for finding in findings)
    return [finding["what"] if len(finding) == 1 else finding for finding in told]


Findings = Annotated[
    tuple[RequiredFinding, ...],
    BeforeValidator(_as_findings),
    PlainSerializer(_findings_in_short),
    WrittenAs(tuple[Named | RequiredFinding, ...]),
]
"""Measurements; one that only has to be there may be written as what is measured alone."""


class Requires(Record):
    """What a claim under the plan must carry.

    Args:
        proof: whether the day of purchase must be proved.
        serial_roles: the serial numbers a claim must give, as in `["unit", "engine"]`.
        serial_patterns: the form of each serial number, a regular expression by role, as in `{unit =
            "HC70-[0-9]{3}-[0-9]{5}"}`.
        shots: the photos a claim must have, as in `["serial plate", "whole unit"]`; one may be for certain components
            alone, as in `[{shot = "spark test", components = ["ignition coil"]}]`.
        findings: what must be measured, as in `["compression"]`; one with a limit is a condition of cover, as in
            `[{what = "capacity", unit = "%", at_most = "70", components = ["battery"]}]`.
        papers: papers it must have beside the proof of purchase, as in `[{kind = "maintenance record"}]`.
        part_returned_first: whether the maker pays only when the failed part is back with it.
        approval_above: the amount above which the maker must approve before the repair, as in `"400.00"`.
        approval_components: components whose repair the maker must always approve before, as in `["short block"]`.
        held_part: whether the failed part must be kept.
        pictures: from where on a picture is doubted, where the maker says it, as in `{long_edge = 1024}`.
    """

    proof: bool = False
    serial_roles: tuple[Named, ...] = ()
    serial_patterns: dict[str, SerialPattern] = Field(default={}, max_length=MOST_FORMS)
    shots: Shots = ()
    findings: Findings = ()
    papers: tuple[RequiredPaper, ...] = ()
    part_returned_first: bool = False
    approval_above: NotNegative | None = None
    approval_components: tuple[Named, ...] = ()
    held_part: bool = True
    pictures: PictureLimits = PictureLimits.model_construct()

    def shot_words(self) -> tuple[str, ...]:
        """Every shot that it names, whatever failed."""
        return tuple(shot.shot for shot in self.shots)

    def component_words(self) -> tuple[str, ...]:
        """Every word for a component that it names."""
        of_shots, of_findings = (one.components for one in self.shots), (one.components for one in self.findings)
        asked = [*of_shots, *of_findings, *(one.components for one in self.papers)]
        return (*self.approval_components, *(word for words in asked for word in words or ()))
