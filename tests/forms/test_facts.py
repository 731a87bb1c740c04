from __future__ import annotations

import pytest
from builders import TODAY, a_claim, a_plan
from made_forms import priced, said, sheets_of

from claimpack.core.judging.assessment import assess
from claimpack.errors import BadInput
from claimpack.forms.facts import must_be_a_key


@pytest.mark.parametrize(
    ("text", "comes_to"),
    [
        ("{number}", "26-0001"),
        ("{unit.serials.engine}", "E70-1"),
        ("{unit.serial}", "HC70-1"),
        ("{unit.serials.gearbox}", ""),
        ("{unit.hours_run}", "100"),
        ("{owner.first_owner}", "yes"),
        ("{dates.failed}", "2026-02-02"),
        ("{dates.failed:MM/DD/YY}", "02/02/26"),
        ("{approval.number}", ""),
        ("{findings[1].value}", ""),
        ("{maker_name}", "halden"),
        ("{verdict}", "covered"),
        ("{ends:DD.MM.YYYY}", "14.03.2026"),
        ("{amounts.claimed}", "2.50"),
        ("{shop.dealer_number}", "QR-1184"),
    ],
)
def test_a_key_says_what_claim_assessment_and_shop_say(text, comes_to):
    assert said(text) == comes_to


def test_parts_come_with_the_handling_that_is_paid_on_them():
    parts = [{"name": "Coil", "unit_cost": "80.00"}]
    paid = assess(a_claim(parts=parts), [a_plan(pays__parts_handling="0.10")], TODAY)
    assert (said("{amounts.parts}", paid), said("{amounts.parts_and_handling}", paid)) == ("80.00", "88.00")


def test_a_line_is_of_the_kind_that_the_plan_calls_it_by_where_it_has_a_word_for_it():
    extras = [{"what": "Carrier", "kind": "freight", "amount": "9.00"}, {"what": "Rags", "amount": "1.00"}]
    rows = {"of": "extras", "payers": ["maker", "shop"], "rows": 2, "fields": {"{row}": "{line.kind}"}}
    (sheet,) = sheets_of(priced(extras=extras), fields={}, rows=[rows])
    assert [each.text for each in sheet] == ["freight", "extra"]


def test_without_a_price_amounts_say_nothing():
    assert said("{amounts.claimed}", priced(maker="nobody")) == ""


def test_a_technician_that_nobody_knows_is_not_named():
    by_nobody = priced(labour=[{"operation": "clean", "hours": "1", "technician": "somebody"}])
    assert said("{labour[1].technician}", by_nobody) == ""


@pytest.mark.parametrize(
    ("key", "near"), [("dates.faild", "dates.failed"), ("shop.nmae", "shop.name"), ("amounts.claim", "amounts.claimed")]
)
def test_a_key_that_is_not_there_suggests_the_nearest(key, near):
    with pytest.raises(BadInput) as caught:
        must_be_a_key(key, in_row=False)
    assert near in caught.value.do


def test_keys_of_a_line_are_for_rows():
    must_be_a_key("line.amount", in_row=True)
    with pytest.raises(BadInput, match="is of a line"):
        must_be_a_key("line.amount", in_row=False)


@pytest.mark.parametrize("key", ["owner", "unit.serials", "parts[1]"])
def test_a_table_is_no_value(key):
    with pytest.raises(BadInput):
        must_be_a_key(key, in_row=False)
