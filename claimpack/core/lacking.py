"""One thing a claim lacks, and what the rules about it look at."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from datetime import date, datetime
from typing import NamedTuple

from claimpack.core.claim import Claim
from claimpack.core.plan import Plan
from claimpack.core.pricing import Amounts
from claimpack.core.wording import Sentence

_APPROVALS = ("missing.approval", "missing.approval-amount", "missing.approval-again")
_WRONG = (
    "missing.plan-fault",
    "missing.future",
    "missing.serial-form",
    "missing.longer-than-a-day",
    "missing.registered",
)


class Missing(NamedTuple):
    """One thing a claim lacks; what does not block filing is worth a look all the same."""

    what: Sentence
    why: Sentence
    blocks_filing: bool = True

    @property
    def is_wrong(self) -> bool:
        """Whether something is there that cannot stand, rather than nothing."""
        return self.what.key in _WRONG

    @property
    def is_approval(self) -> bool:
        """Whether it is the maker's approval, without which no repair is to begin."""
        return self.blocks_filing and self.what.key in _APPROVALS


def told_together(items: Iterable[Missing]) -> list[str]:
    """What is lacking, a line a cause: things of one kind that are asked for with the same reason share a line."""
    shared: dict[tuple[str, str], list[Missing]] = {}
    for item in items:
        shared.setdefault((item.what.key, str(item.why)), []).append(item)
    return [f"{_all_in_one([item.what for item in some])}. {some[0].why}" for some in shared.values()]


def told_in_short(items: Iterable[Missing]) -> str:
    """What is lacking in one sentence, without the reasons."""
    shared: dict[str, list[Sentence]] = {}
    for item in items:
        shared.setdefault(item.what.key, []).append(item.what)
    return "; ".join(str(_all_in_one(some)) for some in shared.values())


def _all_in_one(said: Sequence[Sentence]) -> Sentence:
    """Sentences of one key as one that names all of their facts, each once."""
    facts = {
        name: ("&" if name.endswith("_word") else ", ").join(dict.fromkeys(one.facts[name] for one in said))
        for name in said[0].facts
    }
    return said[0]._replace(facts=facts)


class Facts(NamedTuple):
    """What the rules look at; `not_kept` are the files that a claim of the book names and the book does not keep."""

    claim: Claim
    plan: Plan
    amounts: Amounts
    today: date
    taken: Mapping[str, datetime | None]
    not_kept: Sequence[str] = ()


Rule = Callable[[Facts], list[Missing]]
"""Looks at a claim for one kind of thing it lacks."""
