"""What an audit looks at, and what it finds: claims with all that is known of them, and irregularities."""

from __future__ import annotations

import datetime as dt
from collections.abc import Hashable, Iterable, Sequence
from decimal import Decimal
from typing import Literal, NamedTuple, Protocol

from claimpack.core.claims.claim import Claim
from claimpack.core.events.standing import Standing
from claimpack.core.facts.fields import Record
from claimpack.core.judging.claim_summary import ClaimSummary, maker_shown, maker_words
from claimpack.core.plans.plan import Plan
from claimpack.core.plans.terms import Terms
from claimpack.core.pricing.pricing import NO_RETAIL, Retail
from claimpack.core.steps.filing import NEVER_FILED, FilingCourse
from claimpack.core.values.words import folded, run_on

GroupKey = tuple[Hashable, ...]
"""What claims have in common that a rule looks at together."""

Weight = Literal["serious", "look"]
"""How much an irregularity weighs: a maker's auditor would strike the claim, or it is worth a look."""


class Irregularity(Record):
    """One thing an auditor would ask about: the rule, the claims involved, a sentence, and the facts as text."""

    rule: str
    claims: tuple[str, ...]
    what: str
    evidence: dict[str, str] = {}
    weight: Weight


class AuditedFile(Protocol):
    """A kept file; likeness is a perceptual hash of 16 hexadecimal digits, empty where there is none."""

    @property
    def path(self) -> str:
        """The file as the claim names it."""

    @property
    def sha256(self) -> str:
        """The hash of its content."""

    @property
    def taken(self) -> dt.datetime | None:
        """When the camera took it."""

    @property
    def likeness(self) -> str:
        """What it looks like."""


class Measures(NamedTuple):
    """What an audit measures with.

    Args:
        today: the day it is.
        oldest_picture_days: how long before the unit came in a picture may have been taken.
        shop_hours: the most hours one technician works in a day.
        clock_beyond: how many times the schedule's hours a clock may show that is not claimed by.
        a_little: by how many hours a claim may be over the schedule before it is told.
        alike_bits: by how many of 64 bits the hashes of two pictures may differ that look alike.
    """

    today: dt.date
    oldest_picture_days: int = 90
    shop_hours: Decimal = Decimal(16)
    clock_beyond: Decimal = Decimal("1.5")
    a_little: Decimal = Decimal("0.1")
    alike_bits: int = 4


class AuditedClaim(NamedTuple):
    """A claim with all that is known of it; `packet_damage` says what is wrong with the packet kept at filing."""

    claim: Claim
    standing: Standing = Standing()
    summary: ClaimSummary = ClaimSummary()
    plan: Plan | None = None
    terms: Terms | None = None
    retail: Retail = NO_RETAIL
    files: Sequence[AuditedFile] = ()
    course: FilingCourse = NEVER_FILED
    packet_damage: str = ""

    @property
    def number(self) -> str:
        """The claim's number."""
        return self.claim.number

    @property
    def maker(self) -> str:
        """The maker by its one name, folded for comparing."""
        return folded(maker_shown(self.claim, self.summary))

    @property
    def unit_serial(self) -> str:
        """The one number the machine is told by."""
        return self.claim.unit.own_serial

    @property
    def unit_key(self) -> str:
        """The same for comparing."""
        return run_on(self.unit_serial)

    @property
    def is_with_the_maker(self) -> bool:
        """Whether it was filed and stands."""
        return self.standing.state not in ("draft", "withdrawn")

    @property
    def asks_for_money(self) -> bool:
        """Whether money is, was or will be asked for it: it was neither withdrawn nor refused."""
        return self.standing.state not in ("withdrawn", "refused")

    @property
    def claimed(self) -> Decimal:
        """What was claimed when it was filed, else what would be."""
        return self.standing.claimed if self.is_with_the_maker else self.summary.claimed


def listed(numbers: Iterable[str], most: int = 5) -> str:
    """Claim numbers, each once and in order, as a sentence lists them; of many the first ones and how many more."""
    known = sorted(set(numbers))
    if len(known) > most:
        return f"{', '.join(known[:most])} and {len(known) - most} more"
    return " and ".join([", ".join(known[:-1]), known[-1]] if len(known) > 1 else known)


class Scope(NamedTuple):
    """Which claims an audit is about; what is empty does not narrow it."""

    numbers: frozenset[str] = frozenset()
    maker: str = ""
    since: dt.date | None = None

    def holds(self, audited: AuditedClaim) -> bool:
        """Whether it is about a claim: one of the numbers, to the maker, filed (else brought in) since the day."""
        # a draft has no other day yet than the one it came in on
        day = audited.standing.filed or audited.claim.dates.presented
        return (
            (not self.numbers or audited.number in self.numbers)
            and (not self.maker or folded(self.maker) in maker_words(audited.claim, audited.summary))
            and (self.since is None or day >= self.since)
        )
