from datetime import date
from typing import NamedTuple

import pytest

from claimpack.core.claims.part_codes import PartCode
from claimpack.core.shelf.shelf_count import claims_named, count, refuse_unknown_shelf, to_record
from claimpack.errors import BadInput

DAY = date(2026, 3, 1)


class Part(NamedTuple):
    code: PartCode
    part: str = "short block"
    shelf: str = "B3"
    state: str = "held"
    missing: date | None = None


BLOCK = Part(PartCode("26-0001", 1))
COIL = Part(PartCode("26-0002", 1), "ignition coil")
ELSEWHERE = Part(PartCode("26-0003", 1), shelf="A1")
SENT = Part(PartCode("26-0004", 1), state="sent")
KNOWN = [BLOCK, COIL, ELSEWHERE, SENT]


def counted(*said, parts=KNOWN, shelf="B3"):
    return count(shelf, said, parts)


def test_a_shelf_that_holds_what_the_book_says_is_equal():
    assert counted("26-0001/1", "26-0002/1").equal


@pytest.mark.parametrize(
    "said",
    [["26-0001/1"], ["26-0001/1", "26-0002/1", "26-0003/1"], ["26-0001/1", "26-0002/1", "26-0004/1"]],
    ids=["one is missing", "one lies on the wrong shelf", "one is too much"],
)
def test_a_shelf_with_one_thing_amiss_is_not_equal(said):
    assert not counted(*said).equal


def test_what_is_not_counted_is_missing():
    assert counted("26-0001/1").missing == (COIL,)


def test_a_part_of_another_shelf_is_on_the_wrong_one():
    assert counted("26-0001/1", "26-0002/1", "26-0003/1").misplaced == (ELSEWHERE,)


@pytest.mark.parametrize(
    ("said", "why"),
    [
        ("26-0004/1", "the book says it was sent"),
        ("26-0001/7", "the book knows no such part"),
        ("99-0001/1", "the book knows no such part"),
        ("4006381333931;", "it is no code of a held part"),
    ],
)
def test_what_should_not_be_in_the_shop_is_extra(said, why):
    extra = counted("26-0001/1", "26-0002/1", said).extra
    assert [(each.said, each.why) for each in extra] == [(said, why)]


def test_a_code_scanned_twice_counts_once():
    found = counted("26-0001/1", "26-0001/1", "26-0002/1")
    assert (found.equal, len(found.found)) == (True, 2)


def test_a_number_alone_counts_the_only_part():
    assert counted("26-0001", "26-0002").equal


def test_a_number_alone_does_not_count_one_of_several_parts():
    second = Part(PartCode("26-0001", 2))
    assert "several" in counted("26-0001", parts=[BLOCK, second]).extra[0].why


def test_the_case_of_letters_does_not_matter():
    part = Part(PartCode("W26-A", 1))
    assert counted("w26-a/1", parts=[part]).equal


def test_the_shelf_is_named_as_people_type_it():
    assert counted("26-0001/1", parts=[BLOCK._replace(shelf="Steel Box 1")], shelf="steel box 1").equal


def test_parts_that_left_the_shop_are_not_missing():
    assert counted(parts=[SENT]).equal


def test_claims_are_looked_up_in_either_case():
    assert claims_named(["w26-a/1", "nonsense!"]) == ("w26-a", "W26-A")


def test_a_missing_part_is_recorded_once():
    again = COIL._replace(missing=DAY)
    record = to_record(counted("26-0003/1", parts=[BLOCK, again, ELSEWHERE]), DAY)
    assert {claim: told[0].facts for claim, told in record.items()} == {
        "26-0001": {"part": "1", "shelf": "B3", "found": "no"}
    }


def test_a_part_found_again_is_recorded():
    record = to_record(counted("26-0001/1", parts=[BLOCK._replace(missing=DAY)]), DAY)
    assert record["26-0001"][0].facts["found"] == "yes"


@pytest.mark.parametrize("shelf", ["B3", "b3", "Shelf-9"])
def test_a_shelf_on_which_a_part_lies_or_lay_is_known(shelf):
    assert refuse_unknown_shelf(shelf, ["B3", "shelf 9"]) is None


@pytest.mark.parametrize(
    ("known", "why", "do"),
    [
        (["C2", "A1", "C2", ""], "It knows A1, C2.", "Did you mean 'C2'? "),
        ([], "No part was ever put on any.", "If parts lie on a new shelf: claimpack hold move CODE C22"),
        ([f"A{nth}" for nth in range(10, 40)], "A29 and 10 more.", "Did you mean 'A22'? "),
    ],
)
def test_a_shelf_that_is_not_known_is_refused_with_those_that_are(known, why, do):
    with pytest.raises(BadInput) as caught:
        refuse_unknown_shelf("C22", known)
    assert (caught.value.why.endswith(why), caught.value.do.startswith(do)) == (True, True)
