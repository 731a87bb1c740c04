"""A reason: the rule that spoke, how it came out, and the facts it spoke about."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Literal, NamedTuple

from claimpack.core.values.wording.sentence import Sentence, say

Outcome = Literal["pass", "fail", "unknown"]


class Reason(NamedTuple):
    """One reason of a verdict; `asks` names the fact, as a key of the claim, that would settle an unknown one."""

    rule: str
    outcome: Outcome
    says: Sentence
    window: str = ""
    asks: str = ""

    @property
    def because(self) -> str:
        """The reason in English."""
        return self.says.said()


def passes(rule: str, key: str, **facts: object) -> Reason:
    """A reason that speaks for cover."""
    return Reason(rule=rule, outcome="pass", says=say(key, **facts))


def fails(rule: str, key: str, **facts: object) -> Reason:
    """A reason that speaks against cover."""
    return Reason(rule=rule, outcome="fail", says=say(key, **facts))


def unknown(rule: str, asks: str, key: str, **facts: object) -> Reason:
    """A reason that waits for a fact."""
    return Reason(rule=rule, outcome="unknown", says=say(key, **facts), asks=asks)


def settled(reasons: Iterable[Reason]) -> bool | None:
    """False where one reason fails, None where one is unknown, else True."""
    outcomes = {reason.outcome for reason in reasons}
    return False if "fail" in outcomes else None if "unknown" in outcomes else True
