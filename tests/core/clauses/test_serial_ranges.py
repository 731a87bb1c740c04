import pytest
from builders import a_plan

from claimpack.core.clauses.serial_ranges import ends_of, is_in_range, numbers_between


@pytest.mark.parametrize(
    ("serial", "inside"),
    [
        ("A-099", False),
        ("A-100", True),
        ("a 150", True),
        ("A199", True),
        ("A-200", False),
        ("B-150", False),
        ("A-", False),
        ("A-\u0661\u0665\u0660", False),
    ],
)
def test_a_range_holds_both_its_ends(serial, inside):
    assert is_in_range(serial, ["A-100 .. A-199"]) is inside


@pytest.mark.parametrize(("serial", "inside"), [("7-150X", True), ("7-150", False), ("7-150Y", False)])
def test_what_stands_behind_the_digits_must_be_equal(serial, inside):
    assert is_in_range(serial, ["7-100X .. 7-199X"]) is inside


@pytest.mark.parametrize(("serial", "inside"), [("A-099", False), ("A-100", True), ("A-101", False)])
def test_a_range_may_hold_one_number(serial, inside):
    assert is_in_range(serial, ["A-100 .. A-100"]) is inside


@pytest.mark.parametrize(
    ("other", "between"),
    [
        ("A-250 .. A-299", 50),
        ("A-201 .. A-299", 1),
        ("A-200 .. A-299", 0),
        ("A-199 .. A-299", -1),
        ("B-200 .. B-299", None),
        ("A-200X .. A-299X", None),
    ],
    ids=["a gap", "one number", "none", "one shared", "another series", "another ending"],
)
def test_the_numbers_between_two_ranges_are_counted_in_either_order(other, between):
    one = "A-100 .. A-199"
    assert (numbers_between(one, other), numbers_between(other, one)) == (between, between)


def test_the_ends_of_a_range_are_told_as_written():
    assert ends_of("A-100..A-199") == ("A-100", "A-199")


@pytest.mark.parametrize(
    ("written", "why"),
    [
        ("A-100", "is no range"),
        ("A-100 .. ", "is no range"),
        ("A-100 .. B-199", "differ in more"),
        ("A-200 .. A-199", "is before"),
        ("ABC .. ABD", "has no digits"),
    ],
)
def test_a_range_that_says_nothing_is_refused(written, why):
    with pytest.raises(ValueError, match=why):
        a_plan(serials=[written])
