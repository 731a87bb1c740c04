import tomllib
from datetime import date, datetime, timedelta, timezone
from decimal import Decimal

import pytest
from builders import a_claim
from claim_folders import CLAIM
from hypothesis import given, settings
from hypothesis import strategies as st

from claimpack.core.claims.claim import Claim
from claimpack.core.claims.editing.key_paths import key_path
from claimpack.core.claims.editing.key_values import placed, with_values
from claimpack.core.facts.cases import Approval
from claimpack.errors import BadInput
from claimpack.folder.claim_toml import claim_from_toml, claim_to_toml, with_changes

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


def test_a_list_of_one_stands_on_its_line():
    assert '\npapers = ["papers/receipt.pdf"]\n' in claim_to_toml(a_claim(papers=["papers/receipt.pdf"]))


COMMENTED = """\
# what the customer brought
format = 1
number = "26-0001"
maker = "halden"  # as on the plate
# [[parts]]
# name = ""

[unit]
model = "CS-70"
# use = "household"  # household | professional
hours = "100"  # read off the meter
serials = [{role = "unit", value = "HC70-118-20417"}]

[dates]
presented = 2026-02-05
failed = 2026-02-02  # said on the phone
# the end
"""


@pytest.mark.parametrize(
    ("key", "value", "told"),
    [
        ("unit.hours", "112", 'hours = "112"  # read off the meter'),
        ("unit.use", "rental", '\nuse = "rental" '),
        ("currency", "EUR", 'currency = "EUR"'),
        ("maker", "orrin", 'maker = "orrin"  # as on the plate'),
        ("dates.failed", "2026-02-01", "failed = 2026-02-01  # said on the phone"),
        ("parts[1].name", "Gasket", '[[parts]]\nname = "Gasket"'),
        ("papers[1]", "papers/receipt.pdf", '\npapers = ["papers/receipt.pdf"]\n'),
        ("papers[1].file", "papers/receipt.pdf", '"papers/receipt.pdf"'),
        ("unit.serials.engine", "E70-55102", '{role = "unit", value = "HC70-118-20417"}'),
        ("unit.serials[1].value", "HC70-118-20418", '{role = "unit", value = "HC70-118-20418"}'),
        ("failure.complaint", "Will not start.", '[failure]\ncomplaint = "Will not start."'),
    ],
)
def test_a_key_changed_in_a_claim_s_text_is_written_where_it_belongs_and_every_comment_stays(key, value, told):
    before = claim_from_toml(COMMENTED, "claim.toml")
    changes = placed(before, [(key_path(Claim, key), value)])
    after = with_values(before, changes, "claim.toml")
    written = with_changes(COMMENTED, after, changes)
    assert claim_from_toml(written, "claim.toml") == after != before
    assert told in written
    remarks = ["# what the customer brought", "# as on the plate", "# read off the meter", '# name = ""', "# the end"]
    assert [remark for remark in remarks if remark not in written] == []


@pytest.mark.parametrize("key", ["unit.hours", "dates.failed", "unit.serials[1]"])
def test_a_key_taken_out_of_a_claim_s_text_leaves_every_other_line_as_it_is(key):
    before = claim_from_toml(COMMENTED, "claim.toml")
    changes = placed(before, [(key_path(Claim, key), None)])
    written = with_changes(COMMENTED, with_values(before, changes, "claim.toml"), changes)
    lines = COMMENTED.splitlines()
    gone = [line for line in lines if line not in written.splitlines()]
    assert [line.partition(" ")[0] for line in gone] == [key.partition(".")[2].partition("[")[0]]
