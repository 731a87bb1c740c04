import pytest
from builders import a_claim, a_plan

from claimpack.core.reading.compared import (
    PURCHASED,
    Compared,
    forms_of,
    of_receipt,
    says_the_same,
    shows_a_meter,
    shows_a_plate,
    typed_under,
    with_read,
)
from claimpack.core.reading.read_text import Proposal, Spot, TextRead
from claimpack.core.reading.receipts import ReceiptRead

PLATE = Proposal("unit.serials.unit", "HC70-118-20417", "letters", Spot(0.25, 0.5, 0.5, 0.0))


def claim_with(*read):
    return a_claim(photos=[{"file": "photos/plate.jpg", "read": list(read)}])


def reads(claim, *proposals, **said):
    found = [Compared(each, "") for each in proposals]
    return with_read(claim, "photos/plate.jpg", found, said).photos[0].read


def test_what_was_read_is_kept_with_its_place():
    (read,) = reads(claim_with(), PLATE)
    assert (read.text, float(read.area.x), read.area.height > 0) == ("HC70-118-20417", 0.25, True)


def test_what_is_not_read_this_time_stays():
    before = {"key": "unit.serials.unit", "text": "HC70-118-20471", "by": "letters"}
    assert [read.text for read in reads(claim_with(before))] == ["HC70-118-20471"]


def test_what_is_read_otherwise_takes_its_place_and_nobody_has_looked_at_it():
    before = {"key": "unit.serials.unit", "text": "HC70-118-20471", "by": "letters", "confirmed": "X"}
    assert [(read.text, read.confirmed) for read in reads(claim_with(before), PLATE)] == [("HC70-118-20417", "")]


def test_what_somebody_said_of_the_same_reading_stays():
    before = {"key": "unit.serials.unit", "text": "HC70-118-20417", "by": "letters", "confirmed": "HC70-118-2O417"}
    assert [read.confirmed for read in reads(claim_with(before), PLATE)] == ["HC70-118-2O417"]


def test_the_model_is_proposed_and_not_kept():
    assert reads(claim_with(), PLATE._replace(key="unit.model")) == ()


def test_shots_of_plates_and_meters_are_to_be_read():
    assert [shows_a_plate(shot) for shot in ("serial plate", "hour meter", "whole unit", "")] == [
        True,
        True,
        False,
        False,
    ]


@pytest.mark.parametrize(("shot", "is_meter"), [("hour meter", True), ("hours", True), ("serial plate", False)])
def test_hours_are_looked_for_on_a_shot_of_a_meter(shot, is_meter):
    assert shows_a_meter(shot) is is_meter


PROOF = {"kind": "receipt", "file": "papers/receipt.pdf"}
SHOWN = {"file": "photos/plate.jpg"}


def files_with_a_reading(claim, file):
    """The files of a claim that a reading is kept with, once one of them was read."""
    after = with_read(claim, file, [Compared(PLATE, "")], {})
    return [each.file for each in (after.proof, *after.photos) if each.read]


@pytest.mark.parametrize("file", ["papers/receipt.pdf", "photos/plate.jpg"])
def test_what_was_read_is_kept_with_the_file_it_was_read_off(file):
    claim = a_claim(proof=PROOF, photos=[SHOWN, {"file": "photos/whole.jpg"}])
    assert files_with_a_reading(claim, file) == [file]


def test_what_was_read_off_a_photo_that_is_the_proof_as_well_is_kept_with_the_photo():
    after = with_read(a_claim(proof=PROOF | SHOWN, photos=[SHOWN]), SHOWN["file"], [Compared(PLATE, "")], {})
    assert (after.proof.read, len(after.photos[0].read)) == ((), 1)


def test_a_photo_off_which_nothing_was_read_says_nothing_of_it():
    after = with_read(a_claim(photos=[SHOWN]), SHOWN["file"], [], {})
    assert "read" not in after.photos[0].model_fields_set


def test_a_file_that_is_no_longer_on_the_claim_keeps_nothing():
    assert files_with_a_reading(a_claim(proof=PROOF, photos=[SHOWN]), "photos/gone.jpg") == []


