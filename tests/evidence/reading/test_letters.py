from __future__ import annotations

import pytest

from claimpack.errors import NotInstalled
from claimpack.evidence.reading.letters import can_read_letters, must_read_letters


@pytest.mark.skipif(can_read_letters(), reason="the extra `read` is installed")
def test_without_the_reader_one_sentence_says_how_to_add_it():
    with pytest.raises(NotInstalled) as refused:
        must_read_letters()
    assert "rapidocr" in refused.value.do
