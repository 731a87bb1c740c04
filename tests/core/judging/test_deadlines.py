from datetime import date

import pytest
from builders import TODAY, a_claim, a_plan, a_window

from claimpack.core.clauses.operations import Filing
from claimpack.core.holding.hold import ClaimsHold, Starts, hold_of
from claimpack.core.judging.deadlines import deadlines, file_by, late
from claimpack.core.verdict.coverage import judge

FILING = {"filing": {"within": "P30D"}}
HOLD = {"hold": {"for": "P90D", "of": "repaired"}}
HELD = [{"part": "short block"}]


def kept(plan, filed=None, paid=None, today=TODAY, **changes):
    """The dates to keep, by what they are."""
    claim = a_claim(**changes)
    hold = ClaimsHold(hold_of(plan), Starts(filed, paid, claim.dates.repaired))
    found = deadlines(claim, plan, judge(claim, plan), today, hold)
    return {deadline.what.key.removeprefix("deadline."): deadline for deadline in found}


def test_the_time_to_file_leaves_out_the_day_of_the_repair():
    assert kept(a_plan(**FILING))["file-by"].on == date(2026, 3, 26)


@pytest.mark.parametrize("of", ["presented", "failed", "repaired"])
def test_the_time_to_file_counts_from_the_day_the_plan_says(of):
    plan = a_plan(filing={"within": "P1D", "of": of})
    days = {"presented": date(2026, 2, 6), "failed": date(2026, 2, 3), "repaired": date(2026, 2, 25)}
    assert kept(plan)["file-by"].on == days[of]


@pytest.mark.parametrize(("today", "left"), [("2026-03-25", 1), ("2026-03-26", 0), ("2026-03-27", -1)])
def test_days_left_go_below_zero_once_a_date_is_missed(today, left):
    assert kept(a_plan(**FILING), today=date.fromisoformat(today))["file-by"].days_left == left


def test_a_claim_that_is_filed_has_no_day_to_file_by():
    assert "file-by" not in kept(a_plan(**FILING), filed=TODAY)


def test_a_claim_not_yet_repaired_has_no_day_to_file_by():
    assert "file-by" not in kept(a_plan(**FILING), dates__repaired=None)


def test_a_plan_without_a_time_to_file_has_no_day_to_file_by():
    assert "file-by" not in kept(a_plan())


APPROVED = {"approval": {"number": "A-1", "expires": "2026-03-12"}}


def test_a_repair_waiting_under_an_approval_has_a_day_to_be_made_by():
    waiting = kept(a_plan(), today=date(2026, 3, 10), dates__repaired=None, **APPROVED)["approval"]
    assert (waiting.on, waiting.days_left) == (date(2026, 3, 12), 2)


def test_a_repair_that_was_made_waits_under_no_approval():
    assert "approval" not in kept(a_plan(), **APPROVED)


def test_a_claim_that_is_filed_waits_under_no_approval():
    assert "approval" not in kept(a_plan(), filed=TODAY, dates__repaired=None, **APPROVED)


SATURDAY = {"dates__repaired": "2026-02-26"}


@pytest.mark.parametrize(
    ("roll", "on", "key"),
    [
        ("none", date(2026, 3, 28), "because.file-by"),
        ("next-working-day", date(2026, 3, 30), "because.file-by-rolled"),
    ],
)
def test_a_day_to_file_by_rolls_over_a_weekend_where_the_plan_says_so(roll, on, key):
    found = kept(a_plan(filing={"within": "P30D", "roll": roll}), **SATURDAY)["file-by"]
    assert (found.on, found.because.key) == (on, key)


def test_a_day_to_file_by_rolls_over_the_plans_holidays():
    filing = Filing(within="P30D", roll="next-working-day", holidays=["2026-03-30"])
    assert file_by(filing, date(2026, 2, 26)) == date(2026, 3, 31)


def test_holidays_handed_in_stand_for_the_plans():
    filing = Filing(within="P30D", roll="next-working-day", holidays=["2026-03-30"])
    assert file_by(filing, date(2026, 2, 26), {date(2026, 4, 6)}) == date(2026, 3, 30)


def test_the_end_of_cover_never_rolls():
    claim = {"dates__purchased": "2025-03-21", "dates__delivered": "2025-03-21"}
    assert kept(a_plan(), **claim)["cover-ends"].on == date(2026, 3, 21)


def test_a_claim_that_is_not_covered_has_no_end_of_cover():
    assert "cover-ends" not in kept(a_plan(), failure__component="ignition coil")


def test_cover_that_is_certain_only_up_to_the_first_of_several_ends_has_no_end_to_keep():
    windows = [a_window(id="home", uses=["household"]), a_window(uses=["professional", "rental"], period="P15M")]
    assert "cover-ends" not in kept(a_plan(window=windows), unit__use=None)


def test_cover_that_ends_with_the_last_of_several_limits_has_no_day_to_keep():
    assert "cover-ends" not in kept(a_plan(window=[a_window(hours=300, whichever="last")]))


def test_a_part_is_held_from_the_repair():
    assert kept(a_plan(**HOLD), held=HELD)["hold-until"].on == date(2026, 5, 25)


@pytest.mark.parametrize(("filed", "on"), [(None, None), (date(2026, 3, 1), date(2026, 5, 30))])
def test_a_part_is_held_from_the_filing_once_it_is_filed(filed, on):
    found = kept(a_plan(hold={"for": "P90D"}), filed=filed, held=HELD).get("hold-until")
    assert (found.on if found else None) == on


@pytest.mark.parametrize(("paid", "on"), [(None, None), (date(2026, 3, 1), date(2026, 5, 30))])
def test_a_part_is_held_from_the_payment_once_it_is_paid(paid, on):
    found = kept(a_plan(hold={"for": "P90D", "of": "paid"}), paid=paid, held=HELD).get("hold-until")
    assert (found.on if found else None) == on


def test_nothing_is_held_where_no_part_is():
    assert "hold-until" not in kept(a_plan(**HOLD))


def test_the_nearest_date_comes_first():
    assert list(kept(a_plan(**FILING, **HOLD), held=HELD)) == ["cover-ends", "file-by", "hold-until"]


@pytest.mark.parametrize(("today", "days"), [("2026-03-25", None), ("2026-03-26", None), ("2026-03-27", 1)])
def test_a_claim_is_late_from_the_day_after_its_last_day_to_file(today, days):
    found = late(a_claim(), a_plan(**FILING), date.fromisoformat(today))
    assert (found.days if found else None) == days


def test_a_claim_filed_in_time_is_not_late_however_late_it_is_looked_at():
    assert late(a_claim(), a_plan(**FILING), date(2026, 12, 1), first_filed=date(2026, 3, 26)) is None


def test_a_claim_filed_late_is_as_late_as_it_was_filed():
    found = late(a_claim(), a_plan(**FILING), date(2026, 12, 1), first_filed=date(2026, 4, 5))
    assert (found.file_by, found.days, found.says.key) == (date(2026, 3, 26), 10, "late.filed")


@pytest.mark.parametrize("changes", [{"dates__repaired": None}, {}])
def test_without_a_limit_or_its_event_no_claim_is_late(changes):
    plan = a_plan(**FILING) if changes else a_plan()
    assert late(a_claim(**changes), plan, date(2027, 1, 1)) is None
