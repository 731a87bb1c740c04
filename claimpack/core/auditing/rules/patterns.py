"""Audit rules about patterns: what comes far more often with one technician, owner or model than with the others."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Hashable, Iterable, Iterator, Sequence
from datetime import date, timedelta
from itertools import chain, islice
from typing import NamedTuple

from claimpack.core.auditing.audited import AuditedClaim, Irregularity, Measures, listed
from claimpack.core.auditing.chance import at_least_among, stand_out
from claimpack.core.auditing.rule import OURS, Counted, PatternRule
from claimpack.core.auditing.rules.people import owner_key
from claimpack.core.values.wording.sentence import say
from claimpack.core.values.words import folded

_MOST_NAMED, _MOST_TALLIES = 200, 5_000
# a handful is talked about and is no pattern, however unlikely chance makes it
_LEAST_HITS = 6
# of many claims a small difference is sure and yet worth nobody's time
_AT_LEAST_TIMES = 2

LAST_DAYS = "the last days of cover"
MONTH_END = "the last days of a month"
REFUSED = "refused"


class Tally(NamedTuple):
    """What is counted of one who: the claims, and of each trait how many have it, and the first of those."""

    who: str
    claims: Counter[str]
    named: dict[str, list[str]]

    def add(self, number: str, traits: Iterable[str]) -> None:
        """Count one claim."""
        self.claims[ALL] += 1
        for trait in traits:
            self.claims[trait] += 1
            named = self.named.setdefault(trait, [])
            if len(named) < _MOST_NAMED:
                named.append(number)


ALL = ""
"""The trait of every claim."""


class Likely(NamedTuple):
    """What hardly comes about by chance: a trait of somebody, with the counts."""

    chance: float
    trait: str
    who: str
    hits: int
    claims: int
    named: tuple[str, ...]


class Pattern:
    """What is counted of one rule: how many claims each has, and which of them have each trait.

    A million claims may be of nearly as many owners, so that what is counted is put down among the traces again and
    again; claims of a trait are kept up to a number.
    """

    def __init__(self, rule: PatternRule, keep: Callable[[Hashable, Tally], None]) -> None:
        self.rule, self._keep = rule, keep
        self._tallies: dict[Hashable, Tally] = {}
        self._everybody = Counter[str]()
        self._likely: list[Likely] = []
        self._people = 0

    def add(self, audited: AuditedClaim) -> None:
        """Count one claim."""
        counted = self.rule.counted(audited)
        if counted is None:
            return
        # a claim without a trait counts among all: what is usual is measured by it
        self._everybody.update((ALL, *counted.traits))
        tally = self._tallies.get(counted.key)
        if tally is None:
            if len(self._tallies) >= _MOST_TALLIES:
                self.put_down()
            tally = self._tallies[counted.key] = Tally(counted.who, Counter(), {})
        tally.add(audited.number, counted.traits)

    def put_down(self) -> None:
        """Put among the traces what was counted so far."""
        for key, tally in self._tallies.items():
            self._keep(key, tally)
        self._tallies.clear()

    def weigh(self, tallies: Sequence[Tally], measures: Measures) -> Iterator[Irregularity]:
        """Put together what was counted of one who, once everybody was; tells nothing yet.

        What is likelier by chance than the share of false ones that is borne is never told: it is counted as a
        question, and not kept.

        Source: Fisher's exact test.
        """
        self._people += 1
        hits = sum((tally.claims for tally in tallies), Counter[str]())
        count, in_all = hits.pop(ALL), self._everybody[ALL]
        for trait, often in hits.items():
            chance = at_least_among(often, count, self._everybody[trait], in_all)
            if chance <= measures.false_share:
                named = chain.from_iterable(tally.named.get(trait, ()) for tally in tallies)
                first = tuple(sorted(islice(named, _MOST_NAMED)))
                self._likely.append(Likely(chance, trait, tallies[0].who, often, count, first))
        return iter(())

    def found(self, measures: Measures) -> Iterator[Irregularity]:
        """What stands out: each trait of each who, beside those of all others, as one question of many.

        Source: Fisher's exact test, with the correction of Benjamini and Hochberg for how many questions were asked.
        """
        # Who has none of a trait was a question too, and is never the answer.
        asked, in_all = (len(self._everybody) - 1) * self._people, self._everybody[ALL]
        likely = sorted(self._likely, key=lambda each: (each.trait, each.who))
        for each, told in zip(
            likely, stand_out([each.chance for each in likely], measures.false_share, asked), strict=True
        ):
            others, other_hits = in_all - each.claims, self._everybody[each.trait] - each.hits
            many = each.hits >= _LEAST_HITS and each.hits * others >= _AT_LEAST_TIMES * other_hits * each.claims
            if told and others and many:
                yield self._told(each, 100 * other_hits / others)

    def _told(self, likely: Likely, others: float) -> Irregularity:
        _, trait, who, hits, count, claims = likely
        # a share that is told is no amount of money, and rounded for reading
        shares = {"share": round(100 * hits / count), "others": round(others)}
        said = say(self.rule.id, who=who, trait=trait, hits=hits, count=count, **shares)
        evidence = {"claims": listed(claims), "of all": f"{hits} of {count}", "others": f"{others:.0f} %"}
        # With every claim the counts change; what was settled comes up again at the next power of two.
        same = f"{trait}, {who}, {hits.bit_length()}"
        return Irregularity((said,), claims, "look", evidence, stands_for=same)


def work_of_technicians(audited: AuditedClaim) -> Counted | None:
    """A claim by its technician: what failed of which maker's units."""
    who = audited.technician
    if not who or audited.is_withdrawn:
        return None
    of_what = tuple(f"{component} of {audited.claim.maker}" for component in audited.claim.components() if component)
    return Counted(who, audited.hand(who), of_what)


