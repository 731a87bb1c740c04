"""One thing a claim lacks, and what the rules about it look at."""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterable, Mapping, Sequence
from datetime import date, datetime
from typing import NamedTuple

from claimpack.core.claims.claim import Claim
from claimpack.core.plans.plan import Plan
from claimpack.core.pricing.pricing import Amounts
from claimpack.core.values.wording.sentence import Sentence, say

_APPROVALS = (
    "missing.approval",
    "missing.approval-answer",
    "missing.approval-refused",
    "missing.approval-amount",
    "missing.approval-again",
    "missing.extra-approval",
)
_WRONG = (
    "missing.plan-fault",
    "missing.future",
    "missing.serial-form",
    "missing.serial-as-read",
    "missing.serial-on-proof",
    "missing.purchased-as-read",
    "missing.longer-than-a-day",
    "missing.registered",
)


class MissingItem(NamedTuple):
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
        # one that is only worth a look is not waited for
        return self.blocks_filing and self.what.key in _APPROVALS


def absent_and_wrong(items: Iterable[MissingItem]) -> tuple[list[MissingItem], list[MissingItem]]:
    """What blocks filing: what is not there, and what is there and cannot stand."""
    blocking = [item for item in items if item.blocks_filing]
    return [item for item in blocking if not item.is_wrong], [item for item in blocking if item.is_wrong]


def told_together(items: Iterable[MissingItem]) -> list[str]:
    """What is lacking, a line a cause: things of one kind that are asked for with the same reason share a line."""
    shared: dict[tuple[str, str], list[MissingItem]] = {}
    for item in items:
        shared.setdefault((item.what.key, str(item.why)), []).append(item)
    return [f"{_all_in_one([item.what for item in some])}. {some[0].why}" for some in shared.values()]


def told_in_short(items: Iterable[MissingItem]) -> str:
    """What is lacking in one sentence, without the reasons."""
    shared: dict[str, list[Sentence]] = {}
    for item in items:
        shared.setdefault(item.what.key, []).append(item.what)
    return "; ".join(str(_all_in_one(some)) for some in shared.values())


def _all_in_one(said: Sequence[Sentence]) -> Sentence:
    """Sentences of one key as one that names all of their facts, each once."""
    # sentences of one key differ in their facts alone, which can therefore stand in a row
    facts = {
        name: ("&" if name.endswith("_word") else ", ").join(dict.fromkeys(one.facts[name] for one in said))
        for name in said[0].facts
    }
    return said[0]._replace(facts=facts)


class ClaimFacts(NamedTuple):
    """What the rules look at.

    Args:
        not_kept: the files that a claim of the book names and the book does not keep.
        level: the shop's level with the maker; empty where it is not known.
        starts: the day the years of the unit's cover are counted from; None where it is not known.
        closed: the failures that are not covered where another one is; nothing is asked of them.
        presumed: the failures that are presumed to have been there from the start.
    """

    claim: Claim
    plan: Plan
    amounts: Amounts
    today: date
    taken: Mapping[str, datetime | None]
    not_kept: Sequence[str] = ()
    level: str = ""
    starts: date | None = None
    closed: frozenset[int] = frozenset()
    presumed: frozenset[int] = frozenset()


MissingItemRule = Callable[[ClaimFacts], list[MissingItem]]
"""Looks at a claim for one kind of thing it lacks."""


def not_kept(claim: Claim, kept: Collection[str]) -> tuple[str, ...]:
    """The files a claim names that are not among those kept, photos first, each once."""
    named = (*(photo.file for photo in claim.photos), *claim.paper_files())
    return tuple(file for file in dict.fromkeys(named) if file not in kept)


def files_lacking(claim: Claim, files: Iterable[str]) -> list[MissingItem]:
    """What a claim lacks because the book does not keep files that it names, each with the command that adds it.

    Source: a rule of this tool's, no source; a packet shows every picture and paper the claim names.
    """
    return [MissingItem(what=say("missing.file", file=file), why=_add(claim, file)) for file in files]


def _add(claim: Claim, file: str) -> Sentence:
    photos = [photo.file for photo in claim.photos]
    if file in photos:
        return say("why.photo-not-kept", claim=claim.number, place=photos.index(file) + 1)
    if file == claim.proof.file:
        kind = claim.proof.kind if claim.proof.kind not in (None, "none") else "receipt"
        return say("why.proof-not-kept", claim=claim.number, kind=kind)
    return say("why.paper-not-kept", claim=claim.number, place=claim.paper_files().index(file) + 1)
