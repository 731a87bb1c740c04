"""What a field or a place takes, and what it does not."""

from __future__ import annotations

from dataclasses import replace

import pytest
from made_forms import a_form, changed, filled, one_field, pixels, refusal, values, without_fields

from claimpack.forms.filling import filled_here
from claimpack.forms.writings import PageArea, Writing

PLACE = PageArea(1, 20, 20, 100, 20)


@pytest.mark.parametrize(
    "written",
    [
        Writing("owner", "8080"),
        Writing("at", "Ann", place=PLACE),
        Writing("new", tick=True, place=PLACE),
        Writing("at", "8080", place=replace(PLACE, comb=4)),
    ],
    ids=["boxes", "a place", "a tick", "boxes of a place"],
)
def test_of_what_has_room_nothing_is_told(written):
    assert filled_here(one_field(maxlen=8, fieldFlags="comb"), "form.pdf", ((written,),)).notes == ()


def test_one_of_several_buttons_is_set():
    def draw(form):
        form.radio(name="use", value="Rental", x=40, y=100, size=20)
        form.radio(name="use", value="Own", x=140, y=100, size=20)

    made, other = (filled(a_form(draw), Writing("use", use)) for use in ("own", "rental"))
    assert values(made)["use"] == "/Own"
    assert pixels(made)[:, 280:320].sum() > pixels(other)[:, 280:320].sum()


def test_a_list_takes_what_it_offers_by_value_or_by_what_it_shows():
    def draw(form):
        form.choice(name="state", options=[("Good", "g"), ("Bad", "b")], value="g", x=50, y=100, width=80, height=20)

    assert [values(filled(a_form(draw), Writing("state", text))) for text in ("bad", "B")] == [{"state": "b"}] * 2


@pytest.mark.parametrize(
    ("written", "says"),
    [
        (Writing("use", "Loan"), "field 'use' cannot be set to 'Loan'. Known: Own, Rental."),
        (Writing("use", tick=True), "field 'use' is a choice of Rental, Own"),
        (Writing("state", "Fair"), "field 'state' does not offer 'Fair'."),
    ],
)
def test_a_choice_that_is_not_offered_is_refused(written, says):
    def draw(form):
        form.radio(name="use", value="Rental", x=40, y=100)
        form.radio(name="use", value="Own", x=140, y=100)
        form.choice(name="state", options=["Good", "Bad"], value="Good", x=50, y=40, width=80, height=20)

    assert says in refusal(a_form(draw), written)


@pytest.mark.parametrize("place", [(200, 150, 100, 50.5), (200.5, 150, 100, 50)])
def test_a_place_may_reach_to_the_edges_of_its_page_and_no_further(place):
    assert filled(without_fields(), Writing("a", "x", place=PageArea(1, 200, 150, 100, 50)))
    assert "reaches over the edge of page 1" in refusal(without_fields(), Writing("a", "x", place=PageArea(1, *place)))


def test_boxes_of_a_place_and_lines_of_a_field_take_as_many_characters_as_they_have():
    boxes = PageArea(1, 20, 20, 100, 20, comb=4)
    assert filled(without_fields(), Writing("a", "8080", place=boxes))
    assert "it has 4 boxes" in refusal(without_fields(), Writing("a", "80801", place=boxes))
    form = one_field(maxlen=13, fieldFlags="multiline")
    assert values(filled(form, Writing("owner", "Piston seized"))) == {"owner": "Piston seized"}


def test_a_list_whose_field_tells_nothing_more_takes_only_what_it_offers():
    def draw(form):
        form.listbox(name="state", options=["good", "bad"], value="good", x=50, y=100, width=80, height=40)

    def act(pdf):
        if "/Ff" in (field := pdf.Root.AcroForm.Fields[0]):
            del field.Ff

    form = changed(a_form(draw), act)
    assert values(filled(form, Writing("state", "bad"))) == {"state": "bad"}
    assert "does not offer 'worn'" in refusal(form, Writing("state", "worn"))
