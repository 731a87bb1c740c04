from __future__ import annotations

import pytest
from builders import TODAY, a_claim, a_plan
from made_forms import priced, said, sheets_of

from claimpack.core.judging.assessment import assess
from claimpack.errors import BadInput
from claimpack.forms.writings import left_empty, refuse_unpriced

ROWS = {"of": "parts", "rows": 2, "fields": {"part {row}": "{line.name}", "amount {row}": "{line.amount}"}}
LABOUR = [{"operation": "swap", "hours": "1.5"}, {"operation": "clean", "hours": "2"}]


def rows_of(sheet):
    return {each.field: each.text for each in sheet if each.column}


def named(sheet, name):
    return [each.text for each in sheet if each.field == name]


def test_what_nobody_said_takes_the_marks_around_it_along():
    assert said("{owner.name}, {owner.phone}, {owner.email}") == "A. Customer"


def test_a_line_of_facts_that_nobody_gave_is_left_out():
    assert said("{owner.name}\ntel. {owner.phone}\nclaim {number}") == "A. Customer\nclaim 26-0001"


def test_the_makers_words_stand_for_the_programs():
    assert said("{unit.use}", words={"Professional": "Commercial"}) == "Commercial"


def test_characters_may_be_left_out():
    assert said("{unit.serial}", without="-") == "HC701"


def test_what_a_person_wrote_is_never_read_as_keys():
    assert said("{owner.name}", priced(owner__name="{number}")) == "{number}"


@pytest.mark.parametrize(
    ("check", "ticked"),
    [
        ({"check": "owner.first_owner"}, True),
        ({"check": "owner.first_owner", "is": "no"}, False),
        ({"check": "unit.use", "is": ["rental", "Professional"]}, True),
        ({"check": "approval.number"}, False),
    ],
)
def test_a_box_is_ticked_where_its_key_says_so(check, ticked):
    assert sheets_of(fields={"box": check})[0][0].tick is ticked


@pytest.mark.parametrize(("parts", "sheets"), [(0, 1), (1, 1), (2, 1), (3, 2), (4, 2), (5, 3)])
def test_more_lines_than_rows_take_a_further_sheet(parts, sheets):
    assert len(sheets_of(priced(parts), rows=[ROWS])) == sheets


def test_a_further_sheet_goes_on_where_the_one_before_ends():
    first, second = sheets_of(priced(3), rows=[ROWS])
    assert rows_of(first) == {"part 1": "Part 1", "amount 1": "2.50", "part 2": "Part 2", "amount 2": "2.50"}
    assert rows_of(second) == {"part 1": "Part 3", "amount 1": "2.50"}


def test_totals_may_stand_on_the_last_sheet_alone():
    fields = {"total": {"text": "{amounts.claimed}", "on": "last"}, "sheet": "{sheet}/{sheets}"}
    found = sheets_of(priced(3), fields=fields, rows=[ROWS])
    assert [(named(sheet, "total"), named(sheet, "sheet")) for sheet in found] == [([], ["1/2"]), (["7.50"], ["2/2"])]


def test_lines_that_the_owner_pays_are_not_asked_of_the_maker():
    parts = [{"name": "Coil", "unit_cost": "9"}, {"name": "Filter", "unit_cost": "4", "payer": "owner"}]
    (sheet,) = sheets_of(assess(a_claim(parts=parts), [a_plan()], TODAY), rows=[ROWS])
    assert rows_of(sheet) == {"part 1": "Coil", "amount 1": "9.00"}


def test_hours_stand_under_each_other_with_as_many_decimals():
    rows = {"of": "labour", "rows": 3, "fields": {"h {row}": "{line.quantity}"}}
    (sheet,) = sheets_of(priced(labour=LABOUR), rows=[rows])
    assert rows_of(sheet) == {"h 1": "1.5", "h 2": "2.0"}


def test_rows_of_places_go_down_a_step_each():
    place = {"text": "{line.name}", "page": 1, "x": "10 pt", "y": "20 pt", "width": "50 pt", "height": "10 pt"}
    rows = {"of": "parts", "rows": 2, "step": "12 pt", "fields": {"p {row}": place}}
    (sheet,) = sheets_of(priced(2), fields={}, rows=[rows])
    assert [each.place.y for each in sheet] == [20, 32]


def test_fields_that_nobody_said_anything_for_are_told():
    assert left_empty(sheets_of(fields={"a": "{number}", "b": "{owner.phone}"})) == ("b",)


@pytest.mark.parametrize(
    "change", [{"dates__purchased": "2020-01-01", "dates__delivered": "2020-01-01"}, {"maker": "no"}]
)
def test_a_claim_that_asks_for_nothing_fills_no_form(change):
    with pytest.raises(BadInput, match="nothing is claimed"):
        refuse_unpriced(priced(**change))


def test_what_stands_on_the_first_or_the_last_sheet_alone_is_not_on_the_others():
    fields = {name: {"text": "{number}", "on": name} for name in ("first", "last", "every")}
    sheets = sheets_of(priced(6), rows=[ROWS], fields=fields)
    told = [{each.field for each in sheet if not each.column} for sheet in sheets]
    assert told == [{"first", "every"}, {"every"}, {"last", "every"}]


def test_a_writing_stands_where_and_as_large_as_its_entry_says():
    plain, told = (
        sheets_of(fields={"f": {"text": "{number}"} | more})[0][0] for more in ({}, {"align": "right", "size": "7 pt"})
    )
    assert (plain.align, plain.size, told.align, told.size) == ("", 0, "right", 7)


def test_hours_under_each_other_have_as_many_decimals_and_pieces_have_none():
    labour = {"of": ["labour", "parts"], "rows": 9, "fields": {"q {row}": "{line.quantity}"}}
    found = rows_of(sheets_of(priced(labour=LABOUR), rows=[labour])[0])
    assert sorted(found.values()) == ["1", "1.5", "2.0"]
