from datetime import date

import pytest
from builders import a_claim
from new_events import FILED, OPENED

from claimpack.core.events.fold import stand
from claimpack.core.judging.claim_summary import ClaimSummary
from claimpack.core.steps.listed import ListedClaim, ListedPart, Stood, listed, stood

LAST = date(2026, 3, 10)
SUMMARY = ClaimSummary(file_by=LAST, currency="USD", claimed="159.70", approval_wanted=True, maker_name="Halden Tools")
APPROVED = {"approval": {"expires": LAST}, "dates__repaired": None}


def row(*events, **changes):
    return listed(a_claim(**changes), 3, SUMMARY, stood(stand([OPENED, *events])))


def test_a_claim_in_a_list_goes_by_its_makers_name_and_its_own_number():
    assert (row().maker, row().serial, row().component) == ("Halden Tools", "HC70-1", "short block")


def test_what_a_draft_claims_is_what_it_would_claim_today():
    assert (str(row().claimed), row().currency, row().outstanding) == ("159.70", "USD", 0)


def test_what_a_list_knows_of_where_a_claim_stands_keeps_its_name():
    found = listed(a_claim(), 1, SUMMARY, Stood(*Stood._fields))
    shared = [name for name in ListedClaim._fields if name in Stood._fields]
    assert [getattr(found, name) for name in shared] == shared


@pytest.mark.parametrize(("events", "of_drafts"), [((), (LAST, LAST, True)), ((FILED,), (None, None, False))])
def test_days_to_file_and_to_repair_are_those_of_drafts(events, of_drafts):
    found = row(*events, **APPROVED)
    assert (found.file_by, found.approval_until, found.approval_wanted) == of_drafts


def test_a_repair_that_is_made_waits_under_no_approval():
    assert row(approval={"expires": LAST}).approval_until is None


def test_a_held_part_of_a_list_knows_the_code_on_its_tag():
    facts = dict.fromkeys(ListedPart._fields) | {"claim": "26-0001", "nth": 2}
    assert str(ListedPart(**facts).code) == "26-0001/2"
