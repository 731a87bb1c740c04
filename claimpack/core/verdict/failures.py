"""Each failure of a claim judged by itself, and the one verdict over all of them."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from typing import NamedTuple

from claimpack.core.claims.claim import Claim
from claimpack.core.clauses.operations import Elsewhere
from claimpack.core.plans.plan import Plan
from claimpack.core.pricing.window_pays import Cover, LeftTo
from claimpack.core.values.wording.sentence import Sentence, say
from claimpack.core.verdict.by_case import judge_case
from claimpack.core.verdict.coverage import Judgement, Verdict
from claimpack.core.verdict.headline import headline
from claimpack.core.verdict.paid_parts import paid_parts, share_told
from claimpack.core.verdict.plan_faults import faults
from claimpack.core.windows.applies import covered_elsewhere
from claimpack.core.windows.judged import facts_that_decide
from claimpack.core.windows.start_of_cover import start_of_cover


class JudgedFailure(NamedTuple):
    """One failure, judged as if the claim were about it alone; failures are counted from 1.

    Args:
        number: which one.
        claim: the claim as if it were about this failure alone.
        judgement: its verdict.
        headline: the same in one line.
        elsewhere: who else covers what failed, where it is not covered.
        share: the maker's share on the day judged, where it is covered and that is not all.
    """

    number: int
    claim: Claim
    judgement: Judgement
    headline: Sentence
    elsewhere: Elsewhere | None = None
    share: Sentence | None = None

    @property
    def verdict(self) -> Verdict:
        """Its verdict."""
        return self.judgement.verdict

    @property
    def component(self) -> str:
        """The word for what failed; empty where none is given."""
        return self.claim.component()

    @property
    def called(self) -> str:
        """What it is told by: the word for what failed, else its number."""
        return self.component or str(self.number)

    @property
    def title(self) -> Sentence:
        """What stands over what is told of it."""
        return say("failure.title", failure=self.number, component=self.called)

    @property
    def asks(self) -> tuple[str, ...]:
        """The facts, as keys of the claim, that would decide it; none where it is decided."""
        if self.verdict != "undecided":
            return ()
        return facts_that_decide(self.judgement.windows, self.judgement.reasons)


def judged_failures(claim: Claim, plan: Plan) -> tuple[JudgedFailure, ...]:
    """Every failure of a claim under its own windows, in the claim's order.

    Source: common practice, no source.
    """
    if len(claim.failures) == 1:
        return (_judged(claim, plan, 1),)
    return tuple(_judged(claim.of_failure(number), plan, number) for number in range(1, len(claim.failures) + 1))


def owed_by_the_seller_alone(plan: Plan, failures: Sequence[JudgedFailure]) -> bool:
    """Whether windows hold, and all that hold or may hold bind the seller without recourse to the maker.

    Source: the plan says whom a window binds; common practice, no source.
    """
    own = {window.id for window in plan.window if window.is_of_the_shop}
    judged = [window for one in failures for window in one.judgement.windows if window.holds is not False]
    return any(window.holds for window in judged) and all(window.id in own for window in judged)


def _judged(claim: Claim, plan: Plan, number: int) -> JudgedFailure:
    judgement = judge_case(claim, plan)
    if any(fault.of_verdict for fault in faults(claim, plan)):
        # a plan that contradicts itself about this very claim decides nothing, whatever its windows came to
        undecided = judgement._replace(verdict="undecided", window=None)
        return JudgedFailure(number, claim, undecided, say("answer.undecided-fault", plan=plan.id))
    # of what is covered here nobody else need be named
    other = covered_elsewhere(claim, plan) if judgement.verdict == "not covered" else None
    return JudgedFailure(number, claim, judgement, headline(claim, judgement), other, share_told(plan, judgement))


_BEST: tuple[Verdict, ...] = ("covered", "undecided", "not covered")


def head_of(failures: Sequence[JudgedFailure]) -> JudgedFailure:
    """The failure whose verdict is that of the claim: covered if any is, else undecided if any is; the first of those.

    Source: a rule of this tool's, no source.
    """
    # one covered failure is enough to send the claim in; the lines of the others go to whoever pays them
    return min(failures, key=lambda one: _BEST.index(one.verdict))


_TOLD = {
    (True, False, False): "answer.failures-covered",
    (True, True, False): "answer.failures-in-part",
    (True, False, True): "answer.failures-covered-open",
    (True, True, True): "answer.failures-all-ways",
    (False, True, False): "answer.failures-closed",
    (False, False, True): "answer.failures-open",
    (False, True, True): "answer.failures-open-closed",
}
"""The sentence over several failures, by whether any is covered, not covered, undecided."""


def headline_of(failures: Sequence[JudgedFailure]) -> Sentence:
    """The verdict on a claim in one sentence; on several failures it names which is covered and which is not."""
    if len(failures) == 1:
        return failures[0].headline
    by_verdict: dict[Verdict, list[str]] = {"covered": [], "not covered": [], "undecided": []}
    for one in failures:
        by_verdict[one.verdict].append(one.called)
    covered, closed, undecided = by_verdict.values()
    names = {"covered": covered, "closed": closed, "undecided": undecided}
    facts = {name: ", ".join(words) for name, words in names.items() if words}
    return say(_TOLD[bool(covered), bool(closed), bool(undecided)], **facts)


def closed_of(failures: Sequence[JudgedFailure]) -> frozenset[int]:
    """The failures that are not covered where another one is, or may be."""
    closed = frozenset(one.number for one in failures if one.verdict == "not covered")
    # where nothing is covered there is no other failure to tell them apart from: the claim as a whole is not covered
    return closed if len(closed) < len(failures) else frozenset()


def cover_of(plan: Plan, failures: Sequence[JudgedFailure]) -> Cover:
    """What pricing goes by: each line by the windows of its own failure.

    What is for a failure that is not covered is the owner's; where another maker covers what failed, that maker's.

    Source: common practice, no source.
    """
    left = closed_of(failures)
    return Cover(
        paid=tuple(paid_parts(plan, one.judgement) for one in failures),
        starts=cover_years_from(plan, failures),
        closed=frozenset(one.number for one in failures if one.verdict == "not covered"),
        left={one.number: _left_to(one) for one in failures if one.number in left},
    )


def cover_years_from(plan: Plan, failures: Sequence[JudgedFailure]) -> date | None:
    """The day the years of a unit's cover are counted from: by the plan's own `start`, whichever windows pay.

    Windows differ from claim to claim of one unit, and the years of a cap for the unit must not. Where that day will
    never come it is the first day of the windows that hold; of a part sold, the day its cover starts. None while it is
    not known.

    Source: a rule of this tool's, no source; plans say "a year of cover" and not of which window.
    """
    head = head_of(failures)
    if head.claim.case == "part":
        return head.judgement.starts
    start = start_of_cover(head.claim, plan)
    if start.on or start.earliest < date.max:
        return start.on
    held = (window.starts for one in failures for window in one.judgement.windows if window.holds)
    return min((day for day in held if day), default=None)


def _left_to(one: JudgedFailure) -> LeftTo:
    facts = {"failure": one.number, "component": one.component}
    if one.elsewhere:
        return LeftTo("other maker", say("price.failure-elsewhere", maker=one.elsewhere.maker, **facts))
    return LeftTo("owner", say("price.failure-closed", **facts))
