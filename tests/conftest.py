"""Every check against a published source names it; commands are run in a world of their own."""

from __future__ import annotations

from pathlib import Path

import pytest

PROVENANCE = {"source", "practice", "memory"}


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    nameless = [
        item.nodeid
        for item in items
        if "published" in Path(item.path).parts and not PROVENANCE & {mark.name for mark in item.iter_markers()}
    ]
    if nameless:
        raise pytest.UsageError("tests in tests/published without a source:\n" + "\n".join(nameless))
