"""Where a claim or a held part may stand, and which of that is still to be settled."""

from __future__ import annotations

from typing import Literal

State = Literal["draft", "filed", "questioned", "accepted", "refused", "paid", "written off", "withdrawn"]
OPEN: tuple[State, ...] = ("draft", "filed", "questioned", "accepted", "refused")
"""States in which something is still to be done."""

PENDING: tuple[State, ...] = ("filed", "questioned", "accepted", "refused")
"""States of a claim that is filed and not settled."""

PartState = Literal["held", "called back", "sent", "released", "scrapped"]


def told_state(state: str) -> str:
    """The state of a claim as a sentence tells it: a claim is paid, but it is a draft."""
    return "a draft" if state == "draft" else state
