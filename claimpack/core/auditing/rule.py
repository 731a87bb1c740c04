"""What a rule of the audit is: about one claim, about claims compared, or about a pattern over many of them."""

from __future__ import annotations

from collections.abc import Callable, Hashable, Iterable, Iterator, Sequence
from typing import Any, NamedTuple, Protocol

from claimpack.core.auditing.audited import AuditedClaim, Irregularity, Measures
from claimpack.core.auditing.wording import SAYS
from claimpack.core.values.wording.sentence import Sentence

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


class Numbers(Protocol):
    """Whole numbers of 64 bits without a sign, in the order in which they came."""

    def extend(self, numbers: Iterable[int], /) -> None:
        """Keep some more."""

    def __iter__(self) -> Iterator[int]:
        """Every number, once all are there."""


class Heap(Protocol):
    """A sequence that grows; it may be longer than memory holds."""

    def append(self, one: Any, /) -> None:
        """Keep one more."""

    def __len__(self) -> int:
        """How many there are."""

    def __getitem__(self, place: int, /) -> Any:
        """The one at a place."""

    def __iter__(self) -> Iterator[Any]:
        """Every one in the order in which they came."""


class NumbersKept(Protocol):
    """Somewhere to keep more numbers than memory may hold."""

    def numbers(self) -> Numbers:
        """Room for some."""


class NotCompared(NamedTuple):
    """What a rule did not compare in full, in a sentence whose key begins with the rule.

    That nothing was found there says nothing.
    """

    says: Sentence

    @property
    def rule(self) -> str:
        """The rule that did not."""
        return self.says.key.partition(".")[0]

    @property
    def what(self) -> str:
        """What it says in English for scripts."""
        return self.says.plainly(SAYS)

    @property
    def said(self) -> str:
        """What it says in English for people."""
        return self.says.said(SAYS)


class NearRule(NamedTuple):
    """A rule that compares claims by what is near and never the same, so that no key tells what to compare.

    It judges the traces of all claims; there may be more of them than fit into memory, so that it keeps none.
    """

    id: str
    says: str
    source: str
    traces: Callable[[AuditedClaim], Iterator[Any]]
    judge: Callable[[Heap, Measures, NumbersKept], Iterator[Irregularity | NotCompared]]


class Counted(NamedTuple):
    """One claim as a pattern counts it: of whom, as that is told and by what others tell it, and what it has."""

    who: str
    key: Hashable
    traits: tuple[str, ...]


class PatternRule(NamedTuple):
    """A rule that counts how often something is said of the claims of one person, owner or model, beside all others."""

    id: str
    says: str
    source: str
    counted: Callable[[AuditedClaim], Counted | None]


AuditRule = OneClaimRule | AcrossRule | NearRule | PatternRule
