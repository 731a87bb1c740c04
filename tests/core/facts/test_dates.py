from datetime import date

import pytest
from builders import a_claim
from pydantic import ValidationError


@pytest.mark.parametrize(
    ("role", "day"),
    [("failed", "2025-03-13"), ("presented", "2026-02-01"), ("repaired", "2026-02-04"), ("in_service", "2026-02-03")],
)
def test_dates_that_cannot_follow_each_other_are_refused(role, day):
    with pytest.raises(ValidationError, match="is before"):
        a_claim(**{f"dates__{role}": day})


@pytest.mark.parametrize("role", ["failed", "presented", "repaired"])
def test_everything_on_one_day_is_possible(role):
    claim = a_claim(dates={"purchased": "2026-01-01", "presented": "2026-01-01", role: "2026-01-01"})
    assert getattr(claim.dates, role) == date(2026, 1, 1)


@pytest.mark.parametrize("case", ["repair", "stock"])
def test_a_unit_may_be_built_sold_used_and_brought_in_on_one_day(case):
    roles = ("purchased", "delivered", "in_service", "failed", "presented", "repaired", "returned")
    day = "2026-02-05"
    unit = {"unit__built": day, "unit__invoiced": day}
    sold = {"part_sold": {"name": "coil", "sold": day, "fitted": day}}
    claim = a_claim(case=case, dates=dict.fromkeys(roles, day), **unit, **sold)
    assert claim.unit.built == claim.part_sold.fitted == claim.dates.presented


@pytest.mark.parametrize("role", ["sold", "fitted"])
@pytest.mark.parametrize("later", ["failed", "presented"])
def test_a_part_does_not_fail_or_come_back_before_it_was_sold_and_fitted(role, later):
    claim = {"part_sold": {"name": "coil", role: "2026-02-03"}, "dates": {"presented": "2026-02-04"}}
    with pytest.raises(ValidationError, match=rf"dates\.{later} .* is before part_sold\.{role}"):
        a_claim(**claim | {"dates": {"presented": "2026-02-04", later: "2026-02-02"}})


def test_what_was_sold_on_after_it_came_in_came_in_with_its_first_owner():
    assert a_claim(dates__resold="2026-02-06").owner.first_owner


def test_what_was_sold_on_the_day_it_came_in_has_no_first_owner_any_more():
    with pytest.raises(ValidationError, match="first_owner is true"):
        a_claim(dates__resold="2026-02-05")


@pytest.mark.parametrize("written", ["2026-2-5", "05.02.2026", "2026-02-30", "2026-02-05T10:00:00", 20260205, 1.5])
def test_what_is_no_date_is_refused(written):
    with pytest.raises(ValidationError):
        a_claim(dates__presented=written)


@pytest.mark.parametrize(
    ("changes", "clash"),
    [
        ({"dates__returned": "2026-02-23"}, "returned 2026-02-23 is before repaired"),
        ({"dates__resold": "2025-03-13", "owner": {}}, "resold 2025-03-13 is before purchased"),
        ({"dates__resold": "2025-07-20"}, "first_owner is true, but dates.resold is 2025-07-20"),
        ({"unit__built": "2025-01-20", "unit__invoiced": "2025-01-19"}, "is after unit.invoiced 2025-01-19"),
        ({"case": "stock"}, "is before dates.presented 2026-02-05, when a stock unit is not sold yet"),
    ],
)
def test_days_that_contradict_each_other_are_refused(changes, clash):
    with pytest.raises(ValidationError, match=clash):
        a_claim(**changes)


@pytest.mark.parametrize("sold", [None, "2026-02-05", "2026-02-06"], ids=["not yet", "that day", "the day after"])
def test_a_stock_unit_is_sold_after_it_came_in_or_not_yet(sold):
    claim = a_claim(case="stock", dates__purchased=sold, dates__delivered=sold)
    assert (claim.is_stock, claim.dates.purchased) == (True, date.fromisoformat(sold) if sold else None)


@pytest.mark.parametrize("told", [{"dates__registered": "2025-03-20"}, {"dates__never_registered": True}, {}])
def test_whether_a_unit_was_registered_is_told_by_the_day_or_that_it_never_was(told):
    dates = a_claim(**told).dates
    assert (bool(dates.registered), dates.never_registered) == (
        "dates__registered" in told,
        "dates__never_registered" in told,
    )


def test_a_unit_never_registered_has_no_registration_date():
    with pytest.raises(ValidationError, match="never_registered"):
        a_claim(dates__registered="2025-03-20", dates__never_registered=True)
