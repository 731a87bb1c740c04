"""What a rule of the audit is: about one claim, about claims compared, or about a pattern over many of them."""

from __future__ import annotations

from collections.abc import Callable, Hashable, Iterator, Sequence
from typing import Any, NamedTuple

from claimpack.core.auditing.audited import AuditedClaim, Irregularity, Measures

PRACTICE = "common practice, no source"
OURS = "a rule of this tool's, no source"

Trace = tuple[Hashable, Any]


class OneClaimRule(NamedTuple):
    """A rule that looks at one claim."""

    id: str
    says: str
    source: str
    look: Callable[[AuditedClaim, Measures], Iterator[Irregularity]]


class AcrossRule(NamedTuple):
    """A rule that compares claims: each leaves traces under keys, and traces under one key are judged together."""

    id: str
    says: str
    source: str
    traces: Callable[[AuditedClaim], Iterator[Trace]]
    judge: Callable[[Sequence[Any], Measures], Iterator[Irregularity]]


class Counted(NamedTuple):
    """One claim as a pattern counts it: of whom, and what is told of it beside that it is there."""

    who: str
    traits: tuple[str, ...]


class PatternRule(NamedTuple):
    """A rule that counts how often something is said of the claims of one person, owner or model, beside all others.

    `tells` is the sentence of what is unusual: {who}, {hits} of {count} claims, {others} of the others in percent.
    """

    id: str
    says: str
    source: str
    counted: Callable[[AuditedClaim], Counted | None]
    tells: str


AuditRule = OneClaimRule | AcrossRule | PatternRule
