"""The assessment computed again from the claim and plan a packet carries, and held against the one it carries."""

from __future__ import annotations

import datetime as dt
import json
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from pydantic import ValidationError

from claimpack.core.claims.claim import Claim
from claimpack.core.judging.assessment import Circumstances, assess
from claimpack.core.judging.assessment_json import as_json
from claimpack.core.plans.plan import Plan
from claimpack.errors import BadInput
from claimpack.packet.sealing.attachments import ASSESSMENT, CLAIM, PLAN
from claimpack.packet.sealing.embedded import TOOL

DOES_NOT_FOLLOW = "the assessment does not follow from the claim"


@dataclass(frozen=True)
class Recomputed:
    """The claim's number, empty where it cannot be read; what does not follow; what could not be computed again."""

    claim: str = ""
    problems: tuple[str, ...] = ()
    notes: tuple[str, ...] = ()


def recomputed(carried: Mapping[str, bytes]) -> Recomputed:
    """Judge and price the carried claim again under the carried plan, on the day recorded.

    Args:
        carried: the packet's attached files by name; those that are absent are left to the manifest to name.

    Returns:
        A difference is a problem where this version of the program made the packet; else a note, since the words and
        rules may have changed between versions.
    """
    if CLAIM not in carried:
        return Recomputed()
    try:
        claim = Claim.model_validate_json(carried[CLAIM])
    except ValidationError:
        return Recomputed(problems=(f"{CLAIM} cannot be read as a claim",))
    if ASSESSMENT not in carried:
        return Recomputed(claim=claim.number)
    try:
        told = _Carried.from_json(carried[ASSESSMENT])
    except (ValueError, KeyError, AttributeError, TypeError):
        return Recomputed(claim=claim.number, problems=(f"{ASSESSMENT} cannot be read as an assessment",))
    return _judged_again(claim, carried, told)


def _judged_again(claim: Claim, carried: Mapping[str, bytes], told: _Carried) -> Recomputed:
    if PLAN not in carried:
        note = "no plan is carried, so the verdict and the amounts are not computed again"
        return Recomputed(claim=claim.number, notes=(note,))
    try:
        plan = Plan.model_validate_json(carried[PLAN])
    except ValidationError:
        return Recomputed(claim=claim.number, problems=(f"{PLAN} cannot be read as a plan",))
    try:
        # on the day recorded: today the same claim may be too late
        again = as_json(assess(claim, [plan], told.today, told.circumstances))
    except BadInput as error:
        return Recomputed(claim=claim.number, problems=(f"{DOES_NOT_FOLLOW}: {error.what}",))
    differences = _differences(told.answer, again)
    if not differences:
        return Recomputed(claim=claim.number)
    said = f"{DOES_NOT_FOLLOW}: {'; '.join(differences)}"
    if told.tool == TOOL:
        return Recomputed(claim=claim.number, problems=(said,))
    note = f"{said}. The packet was made by {told.tool or 'another version'}, and this is {TOOL}"
    return Recomputed(claim=claim.number, notes=(note,))


@dataclass(frozen=True)
class _Carried:
    """What the assessment says, and what it was told beside the claim."""

    answer: dict[str, Any]
    tool: str
    today: dt.date
    circumstances: Circumstances

    @classmethod
    def from_json(cls, content: bytes) -> _Carried:
        answer = json.loads(content)
        # says how it was drawn, and no assessment answers it
        answer.pop("layout")
        return cls(
            tool=str(answer.pop("tool")),
            today=dt.date.fromisoformat(answer.pop("today")),
            circumstances=Circumstances.model_validate(answer.pop("circumstances")),
            answer=answer,
        )


def _differences(told: Mapping[str, Any], again: Mapping[str, Any]) -> list[str]:
    found = []
    for key in dict.fromkeys([*again, *told]):
        before, after = told.get(key), again.get(key)
        if before == after:
            continue
        if isinstance(before, dict) and isinstance(after, dict):
            found += _differences(before, after)
        elif isinstance(before, list | dict) or isinstance(after, list | dict):
            # a list of reasons side by side would be longer than the packet
            found.append(f"{key} differ")
        else:
            found.append(f"{key.replace('_', ' ')} {before}, recomputed {after}")
    return found
