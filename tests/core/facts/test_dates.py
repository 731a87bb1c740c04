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


def test_a_unit_never_registered_has_no_registration_date():
    with pytest.raises(ValidationError, match="never_registered"):
        a_claim(dates__registered="2025-03-20", dates__never_registered=True)
