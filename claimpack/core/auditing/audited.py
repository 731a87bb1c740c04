"""What an audit looks at, and what it finds: claims with all that is known of them, and irregularities."""

from __future__ import annotations

import datetime as dt
from collections.abc import Hashable, Iterable, Mapping, Sequence
from decimal import Decimal
from types import MappingProxyType
from typing import Literal, NamedTuple, Protocol

from claimpack.core.auditing.house import House, PriceList
from claimpack.core.auditing.innocent import INNOCENT
from claimpack.core.auditing.wording import SAYS
from claimpack.core.claims.claim import Claim
from claimpack.core.events.standing import Standing
from claimpack.core.facts.cases import Approval
from claimpack.core.judging.claim_summary import ClaimSummary, maker_shown, maker_words
from claimpack.core.plans.plan import Plan
from claimpack.core.plans.terms import Terms
from claimpack.core.pricing.retail import NO_RETAIL, Retail
from claimpack.core.steps.filing import NEVER_FILED, FilingCourse
from claimpack.core.values.numbers_said import figures_said
from claimpack.core.values.wording.sentence import FIGURES, Sentence
from claimpack.core.values.words import folded, folded_often, run_on, some_of

GroupKey = tuple[Hashable, ...]
"""What claims have in common that a rule looks at together."""

_FIGURES = ("approved", "amounts", "payments", "measured", "short on parts", "short on labour", "of all")
"""The evidence that holds amounts and readings, beside the facts of sentences that do."""

Weight = Literal["serious", "look"]
"""How much an irregularity weighs: a maker's auditor would strike the claim, or it is worth a look."""


