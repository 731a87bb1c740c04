from __future__ import annotations

from datetime import date
from decimal import Decimal

import pytest
from reported_claims import paid, refused, told, waiting

from claimpack.reports.charts.picture import Box
from claimpack.reports.manager.trouble import refusals_section, repeats_section


def refusals(*answers, **changes):
    claims = tuple(waiting(number, **changes) for number in dict.fromkeys(event.claim for event in answers))
    return refusals_section(told(claims=claims, answers=answers))


def repeats(*claims):
    return repeats_section(told(claims=claims))


def on_units(*units, **changes):
    return tuple(paid(f"{index}", unit=unit, **changes) for index, unit in enumerate(units))


def test_no_refusal_is_a_sentence():
    found = refusals()
    assert (found.charts, found.tables, found.notes) == ((), (), ())


@pytest.mark.parametrize(
    ("forms", "title"),
    [
        (("yes",), "1 refusal for form, which can be put right; none for substance"),
        (("yes", "yes", ""), "2 refusals for form, which can be put right; 1 for substance"),
        (("", ""), "2 refusals for substance, none for form"),
    ],
)
def test_the_picture_tells_form_from_substance(forms, title):
    answers = [refused(f"{index}", form=form) for index, form in enumerate(forms)]
    assert refusals(*answers).charts[0].title == title


@pytest.mark.parametrize(("reasons", "shown"), [(8, "all of them"), (9, "the first 8 of 9")])
def test_the_ninth_reason_is_in_the_table_alone(reasons, shown):
    found = refusals(*(refused(f"{index}", f"Reason {index}") for index in range(reasons)))
    assert f"Refusals by reason, {shown}." in found.charts[0].description
    assert len(found.tables[0].rows) == reasons


def test_reasons_given_as_often_stand_in_the_order_of_the_alphabet():
    found = refusals(refused("1", "worn out"), refused("2", "No plate"))
    assert [row[0] for row in found.tables[0].rows] == ["No plate", "worn out"]


def test_a_claim_refused_twice_for_one_reason_counts_once_in_money():
    row = refusals(refused("1"), refused("1", "no plate.")).tables[0].rows[0]
    assert row[2:] == (2, 0, 2, 1, "100.00 USD")


def test_a_refusal_without_a_reason_says_so():
    assert refusals(refused(why=" \n")).tables[0].rows[0][0] == "no reason noted"


def test_a_reason_is_not_read_as_markup():
    assert refusals(refused(why="<b>wear</b> & tear")).tables[0].rows[0][0] == "<b>wear</b> & tear"


def test_amounts_in_two_currencies_are_told_side_by_side():
    answers = (refused("1"), refused("2"))
    claims = (waiting("1"), waiting("2", currency="JPY", claimed=Decimal(1204)))
    found = refusals_section(told(claims=claims, answers=answers))
    assert found.tables[0].rows[0][-1] == "1,204 JPY and 100.00 USD"


def test_one_unit_of_a_model_is_no_failure_of_the_model():
    found = repeats(*on_units("HC70-1"))
    assert (found.charts, found.tables, found.notes) == ((), (), ())


def test_two_units_of_a_model_are():
    found = repeats(*on_units("HC70-1", "HC70-2"))
    assert found.charts[0].title == "Most often: the short block of Halden CS-70, on 2 units"
    assert [table.name for table in found.tables] == ["repeats-by-model"]


def test_failures_on_equally_many_units_all_come_most_often():
    claims = [paid(f"{n}", unit=f"{n}", component=("coil", "piston")[n % 2]) for n in range(4)]
    assert repeats(*claims).charts[0].title == (
        "Most often: the coil of Halden CS-70 and the piston of Halden CS-70, on 2 units each"
    )


def test_a_unit_that_came_back_is_told_without_a_picture_of_models():
    claims = (paid("1", presented=date(2025, 12, 31)), paid("2", presented=date(2026, 1, 31)))
    found = repeats(*claims)
    assert (found.charts, found.tables[0].rows[0][-2:]) == ((), (date(2026, 1, 31), 31))


def test_a_unit_that_came_back_counts_once_among_the_units_and_once_again():
    claims = on_units("HC70-1", "hc70 1", "HC70-2")
    row = repeats(*claims).tables[0].rows[0]
    assert row[5:] == (2, 3, 1)


def test_bars_of_as_many_units_are_as_long_whether_or_not_some_failed_again():
    once = on_units("HC70-1", "HC70-2", component="coil")
    again = on_units("HC70-1", "HC70-1", "HC70-2", component="piston")
    shapes = repeats(*once, *again).charts[0].draw(500).shapes
    boxes = [shape for shape in shapes if isinstance(shape, Box)]
    # what the fills stand for is told above the bars
    boxes = [box for box in boxes if box.top > boxes[0].top]
    lengths = {top: round(sum(box.width for box in boxes if box.top == top), 3) for top in {box.top for box in boxes}}
    assert (len(lengths), len(boxes), len(set(lengths.values()))) == (2, 3, 1)


def test_units_without_a_serial_number_are_different_units():
    assert [table.name for table in repeats(*on_units("", "")).tables] == ["repeats-by-model"]
