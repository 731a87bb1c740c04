from __future__ import annotations

import pytest
from bit_flips import flips, said
from running import claimpack
from shops_with_claims import a_copy


@pytest.fixture
def filed(filed_shop, tmp_path):
    return a_copy(filed_shop, tmp_path)


@pytest.mark.parametrize("seed", range(4))
def test_a_flipped_bit_is_found_wherever_it_changed_anything(filed, seed):
    claimpack("shop", "verify", folder=filed)
    taken = [how for _, how in flips(filed, 3, seed)]
    assert [how for how in taken if how.startswith("bad")] == []
    assert "found" in taken


def test_the_book_flips_are_tried_on_reads_whole(filed):
    claimpack("shop", "verify", folder=filed)
    assert said(filed / "book.sqlite")
