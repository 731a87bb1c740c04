"""Makers by every word they go by: the claim's own, and those of the plans."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING, NamedTuple

from claimpack.core.values.words import folded

if TYPE_CHECKING:
    from claimpack.core.claims.claim import Claim
    from claimpack.core.plans.plan import Plan


class Maker(NamedTuple):
    """A maker as plans write it: the word that plans and settings go by, and the name for people."""

    word: str = ""
    name: str = ""


def maker_of(claim: Claim, plan: Plan | None, plans: Iterable[Plan] = ()) -> Maker:
    """The maker of a claim as its plan writes it, else as the first plan of that maker does; empty where none does.

    Source: common practice, no source.
    """
    found = plan or next((other for other in plans if is_maker_of(other, claim.maker)), None)
    return Maker(found.maker, found.maker_name or found.maker) if found else Maker()


def name_of(claim: Claim, maker: Maker) -> str:
    """The one name a maker goes by on every screen and paper: as its plans write it, else as the claim does."""
    return maker.name or claim.maker


def is_maker_of(plan: Plan, said: str) -> bool:
    """Whether somebody names the maker of a plan, by its word or by its name."""
    return folded(said) in (folded(plan.maker), folded(plan.maker_name))


def spellings(said: str, plans: Iterable[Plan]) -> tuple[str, ...]:
    """A maker as somebody wrote it, then every other way the plans write it."""
    others = (way for plan in plans if is_maker_of(plan, said) for way in (plan.maker, plan.maker_name) if way)
    return tuple(dict.fromkeys((said, *others)))


def names_shown(plans: Iterable[Plan]) -> list[str]:
    """The makers of plans, each once, by the name for people."""
    return list(dict.fromkeys(plan.maker_name or plan.maker for plan in plans))
