"""What must be said of each failure of a claim: what failed, how, its cause and what was done about it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from claimpack.core.facts.failure import Failure
from claimpack.core.facts.fields import CaseKind
from claimpack.core.judging.conditions.missing_items import ClaimFacts, MissingItem
from claimpack.core.plans.component_words import slip_for
from claimpack.core.plans.plan import Plan
from claimpack.core.values.wording.sentence import Sentence, say
from claimpack.core.verdict.failures import JudgedFailure, head_of
from claimpack.core.verdict.paid_parts import paid_parts
from claimpack.core.windows.presumed import KEY

# a campaign has no complaint, as its unit need not have failed; a declined repair has nothing that was done
_TOLD_IN: Mapping[CaseKind, tuple[str, ...]] = {"campaign": ("correction",), "declined": ("complaint", "cause")}
"""What is told of a case that is no repair of something that failed: a campaign is done, a declined repair is not."""


def story(facts: ClaimFacts) -> list[MissingItem]:
    """The complaint, and cause and correction of every failure.

    Source: common practice, no source.
    """
    why, found = say("why.every-maker"), list[MissingItem]()
    told = _TOLD_IN.get(facts.claim.case, ("complaint", "cause", "correction"))
    # the owner brings the unit once, with one story: it may be told with any of the failures
    if "complaint" in told and not any(failure.complaint for failure in facts.claim.failures):
        found.append(MissingItem(say("missing.complaint"), why))
    for number, failure in _failures(facts):
        texts = {"cause": failure.cause, "correction": failure.correction}
        lacking = [part for part, text in texts.items() if part in told and not text]
        found += [MissingItem(_of(facts, f"missing.{part}", number), why) for part in lacking]
    return found


def component(facts: ClaimFacts) -> list[MissingItem]:
    """The component that failed.

    Source: common practice, no source.
    """
    return [item for number, _ in _failures(facts) for item in _component(facts, number)]


def _component(facts: ClaimFacts, number: int) -> list[MissingItem]:
    word = facts.claim.of_failure(number).component()
    if not word:
        return [MissingItem(what=_of(facts, "missing.component", number), why=say("why.windows-by-component"))]
    # a word that is merely unknown is asked about by the window itself; here only what looks mistyped
    near = slip_for(word, facts.plan, facts.plan.component_words())
    if near is None:
        return []
    what, why = say("missing.component-word", component=word), say("why.component-near", component=word, near=near)
    return [MissingItem(what=what, why=why, blocks_filing=False)]


def defect(facts: ClaimFacts) -> list[MissingItem]:
    """The kind of defect, where the plan excludes some kinds and it is not presumed to be none of them.

    Source: common practice, no source.
    """
    if not facts.plan.excluded.defects:
        return []
    why = say("why.defects-excluded", defects_word="|".join(facts.plan.excluded.defects))
    # "unknown" was an honest answer on the day it came in, and does not tell a maker whether it is excluded
    lacking = [number for number, failure in _failures(facts) if failure.defect in (None, "unknown")]
    lacking = [number for number in lacking if number not in facts.presumed]
    return [MissingItem(what=_of(facts, "missing.defect", number), why=why) for number in lacking]


def presumed_of(failures: Sequence[JudgedFailure]) -> frozenset[int]:
    """The failures that are presumed, under the window cited, to have been there from the start."""
    cited = ((one.number, one.judgement.window) for one in failures)
    return frozenset(number for number, window in cited if window and any(r.says.key == KEY for r in window.reasons))


def still_open(failures: Sequence[JudgedFailure]) -> list[MissingItem]:
    """The verdict on every failure that is still open where another one is covered.

    Source: a rule of this tool's, no source; a claim says of each line whether it is covered.
    """
    # while the whole claim is undecided its headline asks already
    if not failures or head_of(failures).verdict == "undecided":
        return []
    found = []
    for one in failures:
        if one.verdict == "undecided":
            what = say("missing.verdict-of", failure=one.number, component=one.called)
            why = say("why.verdict-of", facts_word="|".join(one.asks)) if one.asks else one.headline
            found.append(MissingItem(what, why))
    return found


def open_shares(plan: Plan, failures: Sequence[JudgedFailure]) -> list[MissingItem]:
    """The day in repair by which the maker may pay a larger share of a failure than is claimed.

    Source: a rule of this tool's, no source; the share claimed is what the days given leave certain.
    """
    covered = (one.judgement for one in failures if one.verdict == "covered")
    told = (part.why for judgement in covered for part in paid_parts(plan, judgement).values())
    more = {why.facts["named"]: why for why in told if why and why.key == "price.share-or-more"}
    return [
        MissingItem(say("missing.share", fact_word=why.facts["fact_word"], named=named), why)
        for named, why in more.items()
    ]


def _failures(facts: ClaimFacts) -> list[tuple[int, Failure]]:
    """The failures that the maker may pay for, each with its number."""
    return [each for each in enumerate(facts.claim.failures, start=1) if each[0] not in facts.closed]


_OF_A_FAILURE = {
    "missing.cause": "missing.cause-of",
    "missing.correction": "missing.correction-of",
    "missing.component": "missing.component-of",
    "missing.defect": "missing.defect-of",
}
"""The sentences that name a failure where there are several."""


def _of(facts: ClaimFacts, key: str, number: int) -> Sentence:
    several = len(facts.claim.failures) > 1
    called = facts.claim.failures[number - 1].word or number
    return say(_OF_A_FAILURE[key], failure=number, component=called) if several else say(key)
