from decimal import Decimal

import pytest

from claimpack.errors import BadInput
from claimpack.lists.parts_lists import costs_in, listed_part, parts_list_of

LIST = (
    "Part number,Description,Dealer cost,List price,Core\n70-3301-00,Ignition coil,$38.15,$52.00,\n70-9,Starter,,,25\n"
)


@pytest.fixture
def parts(tmp_path):
    """Writes the parts list of Halden."""

    def write(text):
        (tmp_path / "parts").mkdir()
        (tmp_path / "parts" / "Halden.csv").write_text(text)
        return parts_list_of(tmp_path, ("halden", "Halden Tools"))

    return write


def test_a_part_is_found_by_its_number_with_or_without_hyphens(parts):
    found = listed_part(parts(LIST), "70330100", "USD")
    assert found[1:] == ("70-3301-00", "Ignition coil", Decimal("38.15"), Decimal("52.00"), None)


def test_a_part_that_is_not_listed_is_none(parts):
    assert listed_part(parts(LIST), "70-1", "USD") is None


def test_another_maker_has_no_list(tmp_path, parts):
    parts(LIST)
    assert parts_list_of(tmp_path, ("tessaly",)) is None


@pytest.mark.parametrize(
    ("text", "named"),
    [
        ("number,cost\n70-1,12 dollars\n", "parts/Halden.csv, row 2, column cost"),
        ("number,cost\n70-1,12\n70-1,13\n", "rows 2 and 3 are both of part 70-1"),
        ("number,cost\n70-1,-0.01\n", "row 2, column cost: -0.01 is below zero"),
        ("code,cost\n70-1,12\n", "no column is called number"),
    ],
)
def test_a_list_that_cannot_be_read_is_named_with_the_place(parts, text, named):
    with pytest.raises(BadInput, match=named):
        listed_part(parts(text), "70-1", "USD")


def test_a_bad_row_of_another_part_hinders_nothing_and_is_told(parts):
    told = []
    path = parts(LIST + "70-4,Coil, ignition,38,52,,,9\n")
    assert (listed_part(path, "70-9", "USD", told.append).name, len(told), "4" in told[0]) == ("Starter", 1, True)


def test_a_bad_row_of_the_part_itself_is_refused(parts):
    with pytest.raises(BadInput, match="row 4: it has more cells"):
        listed_part(parts(LIST + "70-4,Coil, ignition,38,52,,,9\n"), "70-4", "USD")


@pytest.mark.parametrize("bad", range(1, 7))
def test_bad_rows_are_told_with_their_places_the_first_five_of_many(parts, bad):
    told = []
    listed_part(parts(LIST + "70-4,Coil, ignition,38,52,,,9\n" * bad), "70-9", "USD", told.append)
    places = told[0].partition("row")[2].partition(":")[0].strip("s ")
    many = " …" if bad == 6 else ""
    assert places == ", ".join(str(place) for place in range(4, 4 + min(bad, 5))) + many
    assert ("rows" in told[0], "it has" in told[0]) == (bad > 1, bad == 1)


def test_a_part_that_costs_nothing_is_no_fault(parts):
    assert listed_part(parts("number,cost\n70-1,0.00\n"), "70-1", "USD").cost == 0


def test_what_parts_cost_leaves_out_what_has_no_cost_and_takes_the_dearer_of_two(parts):
    path = parts(LIST + "70330100,Coil,$40.00,,\n70-3301-00,Coil,1,,\n70-5,Coil, new,9,9,,,9\n70-6,Cap,0,,\n")
    assert costs_in(path, "USD") == {"70330100": Decimal("40.00"), "706": Decimal(0)}


def test_of_a_list_whose_rows_are_as_long_as_its_headings_nothing_is_told(parts):
    told = []
    listed_part(parts("number,name,cost\n70-1,Coil,9\n70-2,Cap,8\n"), "70-1", "USD", told.append)
    assert told == []
