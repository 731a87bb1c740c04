from datetime import date

import pytest
from builders import a_claim, a_plan

from claimpack.core.windows.start_of_cover import start_of_cover

NO_PROOF = {"from": "built", "after": "P6M"}


@pytest.mark.parametrize(
    ("roles", "starts"),
    [
        (["delivered", "purchased"], date(2025, 3, 16)),
        (["purchased", "delivered"], date(2025, 3, 14)),
        (["in_service", "purchased"], date(2025, 3, 14)),
    ],
)
def test_cover_starts_on_the_first_date_the_claim_has(roles, starts):
    assert start_of_cover(a_claim(dates__delivered="2025-03-16"), a_plan(start=roles)).on == starts


def test_without_any_of_the_dates_the_first_is_asked_for():
    reason = start_of_cover(a_claim(), a_plan(start=["in_service"])).reason
    assert (reason.outcome, reason.asks) == ("unknown", "dates.in_service")


def without_proof(after="P6M", **changes):
    """The start of a claim that says there is no proof of purchase."""
    keys = {"from": "built", "after": after} if after else {"from": "built"}
    plan = a_plan(start_without_proof=keys)
    return start_of_cover(a_claim(proof={"kind": "none"}, **changes), plan)


def test_without_proof_cover_starts_some_time_after_the_unit_was_built():
    assert without_proof(unit__built="2025-01-20").on == date(2025, 7, 20)


def test_without_proof_cover_may_start_on_the_day_the_unit_was_built():
    assert without_proof(after=None, unit__built="2025-01-20").on == date(2025, 1, 20)


@pytest.mark.parametrize(
    ("built", "starts"),
    [("2025-08-01", "2026-02-01"), ("2025-08-02", "2026-02-02"), ("2025-08-03", "2026-02-02")],
    ids=["before it failed", "on the day", "it would be after"],
)
def test_a_unit_that_failed_had_been_sold(built, starts):
    changes = {"dates__purchased": None, "dates__delivered": None}
    assert without_proof(unit__built=built, **changes).on == date.fromisoformat(starts)


@pytest.mark.parametrize(
    ("seen", "starts"),
    [
        ({"dates__in_service": "2026-01-20"}, "2026-01-20"),
        ({"earlier": [{"component": "starter", "repaired": "2025-12-01"}]}, "2025-12-01"),
        ({"dates__failed": None}, "2026-02-03"),
    ],
    ids=["first use", "an earlier repair", "brought in"],
)
def test_without_proof_cover_starts_no_later_than_the_first_day_the_unit_was_seen_in_use(seen, starts):
    sold = {"dates__purchased": None, "dates__delivered": None}
    assert without_proof(unit__built="2025-08-03", **sold, **seen).on == date.fromisoformat(starts)


def test_without_proof_the_day_it_was_built_is_asked_for():
    assert without_proof().reason.asks == "unit.built"


def test_without_proof_the_dates_count_where_the_plan_has_no_other_rule():
    assert start_of_cover(a_claim(proof={"kind": "none"}), a_plan()).on == date(2025, 3, 14)


def test_a_proof_not_yet_looked_at_is_not_the_lack_of_one():
    plan = a_plan(start_without_proof=NO_PROOF)
    assert start_of_cover(a_claim(proof={}), plan).on == date(2025, 3, 14)
