import pytest
from builders import a_claim

from claimpack.core.events.part_state import HeldStanding
from claimpack.core.events.standing import Standing
from claimpack.core.facts.lines import HeldPart, Part
from claimpack.core.shelf.same_part import must_be_another, number_twice
from claimpack.errors import BadInput

PISTON = {"part": "piston", "number": "H70-22", "shelf": "B3"}


def refused(held, new, state="held", *, another=False):
    """The words of the refusal; empty where the part may be held."""
    standing = Standing(parts=(HeldStanding(index=1, state=state),))
    try:
        must_be_another(a_claim(held=[held]), standing, HeldPart(**new), another=another)
    except BadInput as error:
        return "\n".join(error.lines())
    return ""


@pytest.mark.parametrize(
    ("held", "new", "is_refused"),
    [
        ({"part": "piston"}, {"part": "Piston"}, True),
        ({"part": "piston"}, {"part": "ring"}, False),
        (PISTON, PISTON, True),
        (PISTON, {"part": "kolben", "number": "h70 22"}, True),
        (PISTON, {"part": "piston", "number": "H70-23"}, False),
        (PISTON, {"part": "piston"}, True),
        (PISTON, {"part": "piston", "serial": "S1"}, True),
        ({**PISTON, "serial": "S1"}, {**PISTON, "serial": "s1"}, True),
        ({**PISTON, "serial": "S1"}, {**PISTON, "serial": "S2"}, False),
        ({"part": "block", "serial": "S1"}, {"part": "engine", "serial": "S1"}, True),
        ({"part": "piston", "serial": "S1"}, {"part": "piston"}, True),
    ],
)
def test_parts_are_told_apart_by_serial_then_number_then_name(held, new, is_refused):
    assert bool(refused(held, new)) is is_refused


def test_the_refusal_names_the_part_and_both_ways_on():
    said = refused(PISTON, PISTON)
    assert "26-0001/1 piston (number H70-22, shelf B3) is already held" in said
    assert "--another" in said
    assert "claimpack hold move 26-0001/1 SHELF" in said


def test_a_further_part_like_it_may_be_held():
    assert refused(PISTON, PISTON, another=True) == ""


def test_two_parts_cannot_have_one_serial_number():
    part = {**PISTON, "serial": "S1"}
    assert "has the serial number S1" in refused(part, part, another=True)


def test_of_two_parts_like_it_the_one_with_its_serial_number_is_named():
    claim = a_claim(held=[PISTON, {**PISTON, "serial": "S1"}])
    standing = Standing(parts=tuple(HeldStanding(index=nth) for nth in (1, 2)))
    with pytest.raises(BadInput, match=r"26-0001/2 piston .* has the serial number S1"):
        must_be_another(claim, standing, HeldPart(**PISTON, serial="S1"), another=False)


@pytest.mark.parametrize(("state", "is_refused"), [("sent", False), ("scrapped", False), ("released", True)])
def test_a_part_that_left_the_shop_does_not_count(state, is_refused):
    assert bool(refused(PISTON, PISTON, state)) is is_refused


def test_a_part_whose_serial_number_is_read_later_is_given_it():
    said = refused(PISTON, {**PISTON, "serial": "S 1"})
    assert "claimpack set 26-0001 held[1].serial 'S 1'" in said


def told(*numbers):
    return number_twice("26-0001", [Part(number=number, name="Gasket") for number in numbers])


def test_a_number_that_stands_there_already_is_told_with_the_way_back():
    said = "h-1 is already on the claim, as part 1; it was added as part 3."
    assert told("H-1", "H-2", "h-1") == [f"{said} If it is the same one: claimpack part remove 26-0001 3"]


@pytest.mark.parametrize("numbers", [("H-1",), ("H-1", "H-2"), ("H-1", "H-1", "H-2"), ("", "")])
def test_another_number_or_none_says_nothing(numbers):
    assert told(*numbers) == []
