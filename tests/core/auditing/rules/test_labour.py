from decimal import Decimal

import pytest
from audits import WITHDRAWN, an_audited, found_by
from builders import a_plan

from claimpack.core.auditing.audited import Measures
from claimpack.core.auditing.rules.labour import hours_by_day


def clocked(started, ended, **changes):
    """An hour-by-hour entry of Ben's; times without a date are of 24 February."""
    times = {name: at if "T" in at else f"2026-02-24T{at}:00" for name, at in (("started", started), ("ended", ended))}
    return {"operation": "diagnose", "technician": "Ben", **times, **changes}


def worked(number, *entries):
    return an_audited(number, number, labour=list(entries))


@pytest.mark.parametrize(
    ("started", "count"), [("09:59", 1), ("10:00", 0), ("10:01", 0)], ids=["before", "at", "after the end"]
)
def test_work_on_two_claims_overlaps_until_the_first_ends(started, count):
    first, second = worked("26-0001", clocked("09:00", "10:00")), worked("26-0002", clocked(started, "11:00"))
    assert len(found_by("labour-at-one-time", second, first)) == count


def test_what_is_found_says_who_where_and_when():
    found = found_by(
        "labour-at-one-time",
        worked("26-0001", clocked("09:00", "10:00")),
        worked("26-0002", clocked("09:30", "11:00", technician="BEN")),
    )[0]
    assert found.what == "Ben works on claims 26-0001 and 26-0002 at one time, 2026-02-24 09:30 to 2026-02-24 10:00."
    assert found.weight == "serious"


def test_somebody_on_two_claims_is_not_one_in_two_places():
    entry = clocked("09:00", "10:00", technician="somebody")
    assert not found_by("labour-at-one-time", worked("26-0001", entry), worked("26-0002", entry))


def test_two_of_one_name_in_two_shops_are_not_one_in_two_places():
    one, other = (worked(number, clocked("09:00", "10:00")) for number in ("A-1", "H-1"))
    elsewhere = other._replace(standing=other.standing.model_copy(update={"shop": "hollis"}))
    assert not found_by("labour-at-one-time", one, elsewhere)


def test_two_operations_of_one_claim_at_one_time_are_worth_a_look():
    found = found_by("labour-at-one-time", worked("26-0001", clocked("09:00", "10:00"), clocked("09:00", "10:00")))
    assert [(each.weight, each.says[0].key) for each in found] == [("look", "labour-at-one-time.one-claim")]


def test_an_operation_may_be_worked_on_inside_one_that_includes_it():
    operations = [{"code": "open", "hours": "0.4"}, {"code": "seal", "hours": "1", "includes": ["open"]}]
    entries = [clocked("09:00", "10:00", operation="seal"), clocked("09:00", "09:20", operation="Open")]
    assert not found_by("labour-at-one-time", worked("26-0001", *entries)._replace(plan=a_plan(operation=operations)))


def test_another_technician_works_at_the_same_time():
    other = worked("26-0002", clocked("09:00", "10:00", technician="Ana"))
    assert not found_by("labour-at-one-time", worked("26-0001", clocked("09:00", "10:00")), other)


def test_work_without_a_technician_is_nobody_s():
    nobody = [worked(number, clocked("09:00", "10:00", technician="")) for number in ("26-0001", "26-0002")]
    assert not found_by("labour-at-one-time", *nobody)


def test_clocks_with_zones_are_compared_as_moments():
    east = clocked("2026-02-24T09:00:00-05:00", "2026-02-24T10:00:00-05:00")
    west = clocked("2026-02-24T09:00:00-08:00", "2026-02-24T10:00:00-08:00")
    assert not found_by("labour-at-one-time", worked("26-0001", east), worked("26-0002", west))


def test_a_clock_without_a_zone_is_read_as_the_shop_s_time():
    zoned = clocked("2026-02-24T09:00:00-05:00", "2026-02-24T10:00:00-05:00")
    assert found_by("labour-at-one-time", worked("26-0001", zoned), worked("26-0002", clocked("09:30", "11:00")))


def test_a_withdrawn_claim_counts_no_work():
    gone = worked("26-0001", clocked("09:00", "10:00"))._replace(standing=WITHDRAWN)
    assert not found_by("labour-at-one-time", gone, worked("26-0002", clocked("09:00", "10:00")))


def stated(hours, **changes):
    return {"operation": "diagnose", "technician": "Ben", "hours": hours, **changes}


@pytest.mark.parametrize(("hours", "count"), [("7.9", 0), ("8.0", 0), ("8.1", 1)], ids=["15.9", "16", "16.1"])
def test_a_day_is_too_long_above_the_shop_s_limit(hours, count):
    assert len(found_by("day-too-long", worked("26-0001", stated("8")), worked("26-0002", stated(hours)))) == count


def test_the_shop_s_limit_can_be_another():
    measures = Measures(today=None, shop_hours=Decimal(10))
    assert found_by("day-too-long", worked("26-0001", stated("10.5")), measures=measures)


def test_a_long_day_names_the_hours_of_every_claim():
    found = found_by("day-too-long", worked("26-0001", stated("10"), stated("2")), worked("26-0002", stated("9")))[0]
    assert found.evidence == {"26-0001": "12.00 h", "26-0002": "9.00 h"}
    said = (
        "21.00 hours of Ben's work fall on 2026-02-24, by the clock or the day of repair: claims 26-0001 and 26-0002."
    )
    assert found.what == said


def test_one_claim_says_so_alone():
    found = found_by("day-too-long", worked("26-0001", stated("20")))[0]
    assert found.what.endswith("the day of repair: claim 26-0001.")


def test_hours_without_a_clock_are_worth_a_look_however_many():
    assert [each.weight for each in found_by("day-too-long", worked("26-0001", stated("30")))] == ["look"]


