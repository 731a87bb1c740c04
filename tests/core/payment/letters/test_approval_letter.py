from __future__ import annotations

from datetime import date

import pytest
from builders import a_claim, a_plan, a_window

from claimpack.core.judging.assessment import assess
from claimpack.core.payment.letters.approval_letter import evidence_named, request
from claimpack.core.payment.letters.letter import Sender
from claimpack.core.values.days import days_in_a_letter

FINDING = {"what": "compression", "value": "42", "unit": "psi"}
PHOTOS = [{"file": "photos/a.jpg"}, {"file": "photos/b.jpg"}]
NO_PAPER = {"proof": {"kind": "receipt"}}


@pytest.mark.parametrize(
    ("changes", "pages", "said"),
    [
        ({"findings": [FINDING], "photos": PHOTOS}, 3, ("1 finding, 2 photos, receipt.pdf, on 3 pages",)),
        ({"photos": PHOTOS, **NO_PAPER}, 1, ("2 photos, on 1 page",)),
        ({"photos": PHOTOS}, 0, ()),
        (NO_PAPER, 2, ()),
    ],
    ids=["all", "photos alone", "no page", "nothing to show"],
)
def test_what_goes_along_is_counted_and_named(changes, pages, said):
    assert evidence_named(a_claim(**changes), pages) == said


@pytest.mark.parametrize(
    ("parts", "without"), [([], True), ([{"number": "70-1", "name": "Coil", "unit_cost": "5"}], False)]
)
def test_an_estimate_of_labour_alone_says_that_no_part_is_in_it(parts, without):
    claim = a_claim(parts=parts, labour=[{"operation": "block"}])
    found = assess(
        claim,
        [a_plan(pays={"labour_rate": "92.00"}, operation=[{"code": "block", "name": "Replace block", "hours": "1.6"}])],
        date(2026, 3, 2),
    )
    label, _ = request(found, "", Sender(name="Quarry Road"), (), ()).amounts[-1]
    assert ("no part" in label) == without


def test_the_maker_s_share_on_the_day_judged_stands_beside_the_verdict():
    shares = [{"until": "P6M", "maker": "1"}, {"until": "P12M", "maker": "0.50"}]
    found = assess(a_claim(), [a_plan(window=[a_window(shares=shares)])], date(2026, 3, 2))
    assert days_in_a_letter(str(found.share)) in request(found, "", Sender(name="Quarry Road"), (), ()).paragraphs[0]


def test_days_in_a_sentence_of_the_program_are_written_as_in_the_rest_of_the_letter():
    found = assess(a_claim(), [a_plan()], date(2026, 3, 2))
    said = request(found, "", Sender(name="Quarry Road"), (), ()).paragraphs[0]
    assert ("2026" in said, "2026-" in said) == (True, False)


def rows(**changes):
    plan = a_plan(
        pays={"labour_rate": "92.00", "parts_handling": "0.20"},
        operation=[{"code": "block", "name": "Replace block", "hours": "1.6"}],
    )
    return request(assess(a_claim(**changes), [plan], date(2026, 3, 2)), "", Sender(name="Quarry Road"), (), ()).rows


COIL = {"number": "70-1", "name": "Coil", "unit_cost": "5"}


@pytest.mark.parametrize(
    ("changes", "row"),
    [
        ({"parts": [COIL]}, ("70-1 Coil", "1, handling included", "6.00 USD")),
        ({"parts": [{**COIL, "source": "maker"}]}, ("70-1 Coil", "1, sent by you", "0.00 USD")),
        ({"labour": [{"operation": "block"}]}, ("Replace block", "1.6 h", "147.20 USD")),
        ({"extras": [{"what": "freight", "amount": "30.00"}]}, ("freight", "", "30.00 USD")),
    ],
    ids=["a part", "a part of the maker's", "labour", "an extra"],
)
def test_a_line_of_the_estimate_says_what_it_is_how_much_of_it_and_what_it_comes_to(changes, row):
    assert rows(**changes) == (row,)


def test_before_the_work_no_part_is_offered_as_held():
    assert "held part" not in asked().closing


def test_what_the_owner_pays_is_not_in_the_estimate():
    assert rows(parts=[{**COIL, "payer": "owner"}]) == ()


def asked(**changes):
    return request(assess(a_claim(**changes), [a_plan()], date(2026, 3, 2)), "", Sender(name="Quarry Road"), (), ())


@pytest.mark.parametrize(
    ("unit", "hours"),
    [({}, "100 h"), ({"unit__meter": False, "unit__hours": None}, "no hour meter"), ({"unit__hours": None}, None)],
    ids=["read", "no meter", "not read"],
)
def test_the_hours_of_the_unit_are_named_as_they_are_known(unit, hours):
    assert dict(asked(**unit).facts).get("Hours") == hours


@pytest.mark.parametrize(
    ("limits", "said"), [({}, "compression 42 psi."), ({"low": "90"}, "compression 42 psi (limits: ")]
)
def test_what_was_measured_is_told_beside_its_limits(limits, said):
    assert f"Measured so far: {said}" in asked(findings=[{**FINDING, **limits}]).paragraphs[-1]
