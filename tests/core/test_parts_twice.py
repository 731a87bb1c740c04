import pytest

from claimpack.core.claim import Part
from claimpack.core.parts_twice import number_twice


def told(*numbers):
    return number_twice("26-0001", [Part(number=number, name="Gasket") for number in numbers])


def test_a_number_that_stands_there_already_is_told_with_the_way_back():
    said = "h-1 is on the claim already, as part 1; it was added as part 3."
    assert told("H-1", "H-2", "h-1") == [f"{said} If it is the same one: claimpack part remove 26-0001 3"]


@pytest.mark.parametrize("numbers", [("H-1",), ("H-1", "H-2"), ("H-1", "H-1", "H-2"), ("", "")])
def test_another_number_or_none_says_nothing(numbers):
    assert told(*numbers) == []