@pytest.mark.parametrize(
    ("key", "typed", "read", "same"),
    [
        ("unit.serials.unit", "HC70 118", "hc70-118", True),
        ("unit.serials.unit", "HC70-118", "HC70-119", False),
        ("unit.model", "CS 70", "cs-70", True),
        ("unit.model", "CS-70", "CS-80", False),
        ("unit.hours", "412.60", "412.6", True),
        ("unit.hours", "412.5", "412.6", False),
        ("unit.built", "2024-05-17", "2024-05-17", True),
        ("unit.built", "2024-05-17", "20240517", False),
    ],
)
def test_a_number_and_a_model_are_the_same_in_their_marks_hours_in_their_number_a_day_as_it_stands(
    key, typed, read, same
):
    assert says_the_same(key, typed, read) is same


@pytest.mark.parametrize(
    ("key", "said"),
    [
        (PURCHASED, "2025-03-14"),
        ("unit.model", "CS-70"),
        ("unit.built", "2024-05-17"),
        ("unit.hours", "100"),
        ("unit.serials.engine", "E70-1"),
        ("unit.serials.pump", ""),
    ],
)
def test_what_a_claim_says_under_a_key_that_is_read(key, said):
    assert typed_under(a_claim(unit__built="2024-05-17"), key) == said


@pytest.mark.parametrize("key", [PURCHASED, "unit.built", "unit.hours"])
def test_what_a_claim_does_not_say_is_empty(key):
    assert typed_under(a_claim(dates__purchased=None, dates__delivered=None, unit__hours=None), key) == ""


@pytest.mark.parametrize(
    ("key", "read", "places"),
    [
        ("unit.serials.unit", "HC70-118-20411", [14]),
        ("unit.serials.unit", "E70-55102", []),
        ("unit.model", "HC70-118-20411", []),
    ],
    ids=["near", "another number", "no serial number"],
)
def test_only_a_serial_number_near_the_typed_one_differs_in_its_marks(key, read, places):
    differing = Compared(PLATE._replace(key=key, text=read), PLATE.text).differing
    assert [each.place for each in differing] == places


@pytest.mark.parametrize(
    ("read", "form", "is_open"),
    [
        ("HC70-118-20471", "", True),
        ("TYPE ABC 24", "", False),
        ("TYPE ABC 24", "HC[0-9-]*", False),
        ("HC99-900-99999", "HC[0-9-]*", True),
    ],
    ids=["near", "unlike", "unlike and not of the form", "of the form"],
)
def test_what_differs_is_open_where_it_may_be_the_number_that_is_meant(read, form, is_open):
    assert Compared(PLATE._replace(text=read), "HC70-118-20417", form).is_open is is_open


FORMED = a_plan(requires__serial_patterns={"unit": "HC70-[0-9]{3}-[0-9]{5}"})
FIGURES = a_plan(requires__serial_patterns={"unit": "[0-9]{8}"})


def on_a_receipt(typed, plan, *told):
    claim = a_claim(unit__serials=[{"role": "unit", "value": typed}])
    lines = [TextRead(line, "text") for line in ("Pell Hardware", *told)]
    found = of_receipt(ReceiptRead(None, "", None), claim, lines, [plan])
    return [(each.proposal.text, each.is_open) for each in found]


@pytest.mark.parametrize(
    ("printed", "is_open"), [("HC70-118-20417", False), ("HC70-118-20471", True), ("HC70-555-99999", True)]
)
def test_the_serial_on_a_receipt_is_compared_by_the_plans_form(printed, is_open):
    found = on_a_receipt("HC70-118-20417", FORMED, f"Serial: unit {printed}, engine E70-55102")
    assert found == [(printed, is_open)]


def test_of_several_units_on_a_receipt_the_typed_one_is_meant():
    found = on_a_receipt("HC70-118-20417", FORMED, "HC70-118-20416", "HC70-118-20417", "HC70-118-20418")
    assert found == [("HC70-118-20417", False)]


@pytest.mark.parametrize(("printed", "found"), [("55501234", []), ("20417119", [("20417119", True)])])
def test_figures_alone_are_compared_only_where_they_are_near(printed, found):
    assert on_a_receipt("20417118", FIGURES, f"No. {printed}") == found


def test_without_a_plan_no_form_is_known():
    assert forms_of([]) == {}
