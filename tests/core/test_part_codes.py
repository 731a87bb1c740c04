import pytest

from claimpack.core.part_codes import PartCode, part_code
from claimpack.errors import BadInput


@pytest.mark.parametrize(
    ("said", "code"), [("26-0041/1", PartCode("26-0041", 1)), (" 26-0041/12\n", PartCode("26-0041", 12))]
)
def test_a_code_is_the_claim_and_the_place_of_the_part(said, code):
    assert part_code(said) == code


def test_a_number_alone_stands_for_the_only_part():
    assert part_code("26-0041") == PartCode("26-0041", 0)


def test_a_code_is_written_as_on_the_tag():
    assert (str(PartCode("26-0041", 2)), str(PartCode("26-0041"))) == ("26-0041/2", "26-0041")


@pytest.mark.parametrize("said", ["", "26-0041/0", "26-0041/", "26 0041/1", "26-0041/1/2", "https://x/1", "26-0041/٣"])
def test_what_is_no_code_is_refused(said):
    with pytest.raises(BadInput, match="no code of a held part"):
        part_code(said)
