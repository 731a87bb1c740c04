"""Packets are verified here in the tests' own process, where every line is watched; users' in a process of its own."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest


def _here(work: Callable[..., Any], *given: Any, file: str) -> Any:
    return work(*given)


@pytest.fixture(autouse=True)
def _verified_here(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("claimpack.packet.proving.verify.confined", _here)
