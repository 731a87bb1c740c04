"""Audit rules about facts that contradict each other or the repair, that come again word for word, or were changed."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from datetime import date, timedelta
from decimal import Decimal
from typing import NamedTuple

from claimpack.core.auditing.audited import AuditedClaim, GroupKey, Irregularity, Measures, listed
from claimpack.core.auditing.rule import OURS, PRACTICE, AcrossRule, OneClaimRule
from claimpack.core.claims.measurements import against_limits, limits_in_words, number_in
from claimpack.core.facts.failure import Failure
from claimpack.core.values.money import plain
from claimpack.core.values.wording.sentence import say
from claimpack.core.values.words import beginning, folded, run_on, some_of, word_set

_LEAST_WORDS = 8
_LEAST_CLAIMS = 3
_CLAIMS_OF_FIGURES = 4
_DIGITS_AND_CLAIMS = 6


def measured_in_order(audited: AuditedClaim, _measures: Measures) -> Iterator[Irregularity]:
    """Everything that was measured is a number within its limits, and a part was replaced.

    A reading such as "over range", or one without limits, may be what shows the fault.

    Source: common practice, no source.
    """
    claim = audited.claim
    found = claim.findings
    if found and claim.parts and all(against_limits(each) == "within" for each in found) and audited.asks_for_money:
        first, value = found[0].what, f"{found[0].value} {found[0].unit}".strip()
        said = say("measured-in-order", what=first, value=value, limits=limits_in_words(found[0]))
        yield audited.irregular(said, {"measured": f"{first} is {value}"}, "look")


def reading_against_cause(audited: AuditedClaim, _measures: Measures) -> Iterator[Irregularity]:
    """The cause says that something is low, and it was measured high; or the other way round.

    Source: common practice, no source.
    """
    # all causes together, since a finding does not say which failure it is about
    words = " ".join(failure.cause for failure in audited.claim.failures)
    for found in audited.claim.findings if audited.asks_for_money else ():
        way, said = _WAYS.get(against_limits(found) or ""), _said_of(found.what, words)
        if way and said and way != said:
            measured = {"what": found.what, "value": found.value, "unit": found.unit}
            reading = f"{found.value} {found.unit}".strip()
            told = say("reading-against-cause", said=said, reading=reading, way=way, **measured)
            yield audited.irregular(told, {"limits": limits_in_words(found)}, "look")


_WAYS = {"below": "low", "above": "high"}


def _said_of(what: str, words: str) -> str:
    """Whether words call a thing low or high; empty for neither."""
    match = re.search(rf"\b(low|no|weak|high|too much|excess|excessive)\s+{re.escape(what)}\b", words, re.IGNORECASE)
    return "" if match is None else "low" if match[1].casefold() in ("low", "no", "weak") else "high"


_NO_DEFECT = re.compile(
    r"\b(?:without|no|lack of|low on|out of) (?:engine )?oil\b|\bwater in (?:the )?fuel\b"
    r"|\b(?:stale|old|wrong|bad) fuel\b|\bfuel contamina\w+"
    r"|\bcontaminated fuel\b|\bdropped\b|\bfell (?:off|from)\b|\brun over\b|\baccident\b|\bmisus\w+"
    r"|\babus\w+|\bneglect\w*|\bnormal wear\b|\bworn out(?=\s*(?:$|[.,;]))|\bwear and tear\b|\bnever serviced\b"
    r"|\bnot (?:been )?(?:serviced|maintained|greased)\b|\bpacked with (?:grass|dirt|mud)\b|\bfrozen\b|\bmodified\b"
    r"|\bhit a? ?(?:stone|rock|kerb|stump)\b|\boverloaded\b",
    re.IGNORECASE,
)
_DENIED = re.compile(r"\b(?:no (?:sign|trace|evidence) of|not|no|never|without|nor)\s+(?:\w+\s+){0,2}$", re.IGNORECASE)


def cause_against_defect(audited: AuditedClaim, _measures: Measures) -> Iterator[Irregularity]:
    """The cause tells of misuse, lack of maintenance, wear or an accident, and a defect of the maker's is claimed.

    Source: common practice, no source.
    """
    for failure in audited.claim.failures if audited.asks_for_money else ():
        # "no sign of misuse" tells of the opposite
        found = next((each for each in _NO_DEFECT.finditer(failure.cause) if not _is_denied(failure, each)), None)
        # a defect claimed as something else claims nothing of the maker
        if found and failure.defect in ("material", "workmanship", None):
            told = {"said": repr(found[0]), "defect": failure.defect or "not told"}
            key = "cause-against-defect" if failure.defect else "cause-against-defect.untold"
            said = say(key, cause_formerly=failure.cause[:120], **told)
            yield audited.irregular(said, {"cause": beginning(failure.cause, 120)}, "look")


def _is_denied(failure: Failure, found: re.Match[str]) -> bool:
    return bool(_DENIED.search(failure.cause[: found.start()]))


def another_part_replaced(audited: AuditedClaim, _measures: Measures) -> Iterator[Irregularity]:
    """A failed part is named by its number, and none of the parts used is it, nor shares a word with what failed.

    Source: common practice, no source.
    """
    claim = audited.claim
    # one that somebody else pays was fitted as well
    used = claim.parts
    if not any(part.payer == "maker" for part in used) or not audited.asks_for_money:
        return
    numbers = {run_on(part.number) for part in used}
    # four letters, so that bearing and bearings are one thing, and carb and carburettor
    stems = {word[:4] for part in used for word in word_set(part.name)}
    for failure in claim.failures:
        wanted = {word[:4] for word in (*word_set(failure.word), *word_set(failure.part.name))}
        if failure.part.number and run_on(failure.part.number) not in numbers and not wanted & stems:
            names, number = [part.name for part in used], failure.part.number
            fitted = {"fitted": some_of(names, 3), "formerly": ", ".join(names[:3])}
            said = say("another-part-replaced", failed=folded(failure.word), number=number, **fitted)
            yield audited.irregular(said, {"failed": number}, "look")


def registered_before_sale(audited: AuditedClaim, _measures: Measures) -> Iterator[Irregularity]:
    """A unit that was registered before it was sold.

    Source: common practice, no source.
    """
    dates = audited.claim.dates
    # whichever came first: a unit may be delivered, and registered, before it is paid for
    sold = min((day for day in (dates.purchased, dates.delivered) if day), default=None)
    if dates.registered and sold and dates.registered < sold and not audited.is_withdrawn:
        said = say("registered-before-sale", registered=dates.registered, sold=sold)
        yield audited.irregular(said, {"registered": f"{dates.registered}"}, "look")


_DECIDES = re.compile(
    r"dates\.(?:purchased|delivered|in_service|registered|failed|presented)|unit\.(?:use|hours|model|meters.*|serials.*)"
    r"|failure(?:\[\d+\])?\.(?:component|defect)|owner\.first_owner"
)


def changed_before_filing(audited: AuditedClaim, measures: Measures) -> Iterator[Irregularity]:
    """What decides cover was changed, not filled in, in the last days before the claim was first filed.

    Source: a rule of this tool's, no source.
    """
    filed = audited.course.first_filed or audited.standing.filed
    if filed is None or not audited.is_with_the_maker:
        return
    for edit in audited.edits:
        late = filed - timedelta(days=measures.late_change_days) <= edit.on <= filed
        # filling in what was blank is what the last days are for; another spelling changes nothing
        if late and edit.before and _DECIDES.fullmatch(edit.key) and folded(edit.before) != folded(edit.after):
            values = {"before": edit.before, "after": edit.after or "nothing"}
            said = say("changed-before-filing", changed=edit.key, day=edit.on, when=_when(edit.on, filed), **values)
            yield audited.irregular(said, {"key": edit.key, "filed": f"{filed}"}, "look")


def _when(on: date, filed: date) -> str:
    days = (filed - on).days
    return "the day it was filed" if not days else f"{days} day{'s' if days > 1 else ''} before it was filed"


class Worded(NamedTuple):
    """What one claim says or what it measured, as it is told, and as it was formerly."""

    claim: str
    unit: str
    says: str
    formerly: str
    digits: int = 0


def words_and_figures(audited: AuditedClaim) -> Iterator[tuple[GroupKey, Worded]]:
    """Claims by their sentences with their measurements; short sentences are everybody's."""
    claim = audited.claim
    said = tuple(folded(text) for each in claim.failures for text in (each.complaint, each.cause))
    words = sum(len(text.split()) for text in said)
    figures = _figures(audited)
    # without a figure only habits of writing would be compared
    if figures and words >= _LEAST_WORDS and not audited.is_withdrawn:
        cause = claim.failure.cause
        seen = Worded(audited.number, audited.unit_key, beginning(cause, 80), cause[:80], _digits(figures))
        yield (said, figures), seen


