import pytest
from builders import a_claim
from pydantic import ValidationError


@pytest.mark.parametrize(
    "days", [{"presented": "2025-09-02"}, {"returned": "2025-08-31"}], ids=["in after it was repaired", "out before"]
)
def test_the_days_of_an_earlier_repair_follow_each_other(days):
    with pytest.raises(ValidationError, match="is before"):
        a_claim(earlier=[{"component": "coil", "repaired": "2025-09-01", **days}])


def test_an_approval_cannot_expire_before_it_was_given():
    with pytest.raises(ValidationError, match="expires 2026-02-09 is before on 2026-02-10"):
        a_claim(approval={"number": "A-1", "on": "2026-02-10", "expires": "2026-02-09"})


def test_meters_of_an_earlier_repair_leave_the_hours_to_their_own_key():
    with pytest.raises(ValidationError):
        a_claim(earlier=[{"component": "coil", "repaired": "2025-06-01", "meters": [{"kind": "hours", "value": "1"}]}])


def test_a_part_sold_need_not_have_been_fitted_by_the_shop():
    assert a_claim(part_sold={"sold": "2025-11-02"}).part_sold.fitted is None


@pytest.mark.parametrize("fitted", ["2025-11-02", "2025-11-03"])
def test_a_part_may_be_fitted_the_day_it_is_sold(fitted):
    assert str(a_claim(part_sold={"sold": "2025-11-02", "fitted": fitted}).part_sold.fitted) == fitted


def test_a_part_is_not_fitted_before_it_is_sold():
    with pytest.raises(ValidationError, match="fitted 2025-11-01 is before"):
        a_claim(part_sold={"sold": "2025-11-02", "fitted": "2025-11-01"})
