"""Audit rules about patterns: what comes far more often with one technician, owner or model than with the others."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from datetime import date, timedelta

from claimpack.core.auditing.audited import AuditedClaim, Irregularity, Measures, listed
from claimpack.core.auditing.chance import at_least_among, stand_out
from claimpack.core.auditing.rule import OURS, Counted, PatternRule
from claimpack.core.auditing.rules.people import owner_key

_MOST_NAMED = 200
# a handful is talked about and is no pattern, however unlikely chance makes it
_LEAST_HITS = 6
# of many claims a small difference is sure and yet worth nobody's time
_AT_LEAST_TIMES = 2

LAST_DAYS = "the last days of cover"
MONTH_END = "the last days of a month"
REFUSED = "refused"


class Pattern:
    """What is counted of one rule: how many claims each has, and which of them have each trait.

    The claims of a trait are kept up to a number, so that a million claims need no more room than some thousands.
    """

    def __init__(self, rule: PatternRule) -> None:
        self.rule = rule
        self._claims: Counter[str] = Counter()
        self._hits: Counter[tuple[str, str]] = Counter()
        self._named: dict[tuple[str, str], list[str]] = {}

    def add(self, audited: AuditedClaim) -> None:
        """Count one claim."""
        counted = self.rule.counted(audited)
        if counted is None:
            return
        # a claim without a trait counts among all: what is usual is measured by it
        self._claims[counted.who] += 1
        for trait in counted.traits:
            self._hits[trait, counted.who] += 1
            named = self._named.setdefault((trait, counted.who), [])
            if len(named) < _MOST_NAMED:
                named.append(audited.number)

    def found(self, measures: Measures) -> Iterator[Irregularity]:
        """What stands out: each trait of each who, beside those of all others, as one question of many.

        Source: Fisher's exact test, with the correction of Benjamini and Hochberg for how many questions were asked.
        """
        in_all, of_trait = self._claims.total(), Counter[str]()
        for (trait, _), hits in self._hits.items():
            of_trait[trait] += hits
        asked = sorted(self._hits)
        chances = [
            at_least_among(self._hits[trait, who], self._claims[who], of_trait[trait], in_all) for trait, who in asked
        ]
        # Who has none of a trait was a question too, and is never the answer.
        chances += [1.0] * (len(of_trait) * len(self._claims) - len(asked))
        for (trait, who), told in zip(asked, stand_out(chances, measures.false_share), strict=False):
            hits, count = self._hits[trait, who], self._claims[who]
            others, other_hits = in_all - count, of_trait[trait] - hits
            if told and hits >= _LEAST_HITS and others and hits * others >= _AT_LEAST_TIMES * other_hits * count:
                yield self._told(trait, who, 100 * other_hits / others)

    def _told(self, trait: str, who: str, others: float) -> Irregularity:
        claims = tuple(sorted(self._named[trait, who]))
        hits, count = self._hits[trait, who], self._claims[who]
        said = self.rule.tells.format(
            # a share that is told is no amount of money, and rounded for reading
            who=who,
            trait=trait,
            hits=hits,
            count=count,
            share=round(100 * hits / count),
            others=round(others),
        )
        evidence = {"claims": listed(claims), "of all": f"{hits} of {count}", "others": f"{others:.0f} %"}
        # With every claim the counts change; what was settled comes up again at the next power of two.
        same = f"{trait}, {who}, {hits.bit_length()}"
        rule = self.rule.id
        return Irregularity(rule=rule, claims=claims, what=said, evidence=evidence, weight="look", stands_for=same)


def work_of_technicians(audited: AuditedClaim) -> Counted | None:
    """A claim by its technician: what failed of which maker's units."""
    who = audited.technician
    if not who or audited.is_withdrawn:
        return None
    return Counted(who, tuple(f"{component} of {audited.claim.maker}" for component in audited.claim.components()))


def course_of_technicians(audited: AuditedClaim) -> Counted | None:
    """A claim by its technician: whether it came at the end of its cover, was done at a month's end, was refused."""
    who = audited.technician
    return Counted(who, _course(audited)) if who and audited.is_with_the_maker else None


def course_of_owners(audited: AuditedClaim) -> Counted | None:
    """A claim by its owner, where more than a name tells who that is: the same."""
    known = owner_key(audited)
    return Counted(audited.claim.owner.name, _course(audited)) if known and audited.is_with_the_maker else None


def course_of_models(audited: AuditedClaim) -> Counted | None:
    """A claim by its model: the same."""
    return Counted(audited.claim.unit.model, _course(audited)) if audited.is_with_the_maker else None


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
        "One technician finds one thing far more often than the others do.",
        OURS,
        work_of_technicians,
        "{hits} of {count} claims that {who} worked on are the {trait}: {share} %, and {others} % of the others'.",
    ),
    PatternRule(
        "pattern-technician",
        "One technician's claims come at the end of cover, at a month's end, or are refused, far more than others'.",
        OURS,
        course_of_technicians,
        "{hits} of {count} claims that {who} worked on have this: {trait}. That is {share} %; of others' {others} %.",
    ),
    PatternRule(
        "pattern-owner",
        "One owner's claims come at the end of cover, at a month's end, or are refused, far more than others'.",
        OURS,
        course_of_owners,
        "{hits} of {count} claims of {who} have this: {trait}. That is {share} %, and {others} % of other owners'.",
    ),
    PatternRule(
        "pattern-model",
        "Claims on one model come at the end of cover, at a month's end, or are refused, far more than on others.",
        OURS,
        course_of_models,
        "{hits} of {count} claims on {who} have this: {trait}. That is {share} %, and {others} % on other models.",
    ),
)
"""The rules about patterns over many claims."""