def figures_alone(audited: AuditedClaim) -> Iterator[tuple[GroupKey, Worded]]:
    """Claims by what they measured, where that is two things at least and not round."""
    figures = _figures(audited)
    if len(figures) > 1 and not audited.is_withdrawn:
        said = ", ".join(f"{what} {plain(Decimal(value))}" for what, value in figures[:3])
        formerly = ", ".join(f"{what} {value}" for what, value in figures[:3])
        yield figures, Worded(audited.number, audited.unit_key, said, formerly)


def _figures(audited: AuditedClaim) -> tuple[tuple[str, str], ...]:
    measured = ((found.what, number_in(found.value)) for found in audited.claim.findings)
    return tuple(sorted((folded(what), str(value.normalize())) for what, value in measured if value is not None))


def _digits(figures: Sequence[tuple[str, str]]) -> int:
    """How many digits were measured, leading noughts left out."""
    # the more digits, the less likely two units show the same by themselves
    return sum(len(Decimal(value).as_tuple().digits) for _, value in figures)


def same_words_and_figures(seen: Sequence[Worded], _measures: Measures) -> Iterator[Irregularity]:
    """Claims about different units that say the same, sentence for sentence, and measured the same.

    Sentences are copied from claim to claim, and a figure of one digit comes again by itself: the fewer digits were
    measured, the more claims it takes.

    Source: common practice, no source.
    """
    if len({each.unit for each in seen}) >= max(_LEAST_CLAIMS, _DIGITS_AND_CLAIMS - seen[0].digits):
        yield _repeated("same-words-and-figures", seen)


