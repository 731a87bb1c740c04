from __future__ import annotations

import pytest
from made_forms import a_mapping

from claimpack.errors import BadInput
from claimpack.forms.mapping import pieces_of

PLACE = {"text": "{number}", "page": 1, "x": "1 in", "y": "1 in", "width": "2 in", "height": "6 mm"}


def refusal(**keys):
    with pytest.raises(BadInput) as caught:
        a_mapping(**keys)
    return "\n".join(caught.value.lines())


def test_a_text_is_pieces_with_keys_and_ways_to_write_a_day():
    assert pieces_of("on {dates.failed:DD.MM.YY} at {{1}}") == [
        ("on ", "dates.failed", "DD.MM.YY"),
        (" at {", "", ""),
        ("1}", "", ""),
    ]


@pytest.mark.parametrize("text", ["{", "}", "{}", "{number!r}", "{number:>9}", "{dates.failed:%d}"])
def test_a_text_with_anything_else_in_braces_is_refused(text):
    assert "fields.owner" in refusal(fields={"owner": text})


@pytest.mark.parametrize(
    ("entry", "says"),
    [
        ({}, "give text for a field, or check for a box to tick"),
        ({"text": "a", "check": "number"}, "give text for a field"),
        ({"text": "a", "is": "b"}, "is belongs to check"),
        ({"text": "a", "comb": 4}, "comb and lines are of a place"),
        ({"text": "a", "page": 1, "x": "1 in"}, "a place on a page needs y, width, height"),
    ],
)
def test_what_goes_into_a_field_must_make_sense(entry, says):
    assert says in refusal(fields={"owner": entry})


def test_rows_in_one_and_the_same_field_are_refused():
    assert "needs {row}" in refusal(rows=[{"of": "parts", "rows": 2, "fields": {"part": "{line.name}"}}])


def test_a_row_alone_needs_neither_a_number_in_its_names_nor_a_step():
    form = a_mapping(rows=[{"of": "parts", "rows": 1, "fields": {"part": "{line.name}", "place": PLACE}}])
    assert [(name, down) for name, _, row, down in form.every_entry() if row] == [("part", 0), ("place", 0)]


def test_rows_of_places_lie_apart():
    assert "need step" in refusal(rows=[{"of": "parts", "rows": 2, "fields": {"part {row}": PLACE}}])


@pytest.mark.parametrize("file", ["../form.pdf", "forms/form.pdf", "form.doc", "/etc/form.pdf"])
def test_the_pdf_lies_beside_the_mapping(file):
    assert "key file" in refusal(file=file)


def test_a_way_to_write_days_has_year_month_and_day_alone():
    assert "no way to write a day" in refusal(dates="%m/%d/%Y")