@pytest.mark.parametrize(
    ("ended", "weight"), [("21:59", "look"), ("22:00", "look"), ("22:01", "serious")], ids=["23:59", "24:00", "24:01"]
)
def test_clocks_of_more_than_a_day_are_serious(ended, weight):
    day = [clocked("00:00", "12:00"), clocked("10:00", ended)]
    assert [each.weight for each in found_by("day-too-long", worked("26-0001", *day))] == [weight]


def test_a_clock_that_ran_for_days_is_serious():
    found = found_by("day-too-long", worked("26-0001", clocked("09:00", "2026-02-26T09:00:00")))
    assert [(each.weight, each.evidence["26-0001"]) for each in found] == [("serious", "48.00 h")]


@pytest.mark.parametrize(
    ("until", "days"),
    [
        ("00:00", {"2026-02-24": "15.00"}),
        ("08:59", {"2026-02-24": "15.00", "2026-02-25": "8.98"}),
        ("09:00", {"2026-02-24": "15.00", "2026-02-25": "9.00"}),
        ("09:01", {"2026-02-24": "24.02"}),
    ],
    ids=["midnight", "a minute less", "a day", "a minute more"],
)
def test_a_clock_of_a_day_at_most_is_shared_by_its_days(until, days):
    entry = clocked("09:00", f"2026-02-25T{until}:00")
    worked_then = [found for _, found in hours_by_day(worked("26-0001", entry))]
    assert {f"{each.day}": f"{each.hours:.2f}" for each in worked_then} == days


def test_work_through_midnight_is_shared_by_two_days():
    night = clocked("20:00", "2026-02-25T04:00:00")
    assert not found_by("day-too-long", worked("26-0001", night, clocked("06:00", "17:00")))
    assert found_by("day-too-long", worked("26-0001", night, clocked("06:00", "18:30")))


def test_hours_of_a_claim_not_repaired_yet_belong_to_no_day():
    waiting = an_audited(labour=[stated("30")], dates={"presented": "2026-02-05"})
    assert not found_by("day-too-long", waiting)


PLAN = a_plan(operation=[{"code": "short-block-replace", "name": "Replace short block", "hours": "1.6"}])
SHORT_BLOCK = {"operation": "Short block replace", "technician": "Ben"}


BY_CLOCK = PLAN.model_copy(update={"pays": PLAN.pays.model_copy(update={"claim_time": "actual"})})


@pytest.mark.parametrize("plan", [BY_CLOCK, PLAN], ids=["pays the time worked", "pays the schedule"])
@pytest.mark.parametrize(("hours", "count"), [("1.8", 0), ("3.2", 0), ("3.21", 1)], ids=["over", "twice", "beyond"])
def test_work_may_take_twice_the_schedule_before_a_clock_is_asked_about(plan, hours, count):
    claim = an_audited(labour=[SHORT_BLOCK | {"hours": hours}])._replace(plan=plan)
    assert [each.weight for each in found_by("labour-beyond-schedule", claim)] == ["look"] * count


def test_entries_of_one_operation_add_up():
    claim = an_audited(labour=[SHORT_BLOCK | {"hours": "1.7"}] * 2)._replace(plan=PLAN)
    assert found_by("labour-beyond-schedule", claim)[0].evidence["hours"] == "3.40"


@pytest.mark.parametrize("name", ["Replace short block", ""])
def test_an_operation_is_told_by_its_name_else_by_its_code(name):
    plan = a_plan(operation=[{"code": "short-block-replace", "name": name, "hours": "1.6"}])
    (found,) = found_by("labour-beyond-schedule", an_audited(labour=[SHORT_BLOCK | {"hours": "9"}])._replace(plan=plan))
    assert found.says[0].facts["operation"] == (name or "short-block-replace")


@pytest.mark.parametrize(
    "entry",
    [SHORT_BLOCK | {"hours": "9", "payer": "owner"}, stated("9")],
    ids=["the owner pays", "not in the schedule"],
)
def test_other_work_has_no_schedule(entry):
    assert not found_by("labour-beyond-schedule", an_audited(labour=[entry])._replace(plan=PLAN))


@pytest.mark.parametrize(("hours", "count"), [("0.15", 1), ("0.16", 0)], ids=["under a tenth", "a tenth"])
def test_next_to_no_time_beside_the_schedule_is_worth_a_look(hours, count):
    claim = an_audited(labour=[SHORT_BLOCK | {"hours": hours}])._replace(plan=PLAN)
    assert [each.weight for each in found_by("labour-hardly-worked", claim)] == ["look"] * count


def test_next_to_no_time_is_told_with_both_numbers():
    claim = an_audited(labour=[SHORT_BLOCK | {"hours": "0"}])._replace(plan=PLAN)
    found = found_by("labour-hardly-worked", claim)[0]
    assert found.what == (
        "Replace short block: 1.60 hours are claimed by the schedule, and 0.00 are written down as worked."
    )


@pytest.mark.parametrize(("rule", "hours"), [("labour-hardly-worked", "0"), ("labour-beyond-schedule", "9")])
def test_a_withdrawn_claim_claims_no_labour(rule, hours):
    claim = an_audited(labour=[SHORT_BLOCK | {"hours": hours}])._replace(plan=PLAN)
    assert found_by(rule, claim)
    assert not found_by(rule, claim._replace(standing=WITHDRAWN))


def test_what_was_clocked_after_midnight_counts_by_the_clock():
    night = clocked("20:00", "2026-02-25T10:00:00")
    day = clocked("2026-02-25T09:00:00", "2026-02-25T23:59:00")
    assert [each.weight for each in found_by("day-too-long", worked("26-0001", night, day))] == ["serious"]
