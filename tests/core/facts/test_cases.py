import pytest
from builders import a_claim
from pydantic import ValidationError


@pytest.mark.parametrize(
    "days", [{"presented": "2025-09-02"}, {"returned": "2025-08-31"}], ids=["in after it was repaired", "out before"]
)
def test_the_days_of_an_earlier_repair_follow_each_other(days):
    with pytest.raises(ValidationError, match="lies before"):
        a_claim(earlier=[{"component": "coil", "repaired": "2025-09-01", **days}])


def test_an_approval_cannot_expire_before_it_was_given():
    with pytest.raises(ValidationError, match="expires 2026-02-09 lies before on 2026-02-10"):
        a_claim(approval={"number": "A-1", "on": "2026-02-10", "expires": "2026-02-09"})


def test_meters_of_an_earlier_repair_leave_the_hours_to_their_own_key():
    with pytest.raises(ValidationError):
        a_claim(earlier=[{"component": "coil", "repaired": "2025-06-01", "meters": [{"kind": "hours", "value": "1"}]}])
