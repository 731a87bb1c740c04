import pytest
from builders import a_claim
from pydantic import ValidationError

from claimpack.core.facts.unit import Meter


def test_a_serial_is_found_by_its_role_in_any_spelling():
    assert a_claim().unit.serial("ENGINE") == "E70-1"


@pytest.mark.parametrize(
    ("serials", "told_by"),
    [
        ([{"role": "engine", "value": "E"}, {"role": "Unit", "value": "U"}], "U"),
        ([{"role": "engine", "value": "E"}, {"role": "mower deck", "value": "D"}], "E"),
        ([], ""),
    ],
)
def test_a_machine_is_told_by_its_own_number_else_by_the_first_one(serials, told_by):
    assert a_claim(unit__serials=serials).unit.own_serial == told_by


@pytest.mark.parametrize("hours", ["20251120", "251120", "100000"])
def test_a_reading_beyond_any_meter_is_refused(hours):
    with pytest.raises(ValidationError, match=f"{hours} is no hour-meter reading"):
        a_claim(unit__hours=hours)


def test_a_reading_like_a_date_is_said_to_look_like_one():
    with pytest.raises(ValidationError, match="looks like a date"):
        a_claim(unit__hours="20251120")


def test_a_long_working_life_is_a_reading():
    assert str(a_claim(unit__hours="99999.9").unit.hours) == "99999.9"


@pytest.mark.parametrize(
    "meters",
    [
        [{"kind": "cycles"}],
        [{"kind": "cycles", "value": "1", "fitted": False}],
        [{"kind": "cycles", "value": "1"}, {"kind": "Cycles", "value": "2"}],
        [{"kind": "hours", "value": "1"}],
        [{"kind": "unit|cycles", "value": "1"}],
    ],
    ids=["no reading", "read and not fitted", "twice", "hours beside hours", "no plain word"],
)
def test_meters_that_cannot_be_are_refused(meters):
    with pytest.raises(ValidationError):
        a_claim(unit__meters=meters)


def test_the_hours_of_a_meter_before_it_count():
    meters = [{"kind": "hours", "value": "12.0", "replaced_at": "830.5"}]
    unit = a_claim(unit__meters=meters, unit__hours=None, unit__meter=None).unit
    assert (str(unit.hours_run), unit.has_hour_meter) == ("842.5", True)


def test_the_hour_meter_is_told_by_itself_and_not_among_the_other_meters():
    meters = [{"kind": "Hours", "value": "12.0"}, {"kind": "cycles", "value": "4100"}]
    unit = a_claim(unit__meters=meters, unit__hours=None, unit__meter=None).unit
    assert ([meter.kind for meter in unit.other_meters], unit.hours_said) == (["cycles"], "12.0")


@pytest.mark.parametrize(
    ("meter", "total", "said"),
    [
        ({"value": "12.0"}, "12.0", "12.0"),
        ({"value": "12.0", "replaced_at": "830.5"}, "842.5", "842.5 (12.0 + 830.5)"),
        ({"value": "12.0", "replaced_at": "0"}, "12.0", "12.0 (12.0 + 0)"),
        ({"fitted": False}, "None", ""),
    ],
    ids=["one meter", "replaced", "replaced at once", "none"],
)
def test_a_meter_says_what_was_counted_in_all(meter, total, said):
    told = Meter(kind="cycles", **meter)
    assert (str(told.total), told.said) == (total, said)


@pytest.mark.parametrize("read", [{"value": "1"}, {"replaced_at": "1"}, {"value": "1", "replaced_at": "1"}])
def test_a_meter_that_is_not_fitted_reads_nothing(read):
    with pytest.raises(ValidationError, match="not to be fitted"):
        Meter(kind="cycles", fitted=False, **read)


@pytest.mark.parametrize(
    "told", [{"hours": "100", "meter": None}, {"hours": None, "meter": True}], ids=["read", "fitted"]
)
def test_the_hour_meter_is_not_told_of_twice(told):
    with pytest.raises(ValidationError, match="take away hours and meter"):
        a_claim(unit__meters=[{"kind": "hours", "value": "1"}], unit__hours=told["hours"], unit__meter=told["meter"])


@pytest.mark.parametrize(("hours", "said"), [("100.0", "100.0"), (None, "")])
def test_the_reading_of_the_hour_meter_is_said_as_it_was_written(hours, said):
    assert a_claim(unit__hours=hours).unit.hours_said == said


def test_another_meter_says_nothing_of_the_hours():
    unit = a_claim(unit__meters=[{"kind": "cycles", "value": "4100"}]).unit
    assert (unit.meter_of("hours"), unit.hours_said, unit.has_hour_meter) == (None, "100", True)
