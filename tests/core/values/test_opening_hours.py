import pytest

from claimpack.core.values.opening_hours import opening


@pytest.mark.parametrize(
    "said", [{"mo": "08:00-17:00"}, {"mon": "8-17"}, {"mon": "17:00-08:00"}, {"mon": "08:00"}, {"mon": "08:00-08:00"}]
)
def test_opening_hours_that_cannot_be_are_refused(said):
    with pytest.raises(ValueError, match=f"opening_hours.{next(iter(said))}"):
        opening(said)


def test_opening_hours_are_by_weekday_monday_first():
    assert sorted(opening({"sat": "08:00-12:00", "mon": "08:00-17:30"})) == [0, 5]
