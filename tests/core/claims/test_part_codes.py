import pytest

from claimpack.core.claims.part_codes import PartCode, part_code, refuse_moved_codes
from claimpack.core.facts.lines import HeldPart
from claimpack.errors import BadInput


@pytest.mark.parametrize(
    ("said", "code"),
    [
        ("26-0041/1", PartCode("26-0041", 1)),
        (" 26-0041/12\n", PartCode("26-0041", 12)),
        ("26-0041/012", PartCode("26-0041", 12)),
        ("26-0041/100", PartCode("26-0041", 100)),
    ],
)
def test_a_code_is_the_claim_and_the_place_of_the_part(said, code):
    assert part_code(said) == code


def test_a_number_alone_stands_for_the_only_part():
    assert part_code("26-0041") == PartCode("26-0041", 0)


def test_a_code_is_written_as_on_the_tag():
    assert (str(PartCode("26-0041", 2)), str(PartCode("26-0041"))) == ("26-0041/2", "26-0041")


@pytest.mark.parametrize(
    "said",
    [
        "",
        "26-0041/0",
        "26-0041/00",
        "26-0041/1000",
        "26-0041/0012",
        "26-0041/",
        "26 0041/1",
        "26-0041/1/2",
        "https://x/1",
        "26-0041/٣",
    ],
)
def test_what_is_no_code_is_refused(said):
    with pytest.raises(BadInput, match="no code of a held part"):
        part_code(said)


PISTON, CYLINDER, CRANKCASE = (HeldPart(part=name) for name in ("piston", "cylinder", "crankcase"))
COIL = HeldPart(part="coil", shelf="A1")
COIL_BESIDE = HeldPart(part="coil", shelf="A2")
THREE = (PISTON, CYLINDER, CRANKCASE)


@pytest.mark.parametrize("after", [(CYLINDER, CRANKCASE), (PISTON, CRANKCASE), (CYLINDER, COIL), (PISTON,), ()])
def test_only_the_last_held_part_is_taken_off(after):
    with pytest.raises(BadInput, match="only its last held part can"):
        refuse_moved_codes("26-0041", THREE, after)


@pytest.mark.parametrize("after", [(CYLINDER, PISTON, CRANKCASE), (COIL, *THREE)])
def test_held_parts_keep_their_order(after):
    with pytest.raises(BadInput, match="would get another code"):
        refuse_moved_codes("26-0041", THREE, after)


def test_the_first_part_that_would_get_another_code_is_named_with_its_own():
    with pytest.raises(BadInput, match="26-0041/2 cylinder would get another code"):
        refuse_moved_codes("26-0041", THREE, (PISTON, CRANKCASE, CYLINDER))


@pytest.mark.parametrize(
    ("before", "after"),
    [
        (THREE, (PISTON, CYLINDER)),
        (THREE, (*THREE, COIL)),
        ((PISTON,), ()),
        (THREE, (CYLINDER, CYLINDER, CRANKCASE)),
        ((COIL, COIL_BESIDE), (COIL,)),
        ((COIL, COIL_BESIDE), (COIL_BESIDE, COIL)),
    ],
    ids=["the last", "a new one", "the only one", "put right", "the last of two alike", "shelves put right"],
)
def test_what_moves_no_code_is_let_through(before, after):
    assert refuse_moved_codes("26-0041", before, after) is None


def test_of_two_parts_alike_the_first_is_not_taken_off():
    with pytest.raises(BadInput, match="26-0041/1 coil"):
        refuse_moved_codes("26-0041", (COIL, COIL_BESIDE), (COIL_BESIDE,))


def test_a_part_that_cannot_be_taken_off_is_let_go_by_its_code():
    with pytest.raises(BadInput) as refused:
        refuse_moved_codes("26-0041", THREE, (CYLINDER, CRANKCASE))
    assert "hold release 26-0041/1 --because TEXT, then: claimpack hold scrap 26-0041/1" in refused.value.do


def test_what_became_of_the_last_part_hinders_nothing_while_it_stays():
    assert refuse_moved_codes("26-0041", THREE, (*THREE[:2], CRANKCASE), {3: "scrapped"}) is None


def test_the_last_part_stays_once_something_became_of_it():
    with pytest.raises(BadInput, match="26-0041/3 crankcase is scrapped and cannot be taken off"):
        refuse_moved_codes("26-0041", THREE, THREE[:2], {3: "scrapped"})