def course_of_technicians(audited: AuditedClaim) -> Counted | None:
    """A claim by its technician: whether it came at the end of its cover, was done at a month's end, was refused."""
    who = audited.technician
    return Counted(who, audited.hand(who), _course(audited)) if who and audited.is_with_the_maker else None


def course_of_owners(audited: AuditedClaim) -> Counted | None:
    """A claim by its owner, where more than a name tells who that is: the same."""
    known = owner_key(audited)
    return Counted(audited.claim.owner.name, known, _course(audited)) if known and audited.is_with_the_maker else None


def course_of_models(audited: AuditedClaim) -> Counted | None:
    """A claim by its model: the same."""
    model = audited.claim.unit.model
    return Counted(model, (audited.maker, folded(model)), _course(audited)) if audited.is_with_the_maker else None


def _course(audited: AuditedClaim) -> tuple[str, ...]:
    dates, ends = audited.claim.dates, audited.summary.covered_until
    found = []
    # what came in after the end of cover is no rush to be in time
    if ends and 0 <= (ends - dates.presented).days < _LAST_DAYS:
        found.append(LAST_DAYS)
    if dates.repaired and _to_month_end(dates.repaired) < _MONTH_ENDS:
        found.append(MONTH_END)
    if audited.standing.state == "refused":
        found.append(REFUSED)
    return tuple(found)


_LAST_DAYS, _MONTH_ENDS = 8, 3


def _to_month_end(day: date) -> int:
    # 32 days after its first no month is the same any more, whichever its length
    return ((day.replace(day=1) + timedelta(days=32)).replace(day=1) - day).days - 1


PATTERN_RULES = (
    PatternRule(
        "pattern-technician-work",
        f"One technician finds one thing far more often than the others do, {_LEAST_HITS} times or more.",
        OURS,
        work_of_technicians,
    ),
    PatternRule(
        "pattern-technician",
        "One technician's claims come at the end of cover, at a month's end, or are refused, far more than others'.",
        OURS,
        course_of_technicians,
    ),
    PatternRule(
        "pattern-owner",
        "One owner's claims come at the end of cover, at a month's end, or are refused, far more than others'.",
        OURS,
        course_of_owners,
    ),
    PatternRule(
        "pattern-model",
        "Claims on one model come at the end of cover, at a month's end, or are refused, far more than on others.",
        OURS,
        course_of_models,
    ),
)
"""The rules about patterns over many claims."""