def same_figures(seen: Sequence[Worded], _measures: Measures) -> Iterator[Irregularity]:
    """Four claims about different units whose measurements, two or more, are the same.

    Source: common practice, no source.
    """
    if len({each.unit for each in seen}) >= _CLAIMS_OF_FIGURES:
        yield _repeated("same-figures", seen)


def _repeated(rule: str, seen: Sequence[Worded]) -> Irregularity:
    claims = tuple(sorted({each.claim for each in seen}))
    said = say(rule, claims=listed(claims), says_formerly=seen[0].formerly)
    return Irregularity((said,), claims, "look", {"says": seen[0].says})


FACT_RULES = (
    OneClaimRule(
        "measured-in-order",
        "Everything measured is within limits, and parts were replaced.",
        PRACTICE,
        measured_in_order,
    ),
    OneClaimRule("reading-against-cause", "A measurement contradicts the cause.", PRACTICE, reading_against_cause),
    OneClaimRule(
        "cause-against-defect",
        "The cause tells of misuse, wear or an accident, and a defect of the maker's is claimed.",
        PRACTICE,
        cause_against_defect,
    ),
    OneClaimRule("another-part-replaced", "What was fitted is not what failed.", PRACTICE, another_part_replaced),
    OneClaimRule(
        "registered-before-sale", "A unit was registered before it was sold.", PRACTICE, registered_before_sale
    ),
    OneClaimRule(
        "changed-before-filing",
        "What decides cover was changed in the last days before filing.",
        OURS,
        changed_before_filing,
    ),
    AcrossRule(
        "same-words-and-figures",
        "Claims say and measured the very same.",
        PRACTICE,
        words_and_figures,
        same_words_and_figures,
    ),
    AcrossRule("same-figures", "Claims have the very same measurements.", PRACTICE, figures_alone, same_figures),
)
"""The rules about facts."""
