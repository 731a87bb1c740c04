"""What a claim lacks before it can be filed, by the key of each sentence."""

from builders import TODAY, a_claim, a_plan

from claimpack.core.judging.conditions.conditions import missing
from claimpack.core.judging.conditions.missing_items import ClaimFacts
from claimpack.core.pricing.pricing import price


def lacking(plan=None, taken=None, today=TODAY, **changes):
    """What a claim lacks, by the key of the sentence: whether it blocks filing."""
    plan, claim = plan or a_plan(), a_claim(**changes)
    found = missing(ClaimFacts(claim, plan, price(claim, plan).amounts, today, taken or {}))
    return {item.what.key.removeprefix("missing."): item.blocks_filing for item in found}
