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
    ("built", "key"), [("2025-08-02", "start.without-proof"), ("2025-08-03", "start.without-proof-at-event")]
)
def test_that_a_unit_had_been_sold_is_told_where_its_time_from_the_day_it_was_built_was_not_over(built, key):
    changes = {"dates__purchased": None, "dates__delivered": None}
    assert without_proof(unit__built=built, **changes).reason.says.key == key


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


UNSOLD = {"dates__purchased": None, "dates__delivered": None}


@pytest.mark.parametrize("registered", ["2025-03-20", None], ids=["given", "not given"])
@pytest.mark.parametrize(
    ("day", "itself"), [("registered", True), ({"of": "registered", "plus": "P30D"}, False)], ids=["it", "later"]
)
def test_cover_that_starts_some_time_after_the_registration_does_not_start_with_it(registered, day, itself):
    start = start_of_cover(a_claim(dates__registered=registered), a_plan(start=[day]))
    assert (start.is_registration, start.from_sale) == (itself, True)


def test_a_registration_before_the_sale_leaves_the_day_of_the_sale_what_it_is():
    claim = a_claim(dates__registered="2025-03-13")
    assert start_of_cover(claim, a_plan(start=["purchased"])).on == date(2025, 3, 14)


@pytest.mark.parametrize(
    ("role", "latest"),
    [("purchased", date(2025, 6, 1)), ("delivered", date(2025, 6, 1)), ("in_service", date(2026, 2, 2))],
)
def test_a_first_sale_that_is_not_given_was_before_the_second(role, latest):
    claim = a_claim(dates__resold="2025-06-01", owner__first_owner=None, **UNSOLD)
    assert start_of_cover(claim, a_plan(start=[role])).latest == latest


@pytest.mark.parametrize(("built", "asks"), [("2024-02-24", "dates.delivered"), ("2024-02-25", "dates.registered")])
def test_of_two_days_the_earliest_of_which_counts_one_that_cannot_come_first_is_not_asked_for(built, asks):
    # registered on the day after the repair of 2026-02-24 at the latest
    plan = a_plan(start={"earliest": [{"of": "delivered", "plus": "P2Y"}, "registered"]})
    assert start_of_cover(a_claim(unit__built=built, **UNSOLD), plan).reason.asks == asks


@pytest.mark.parametrize(("built", "asks"), [("2025-02-01", "dates.delivered"), ("2025-02-02", "dates.in_service")])
def test_of_two_days_the_latest_of_which_counts_one_that_cannot_come_last_is_not_asked_for(built, asks):
    # delivered on 2026-02-02, when it failed, at the latest
    plan = a_plan(start={"latest": ["delivered", {"of": "in_service", "plus": "P1Y"}]})
    assert start_of_cover(a_claim(unit__built=built, **UNSOLD), plan).reason.asks == asks
