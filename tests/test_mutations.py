from __future__ import annotations

import pytest
from mutations import READERS


@pytest.mark.parametrize("reader", READERS.values(), ids=READERS)
def test_no_changed_input_breaks_or_holds_up_its_reader(reader, tmp_path):
    assert [fault.what for fault in reader.faults(seed=1, count=10, place=tmp_path)] == []
