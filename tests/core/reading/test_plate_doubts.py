import pytest

from claimpack.core.reading.compared import Compared
from claimpack.core.reading.plate_doubts import plate_doubts
from claimpack.core.reading.read_text import Proposal, Spot

NOWHERE = Spot(0, 0, 0, 0)


def read(key, text, typed=""):
    return Compared(Proposal(key, text, "letters", NOWHERE), typed)


def keys(*found, shot="serial plate"):
    return [doubt.key for doubt in plate_doubts(found, shot)]


def test_a_plate_off_which_no_serial_number_was_read_is_told():
    assert keys(read("unit.model", "CS-70", "CS-70")) == ["plate-unread"]


@pytest.mark.parametrize(("typed", "told"), [("HC70-1", []), ("", []), ("HC70-2", ["plate-differs"])])
def test_a_number_is_told_where_the_claim_says_another(typed, told):
    assert keys(read("unit.serials.unit", "HC70-1", typed)) == told


def test_other_shots_need_no_number():
    assert keys(shot="whole unit") == []
