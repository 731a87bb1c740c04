from __future__ import annotations

from claimpack.core.events.states import OPEN, PENDING


def test_pending_is_open_without_drafts():
    assert tuple(state for state in OPEN if state != "draft") == PENDING