class Irregularity(NamedTuple):
    """One thing an auditor would ask about: sentences, the claims involved, and the evidence as text.

    Args:
        says: the sentences; the key of the first begins with the rule.
        claims: the claims involved, in order.
        weight: how much it weighs.
        evidence: what the sentences go by, by what it is called, or by a claim's number; figures as scripts read them.
        parts: what each of several rules said that found the same, its own first; empty where one did.
        stands_for: what is compared when it was settled, where not every fact of it counts.
    """

    says: tuple[Sentence, ...]
    claims: tuple[str, ...]
    weight: Weight
    evidence: Mapping[str, str] = MappingProxyType({})
    parts: tuple[Irregularity, ...] = ()
    stands_for: str = ""

    @property
    def rule(self) -> str:
        """The rule that found it."""
        return self.says[0].key.partition(".")[0]

    @property
    def also(self) -> tuple[str, ...]:
        """The other rules that found the same."""
        return tuple(part.rule for part in self.parts[1:])

    @property
    def what(self) -> str:
        """What it says in English for scripts, which read figures as they were written down."""
        return " ".join(sentence.plainly(SAYS) for sentence in self.says)

    @property
    def said(self) -> str:
        """What it says in English for people."""
        return " ".join(sentence.said(SAYS) for sentence in self.says)

    @property
    def all_evidence(self) -> dict[str, str]:
        """The evidence for scripts, and what other rules said."""
        return {**self.evidence, **{part.rule: part.what for part in self.parts[1:]}}

    @property
    def evidence_said(self) -> dict[str, str]:
        """The same for people; what is empty is left out."""
        # under a claim's number stand days, hours and readings
        figures = {*FIGURES, *_FIGURES, *self.claims}
        own = {name: figures_said(fact) if name in figures else fact for name, fact in self.evidence.items() if fact}
        return own | {part.rule: part.said for part in self.parts[1:]}

    @property
    def innocent(self) -> str:
        """How an honest claim could look like this, in a sentence."""
        return INNOCENT[self.rule]


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
        clock_beyond: how many times the schedule's hours a clock may show before it is asked about.
        alike_bits: by how many of 64 bits the hashes of two pictures may differ that look alike.
        around_opening: how long before opening and after closing work is nothing to ask about.
        beyond_list: how many times its usual price a part may cost.
        late_change_days: how many days before filing a change of what decides cover is asked about.
        household_week: the most hours a week that a household runs a machine.
        household_units: from how many units in household use on one person is asked about.
        false_share: of the patterns told, the share that may be there by chance.
    """

    today: dt.date
    oldest_picture_days: int = 90
    shop_hours: Decimal = Decimal(16)
    clock_beyond: Decimal = Decimal(2)
    alike_bits: int = 4
    around_opening: dt.timedelta = dt.timedelta(minutes=30)
    beyond_list: Decimal = Decimal("1.25")
    late_change_days: int = 3
    household_week: Decimal = Decimal(12)
    household_units: int = 4
    false_share: float = 0.01


class Edit(NamedTuple):
    """One key of a claim that was changed: the day, and what stood there before and after; empty for nothing."""

    on: dt.date
    key: str
    before: str
    after: str


class AuditedClaim(NamedTuple):
    """A claim with all that is known of it; `packet_damage` says what is wrong with the packet kept at filing.

    `house` is its own shop, whichever shop looks. `edits` are the changes of what decides cover, before it was filed.
    """

    claim: Claim
    standing: Standing = Standing.model_construct()
    summary: ClaimSummary = ClaimSummary.model_construct()
    plan: Plan | None = None
    terms: Terms | None = None
    retail: Retail = NO_RETAIL
    house: House = House()
    files: Sequence[AuditedFile] = ()
    course: FilingCourse = NEVER_FILED
    packet_damage: str = ""
    edits: Sequence[Edit] = ()

    @property
    def number(self) -> str:
        """The claim's number."""
        return self.claim.number

    @property
    def maker(self) -> str:
        """The maker by its one name, folded for comparing."""
        return folded_often(maker_shown(self.claim, self.summary))

    @property
    def price_list(self) -> PriceList:
        """What parts of its maker cost its shop; none where the list is in another currency, which says nothing."""
        found = self.house.price_list(self.claim.maker)
        if not (self.currency and found.currency) or self.currency == found.currency:
            return found
        return PriceList(file=f"{found.file} in {self.currency}")

    @property
    def unit_serial(self) -> str:
        """The one number the machine is told by."""
        return self.claim.unit.own_serial

    @property
    def unit_key(self) -> str:
        """The same for comparing."""
        return run_on(self.unit_serial)

    @property
    def approval(self) -> Approval | None:
        """The maker's approval; None where it was refused or is waited for, whose day and amount approve nothing."""
        said = self.claim.approval
        # a refusal carries a day and a number too, and neither allows anything
        return None if said is None or said.is_refused or said.is_waited_for else said

    @property
    def technician(self) -> str:
        """The first technician named on it; empty where nobody is."""
        # a claim counts once in a pattern, so one name stands for all who worked on it
        return next((entry.worker for entry in self.claim.labour if entry.worker), "")

    def hand(self, technician: str) -> GroupKey:
        """Whose work it is, for comparing: two shops of one book may each have a Ben."""
        return self.standing.shop, folded(technician)

    @property
    def currency(self) -> str:
        """The currency of its amounts; empty where it is not known."""
        return self.standing.currency or self.summary.currency

    @property
    def is_withdrawn(self) -> bool:
        """Whether it was taken back: nothing of it is asked of anybody."""
        return self.standing.state == "withdrawn"

    @property
    def is_with_the_maker(self) -> bool:
        """Whether it was filed and stands."""
        return self.standing.state not in ("draft", "withdrawn")

    @property
    def asks_for_money(self) -> bool:
        """Whether money is, was or will be asked for it: it was neither withdrawn nor refused."""
        return self.standing.state not in ("withdrawn", "refused")

    def irregular(self, said: Sentence, evidence: dict[str, str], weight: Weight, *more: Sentence) -> Irregularity:
        """An irregularity of this claim alone."""
        return Irregularity((said, *more), (self.number,), weight, evidence)

    @property
    def claimed(self) -> Decimal:
        """What was claimed when it was filed, else what would be."""
        # what the maker was asked for stays what it was, whatever the plan would come to today
        return self.standing.claimed if self.is_with_the_maker else self.summary.claimed


def listed(numbers: Iterable[str], most: int = 5) -> str:
    """Claim numbers, each once and in order, as a sentence lists them; of many the first ones and how many more."""
    known = sorted(set(numbers))
    if len(known) > most:
        return some_of(known, most)
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
            # a maker goes by several words, its own id and those of plans
            and (not self.maker or folded(self.maker) in maker_words(audited.claim, audited.summary))
            and (self.since is None or day >= self.since)
        )
