"""Shops that are made once; a test that changes one works on a copy."""

from __future__ import annotations

from pathlib import Path

import pytest
from shops_with_claims import a_copy, a_shop_with, walked


@pytest.fixture(scope="session")
def draft_shop(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A shop with the complete claim; tests work on copies of it."""
    return a_shop_with(tmp_path_factory.mktemp("draft"))


@pytest.fixture(scope="session")
def filed_shop(draft_shop: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The same with the claim filed on 2026-02-25; tests work on copies of it."""
    shop = a_copy(draft_shop, tmp_path_factory.mktemp("filed"))
    walked(shop, "file --on 2026-02-25")
    return shop
