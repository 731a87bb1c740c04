"""When a held part may be let go, and the rule that lets it."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date, timedelta
from typing import NamedTuple


class Keeping(NamedTuple):
    """What the rules look at of one held part; dates are None where they are not known or not set.

    `keep_until` is the last day of the plan's hold, `inspect_by` the maker's last day to inspect under the terms cited;
    `withdrawn` says that the part's claim was; `terms_unread` what its terms are named by where they cannot be read, so
    that they may let it go sooner.
    """

    state: str
    keep_until: date | None = None
    inspect_by: date | None = None
    cites: str = ""
    withdrawn: bool = False
    terms_unread: str = ""


class LetGo(NamedTuple):
    """Why a part may be let go: the rule, and what it says in the case at hand."""

    rule: str
    because: str


ReleaseRule = Callable[[Keeping, date], LetGo | None]

RELEASED = "released by the maker"
RAN_OUT = "the hold ran out"
NOT_INSPECTED = "the time to inspect passed"
WITHDRAWN = "its claim was withdrawn"
TO_BE_FILED = "draft"


def released(part: Keeping, _today: date) -> LetGo | None:
    """The maker released it.

    Source: common practice, no source.
    """
    # the one rule that reaches a part called back as well: the maker's word goes before its own call
    return LetGo(RELEASED, "the maker released it") if part.state == "released" else None


def hold_ran_out(part: Keeping, today: date) -> LetGo | None:
    """The plan's hold has run out; its last day still counts.

    Source: common practice, no source; how long a part is held is the plan's.
    """
    if part.state != "held" or part.keep_until is None or today <= part.keep_until:
        return None
    return LetGo(RAN_OUT, f"the plan's hold ended on {part.keep_until}")


def not_inspected_in_time(part: Keeping, today: date) -> LetGo | None:
    """The maker's time to inspect is over, and it did not call the part back.

    Source: the section the terms cite, as S.C. Code 39-59-100 (60 days from filing, then it may be scrapped).
    """
    if part.state != "held" or part.inspect_by is None or today <= part.inspect_by:
        return None
    # law lets it go here, so the section is told: the shop may have to show it
    said = f" ({part.cites})" if part.cites else ""
    return LetGo(NOT_INSPECTED, f"the maker could inspect it until {part.inspect_by}{said}")


def claim_withdrawn(part: Keeping, _today: date) -> LetGo | None:
    """The shop took the claim back, and the maker did not call the part back.

    Source: common practice, no source; nobody inspects what nobody claims for.
    """
    if part.state != "held" or not part.withdrawn:
        return None
    return LetGo(WITHDRAWN, "its claim was withdrawn, so nobody will inspect it")


RELEASE_RULES: tuple[ReleaseRule, ...] = (released, hold_ran_out, not_inspected_in_time, claim_withdrawn)
"""Every rule that lets a part go, in the order they are asked."""


def lets_go(part: Keeping, today: date) -> LetGo | None:
    """The first rule that lets a part go on a day; None where it must be kept."""
    return next((found for rule in RELEASE_RULES if (found := rule(part, today))), None)


def kept_until(part: Keeping) -> date | None:
    """The last day a part must be kept: the nearer of the hold's end and the end of the time to inspect.

    Returns:
        None where neither is known, and for a part called back: then the maker alone lets it go.

    Source: common practice, no source; one rule that lets it go is enough.
    """
    # a part called back has no last day: sent by then or not, the maker is owed it
    if part.state != "held":
        return None
    # each of the two lets it go by itself, and the nearer is enough
    return min((day for day in (part.keep_until, part.inspect_by) if day), default=None)


def why_kept(part: Keeping) -> str:
    """Why a part may not be let go yet, and from which day it may."""
    if part.state == "called back":
        return "the maker called it back: it goes to the maker, or is let go when the maker releases it"
    last = kept_until(part)
    unread = f"; its terms {part.terms_unread} cannot be read, and may let it go sooner" if part.terms_unread else ""
    if last is None:
        return f"no day is known from which it may go: it is kept until the maker releases it{unread}"
    may_go = f"it may go from {last + timedelta(days=1)}, or when the maker releases it"
    return f"it must be kept until {last}; {may_go}{unread}"


def worth_keeping(let_go: LetGo, state: str, owed: str, refused: str = "") -> str:
    """Why a part that only its hold lets go is better kept: its claim waits for money, or is still to be filed.

    Empty where nothing speaks so.

    A part that the maker released, or did not inspect in time, goes without a word.

    Args:
        let_go: the rule that lets it go.
        state: where the claim stands.
        owed: what is outstanding, in words; empty where nothing is.
        refused: what the maker refused when it accepted a part, in words; empty where nothing is, or it was let go.

    Source: charge-back when the part cannot be produced: common practice, no source. Scrapping after the time to
    inspect does not prejudice the claim: S.C. Code 39-59-100.
    """
    # the maker had its chance where it released the part or did not come to see it; a hold that ran out says nothing of
    # that
    if not (owed or refused or state == TO_BE_FILED) or let_go.rule != RAN_OUT:
        return ""
    if state == TO_BE_FILED:
        return f"its hold ran out, but {not_settled(state, owed)}, and the part is its evidence"
    if not owed:
        return f"its hold ran out, but {not_settled(state, owed, refused)}, and the part is evidence for it"
    return f"its hold ran out, but {not_settled(state, owed)}, and the maker may still ask for the part"


def not_settled(state: str, owed: str, refused: str = "") -> str:
    """That a claim still waits for money, for its filing, or for what becomes of its refused rest, in words."""
    if state == TO_BE_FILED:
        return "the claim is still to be filed"
    if refused and not owed:
        return f"the claim is {state}, with {refused} not accepted and not decided"
    return f"the claim is {state} with {owed} outstanding"
