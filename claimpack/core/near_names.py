"""Makers and models that no plan knows, with the known ones they most likely mean."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from claimpack.core.claim import Claim
from claimpack.core.makers import is_maker_of
from claimpack.core.matching import match
from claimpack.core.plan import Plan
from claimpack.core.words import is_said, nearest


class NearName(NamedTuple):
    """A key of the claim, what it says, and the known name nearest to it."""

    key: str
    said: str
    near: str


def near_names(claim: Claim, plans: Sequence[Plan]) -> tuple[NearName, ...]:
    """The maker and the model where they look mistyped; none where a plan was found.

    Source: common practice, no source.
    """
    if match(claim, plans).plan is not None:
        return ()
    makers = [plan.maker_name for plan in plans if plan.maker_name] + [plan.maker for plan in plans]
    if not is_said(claim.maker, makers):
        maker = nearest(claim.maker, makers)
        return (NearName("maker", claim.maker, maker),) if maker else ()
    of_maker = [plan for plan in plans if is_maker_of(plan, claim.maker)]
    models = [model for plan in of_maker for model in plan.models if "*" not in model]
    model = None if is_said(claim.unit.model, models) else nearest(claim.unit.model, models)
    return (NearName("unit.model", claim.unit.model, model),) if model else ()
