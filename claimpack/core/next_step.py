"""What to do next with a claim, so that whoever has just recorded a step need not look it up."""

from __future__ import annotations

from claimpack.core.money import in_money
from claimpack.core.states import Standing


def what_next(number: str, standing: Standing) -> tuple[str, ...]:
    """What to do next with a claim, a sentence each; empty where nothing is left.

    Source: common practice, no source.
    """
    if standing.state == "draft":
        return (f"It is a draft again; file it with: claimpack file {number}",)
    if standing.state == "questioned":
        return (f"Answer the maker, correct the claim where it asks, and send it in again: claimpack file {number}",)
    if standing.state == "refused":
        again = f"put it right and send it in again: claimpack file {number}"
        if standing.refused_for_form:
            return (f"Only form was wrong; {again}",)
        return (f"If the maker is mistaken, {again}; else give it up: claimpack write-off {number} --because TEXT",)
    if standing.state == "accepted" and standing.payments:
        short = f"{in_money(standing.outstanding, standing.currency)} is still to come"
        return (f"{short}; chase it, or give it up: claimpack write-off {number} --because TEXT",)
    if standing.state == "filed":
        return (f"When the maker answers: claimpack answer {number} accepted|part|refused|questioned --on DATE",)
    if standing.state == "accepted":
        return (f"When the money comes: claimpack pay {number} AMOUNT --on DATE",)
    return ()
