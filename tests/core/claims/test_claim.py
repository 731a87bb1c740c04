from datetime import date

import pytest
from builders import a_claim
from pydantic import ValidationError

from claimpack.core.claims.claim import Claim


@pytest.mark.parametrize("number", ["", "-1", "26/41", "a" * 25, "26 41", "№1"])
def test_a_claim_number_is_letters_digits_and_hyphens(number):
    with pytest.raises(ValidationError):
        a_claim(number=number)


@pytest.mark.parametrize(
    "path", ["../receipt.pdf", "/etc/passwd", "a/../../b", "C:/x.jpg", "papers\\x.pdf", "photos/../../x"]
)
def test_a_path_that_leaves_the_folder_is_refused(path):
    with pytest.raises(ValidationError, match="leaves the claim folder"):
        a_claim(photos=[{"file": path}])


@pytest.mark.parametrize(
    ("role", "day"),
    [("failed", "2025-03-13"), ("presented", "2026-02-01"), ("repaired", "2026-02-04"), ("in_service", "2026-02-03")],
)
def test_dates_that_cannot_follow_each_other_are_refused(role, day):
    with pytest.raises(ValidationError, match="lies before"):
        a_claim(**{f"dates__{role}": day})


@pytest.mark.parametrize("role", ["failed", "presented", "repaired"])
def test_everything_on_one_day_is_possible(role):
    claim = a_claim(dates={"purchased": "2026-01-01", "presented": "2026-01-01", role: "2026-01-01"})
    assert getattr(claim.dates, role) == date(2026, 1, 1)


@pytest.mark.parametrize("written", ["2026-2-5", "05.02.2026", "2026-02-30", "2026-02-05T10:00:00", 20260205, 1.5])
def test_what_is_no_date_is_refused(written):
    with pytest.raises(ValidationError):
        a_claim(dates__presented=written)


def test_unknown_keys_are_refused():
    with pytest.raises(ValidationError, match="Extra inputs"):
        a_claim(colour="orange")


@pytest.mark.parametrize("quantity", ["0", "-1"])
def test_a_quantity_is_above_zero(quantity):
    with pytest.raises(ValidationError):
        a_claim(parts=[{"name": "ring", "quantity": quantity}])


def test_a_binary_float_is_no_money():
    with pytest.raises(ValidationError, match="decimal number"):
        a_claim(extras=[{"what": "freight", "amount": 12.5}])


def test_labour_cannot_end_before_it_starts():
    with pytest.raises(ValidationError, match="before started"):
        a_claim(labour=[{"operation": "x", "started": "2026-02-24T10:00:00", "ended": "2026-02-24T09:00:00"}])


def test_labour_cannot_mix_times_with_and_without_a_zone():
    with pytest.raises(ValidationError, match="time zone"):
        a_claim(labour=[{"operation": "x", "started": "2026-02-24T09:00:00Z", "ended": "2026-02-24T10:00:00"}])


def test_a_wrong_currency_code_names_the_nearest():
    with pytest.raises(ValidationError, match="EUR"):
        a_claim(currency="EURO")


@pytest.mark.parametrize(
    ("changes", "clash"),
    [
        ({"dates__returned": "2026-02-23"}, "returned 2026-02-23 lies before repaired"),
        ({"dates__resold": "2025-03-13", "owner": {}}, "resold 2025-03-13 lies before purchased"),
        ({"dates__resold": "2025-07-20"}, "first_owner is true, but dates.resold is 2025-07-20"),
        ({"unit__built": "2025-01-20", "unit__invoiced": "2025-01-19"}, "lies after unit.invoiced 2025-01-19"),
        ({"case": "stock"}, "lies before dates.presented 2026-02-05, when a stock unit is not sold yet"),
    ],
)
def test_days_that_contradict_each_other_are_refused(changes, clash):
    with pytest.raises(ValidationError, match=clash):
        a_claim(**changes)


@pytest.mark.parametrize("sold", [None, "2026-02-05", "2026-02-06"], ids=["not yet", "that day", "the day after"])
def test_a_stock_unit_is_sold_after_it_came_in_or_not_yet(sold):
    claim = a_claim(case="stock", dates__purchased=sold, dates__delivered=sold)
    assert (claim.is_stock, claim.dates.purchased) == (True, date.fromisoformat(sold) if sold else None)


@pytest.mark.parametrize(
    "days", [{"presented": "2025-09-02"}, {"returned": "2025-08-31"}], ids=["in after it was repaired", "out before"]
)
def test_the_days_of_an_earlier_repair_follow_each_other(days):
    with pytest.raises(ValidationError, match="lies before"):
        a_claim(earlier=[{"component": "coil", "repaired": "2025-09-01", **days}])


def test_a_unit_never_registered_has_no_registration_date():
    with pytest.raises(ValidationError, match="never_registered"):
        a_claim(dates__registered="2025-03-20", dates__never_registered=True)


def test_a_serial_is_found_by_its_role_in_any_spelling():
    assert a_claim().unit.serial("ENGINE") == "E70-1"


def test_the_component_falls_back_on_the_part_that_failed():
    assert a_claim(failure__component=None, failure__part={"name": "coil"}).component() == "coil"


def test_the_proof_is_the_first_paper_and_told_once():
    claim = a_claim(papers=["papers/a.pdf", "papers/receipt.pdf"])
    assert claim.paper_files() == ("papers/receipt.pdf", "papers/a.pdf")


def test_a_claim_reads_back_from_its_own_json():
    claim = a_claim(parts=[{"name": "ring", "unit_cost": "1.2345"}], extras=[{"what": "f", "amount": "1.50"}])
    assert Claim.model_validate_json(claim.model_dump_json()) == claim


def test_an_approval_cannot_expire_before_it_was_given():
    with pytest.raises(ValidationError, match="expires 2026-02-09 lies before on 2026-02-10"):
        a_claim(approval={"number": "A-1", "on": "2026-02-10", "expires": "2026-02-09"})


@pytest.mark.parametrize("written", ["photos/./plate.jpg", "./photos/plate.jpg", "photos//plate.jpg"])
def test_one_file_has_one_name(written):
    assert a_claim(photos=[{"file": written}]).photos[0].file == "photos/plate.jpg"


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


def test_meters_of_an_earlier_repair_leave_the_hours_to_their_own_key():
    with pytest.raises(ValidationError):
        a_claim(earlier=[{"component": "coil", "repaired": "2025-06-01", "meters": [{"kind": "hours", "value": "1"}]}])
