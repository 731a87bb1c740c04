from datetime import date

import pytest
from builders import a_claim
from new_events import ACCEPTED, FILED, LATER, OPENED, REFUSED, happened, part

from claimpack.core.events.fold import stand
from claimpack.core.judging.claim_summary import ClaimSummary
from claimpack.core.steps.listed import ListedClaim, ListedPart, Stood, at_hand, awaits_part, listed, stood

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


TWO_HELD = a_claim(held=[{"part": "short block"}, {"part": "coil"}])


@pytest.mark.parametrize(
    ("gone", "awaited"),
    [((), True), ((1,), True), ((2,), True), ((1, 2), False)],
    ids=["both here", "the second here", "the first here", "none"],
)
def test_a_maker_that_pays_for_parts_it_has_waits_for_one_that_is_still_here(gone, awaited):
    assert awaits_part(TWO_HELD, ClaimSummary(part_first=True), gone) is awaited


def test_a_maker_that_pays_without_the_part_waits_for_none():
    assert not awaits_part(TWO_HELD, ClaimSummary(), ())


MISSED = happened("shelf counted", LATER, part="1", found="no")


@pytest.mark.parametrize(
    ("events", "here"),
    [
        ((), (1, 2)),
        ((part("released"),), (2,)),
        ((part("called back", "2"),), (1, 2)),
        ((MISSED,), (2,)),
        ((MISSED, part("released")), (2,)),
    ],
    ids=["held", "let go", "called back", "missed", "missed and let go"],
)
def test_a_part_is_at_hand_until_it_is_let_go_or_a_count_misses_it(events, here):
    assert at_hand(TWO_HELD, stand([OPENED, *events])) == here


@pytest.mark.parametrize(
    ("case", "verdict", "events", "favour"),
    [
        ("goodwill", "not covered", (), True),
        ("goodwill", "covered", (), False),
        ("repair", "not covered", (), False),
        ("goodwill", "not covered", (FILED,), False),
    ],
    ids=["a favour", "covered after all", "not asked", "filed"],
)
def test_a_draft_that_is_not_covered_may_ask_for_a_favour(case, verdict, events, favour):
    found = listed(a_claim(case=case), 1, ClaimSummary(verdict=verdict), stood(stand([OPENED, *events])))
    assert found.asks_goodwill is favour


@pytest.mark.parametrize(
    ("approval", "events", "told"),
    [
        ({"state": "asked", "asked": "2026-02-10"}, (), ("asked", date(2026, 2, 10))),
        ({"state": "refused", "asked": "2026-02-10"}, (), ("refused", None)),
        ({"state": "given", "asked": "2026-02-10", "number": "A-1"}, (), ("", None)),
        ({"number": "A-1"}, (), ("", None)),
        ({"expires": "2026-03-10"}, (), ("", None)),
        (None, (), ("", None)),
        ({"state": "asked", "asked": "2026-02-10"}, (FILED,), ("", None)),
    ],
    ids=["asked", "refused", "given", "by its number", "nothing said", "none", "filed"],
)
def test_a_draft_says_whether_the_maker_was_asked_for_its_approval(approval, events, told):
    found = row(*events, approval=approval)
    assert (found.approval_state, found.approval_asked) == told


NO_REASON = happened("answered", answer="refused")


@pytest.mark.parametrize(
    ("events", "verdict", "without"),
    [
        ((FILED, NO_REASON), "covered", True),
        ((FILED, NO_REASON), "not covered", False),
        ((FILED, REFUSED), "covered", False),
        ((FILED, ACCEPTED), "covered", False),
    ],
    ids=["no reason", "a favour", "a reason", "accepted"],
)
def test_a_refusal_without_a_reason_is_listed_where_no_favour_was_asked(events, verdict, without):
    found = listed(a_claim(), 1, ClaimSummary(verdict=verdict), stood(stand([OPENED, *events])))
    assert found.gave_no_grounds is without


@pytest.mark.parametrize(
    ("alone", "events", "told"),
    [(True, (), True), (False, (), False), (True, (FILED,), False)],
    ids=["a draft", "the maker's too", "filed"],
)
def test_a_draft_may_be_owed_by_the_seller_alone(alone, events, told):
    found = listed(a_claim(), 1, ClaimSummary(seller_alone=alone), stood(stand([OPENED, *events])))
    assert found.seller_alone is told
