"""A shop with a claim at hand, where a test makes no other."""

import pytest
from running import claimpack
from shop_builders import a_shop


@pytest.fixture
def shop(tmp_path):
    """A shop with two claims, 26-0001 at hand."""
    shop = a_shop(tmp_path, "26-0001", "26-0002")
    claimpack("at-hand", "26-0001", folder=shop)
    return shop
