import tomllib
from datetime import date, datetime, timedelta, timezone
from decimal import Decimal

import pytest
from builders import a_claim
from claim_folders import CLAIM
from hypothesis import given, settings
from hypothesis import strategies as st

from claimpack.core.claims.claim import Claim
from claimpack.core.facts.cases import Approval
from claimpack.errors import BadInput
from claimpack.folder.claim_toml import claim_from_toml, claim_to_toml

FULL = {
    "findings": [{"what": "compression", "value": "42", "unit": "psi", "low": "110"}],
    "parts": [{"name": "Short block", "number": "70-1", "unit_cost": "96.2000"}, {"name": "Gasket", "payer": "owner"}],
    "labour": [{"operation": "x", "started": "2026-02-24T09:10:00-05:00", "ended": "2026-02-24T10:10:30.5-05:00"}],
    "photos": [{"file": "photos/a.jpg", "marks": [{"shape": "ring", "x": "0.42", "y": "0.6", "note": "crack"}]}],
    "papers": ["papers/receipt.pdf", "papers/letter.pdf"],
    "held": [{"part": "short block", "shelf": "B3", "boxed": True, "drained": False, "since": "2026-02-24"}],
    "earlier": [{"component": "short block", "repaired": "2025-09-01", "claim": "25-0310"}],
    "failure__part": {"name": "Short block", "serial": "SB-1"},
}
TEXTS = st.text(st.characters(exclude_categories=("Cc", "Cs")) | st.sampled_from('\n\t"\\'), max_size=40)


def written(**changes):
    """The claim as another reader reads its text."""
    return tomllib.loads(claim_to_toml(a_claim(**changes)))


def test_a_claim_of_every_kind_of_key_comes_back_the_same():
    claim = a_claim(**FULL)
    assert claim_from_toml(claim_to_toml(claim), "x") == claim


def test_a_claim_with_nothing_but_its_needed_keys_comes_back_the_same():
    claim = Claim.model_validate(
        {"number": "1", "maker": "m", "unit": {"model": "x", "serials": []}, "dates": {"presented": "2026-01-02"}}
    )
    assert claim_from_toml(claim_to_toml(claim), "x") == claim


def test_an_approval_without_any_key_stays_an_approval():
    claim = a_claim().model_copy(update={"approval": Approval()})
    assert claim_from_toml(claim_to_toml(claim), "x").approval == Approval()


@settings(max_examples=60, deadline=None)
@given(TEXTS, TEXTS)
def test_every_text_comes_back_the_same(complaint, address):
    claim = a_claim(failure__complaint=complaint, owner__address=address, failure__part={"name": address})
    assert claim_from_toml(claim_to_toml(claim), "x") == claim


def test_a_claim_folders_text_comes_back_the_same():
    claim = claim_from_toml(CLAIM, "x")
    assert claim_from_toml(claim_to_toml(claim), "x") == claim


def test_writing_twice_gives_the_same_text():
    text = claim_to_toml(a_claim(**FULL))
    assert claim_to_toml(claim_from_toml(text, "x")) == text


def test_a_key_that_python_has_for_itself_comes_back_the_same():
    claim = a_claim(labour=[{"operation": "hone", "class": "engine"}])
    assert 'class = "engine"' in claim_to_toml(claim)
    assert claim_from_toml(claim_to_toml(claim), "claim.toml") == claim


def test_money_and_hours_are_texts_with_every_decimal():
    keys = written(**FULL)
    assert (keys["parts"][0]["unit_cost"], keys["unit"]["hours"]) == ("96.2000", "100")


def test_dates_are_dates():
    assert written()["dates"]["presented"] == date(2026, 2, 5)


def test_a_time_keeps_its_offset():
    started = written(**FULL)["labour"][0]["started"]
    assert started == datetime(2026, 2, 24, 9, 10, tzinfo=timezone(timedelta(hours=-5)))


def test_keys_that_say_nothing_are_left_out():
    keys = written(parts=[{"name": "Gasket", "quantity": 1, "payer": "maker"}])
    assert (keys["parts"], "approval" in keys, "papers" in keys) == ([{"name": "Gasket"}], False, False)


def test_tables_stand_in_the_order_of_the_record():
    assert [*written(**FULL)] == [
        *("format", "number", "maker", "papers", "unit", "owner", "dates", "proof", "failure"),
        *("findings", "parts", "labour", "photos", "held", "earlier"),
    ]


def test_several_lines_are_written_as_several_lines():
    assert 'complaint = """\nWill not start.\nSmokes."""' in claim_to_toml(
        a_claim(failure__complaint="Will not start.\nSmokes.")
    )


def test_each_serial_has_a_line_of_its_own():
    assert '\n    {role = "engine", value = "E70-1"}' in claim_to_toml(a_claim())


def test_a_key_that_is_wrong_is_named():
    with pytest.raises(BadInput, match=r"dates\.presented"):
        claim_from_toml(CLAIM.replace("2026-02-05", '"soon"'), "26-0001")


def test_numbers_written_with_a_point_are_read_exactly():
    assert claim_from_toml(CLAIM.replace('hours = "1.6"', "hours = 1.60"), "x").labour[0].hours == Decimal("1.60")
