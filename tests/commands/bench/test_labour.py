from __future__ import annotations

import datetime as dt
from decimal import Decimal

import pytest
from running import NOW, claimpack
from shop_builders import a_shop, happen, kept_claim, the_desk


@pytest.fixture
def shop(tmp_path):
    return a_shop(tmp_path)


@pytest.fixture
def two(tmp_path):
    """A shop with two claims."""
    return a_shop(tmp_path, "26-0001", "26-0002")


def labour(shop, *arguments, after=0, **options):
    """A labour command so many minutes after half past nine."""
    return claimpack("labour", *arguments, folder=shop, now=NOW + dt.timedelta(minutes=after), **options)


def running(shop):
    return [(clock.technician, clock.claim, clock.operation) for clock in the_desk(shop).book.clocks()]


def test_a_clock_is_started_for_who_is_at_work(shop):
    ran = labour(shop, "start", "26-0001", "short-block-replace")
    assert (ran.code, running(shop)) == (0, [("ann", "26-0001", "short-block-replace")])


def test_stopping_puts_the_time_on_the_claim(shop):
    labour(shop, "start", "26-0001", "short-block-replace")
    ran = labour(shop, "stop", after=75)
    assert (ran.out, running(shop)) == ("26-0001: short-block-replace, 1 h 15 min, ann\n", [])


def test_the_entry_has_start_and_end_to_the_second(shop):
    labour(shop, "start", "26-0001", "clean")
    labour(shop, "stop", "--payer", "shop", after=75)
    entry = kept_claim(shop).labour[0]
    assert (entry.started.isoformat(), entry.ended.isoformat(), entry.technician, entry.payer) == (
        *("2026-03-01T09:30:00-05:00", "2026-03-01T10:45:00-05:00"),
        *("ann", "shop"),
    )


def test_what_the_schedule_gives_is_said_beside_the_clock(shop):
    labour(shop, "start", "26-0001", "short-block-replace")
    assert "Schedule 1.6 h, 1.25 h from start to end." in labour(shop, "stop", after=75).err


def test_an_operation_is_written_as_the_schedule_writes_it(shop):
    labour(shop, "start", "26-0001", "Short Block Replace")
    assert running(shop)[0][2] == "short-block-replace"


def test_a_mistyped_operation_suggests_the_nearest_and_stays_free_text(shop):
    ran = labour(shop, "start", "26-0001", "short-blok-replace")
    assert ("Did you mean short-block-replace?" in ran.err, running(shop)[0][2]) == (True, "short-blok-replace")


def test_a_technician_has_one_running_clock(shop):
    labour(shop, "start", "26-0001", "clean")
    ran = labour(shop, "start", "26-0001", "paint", "--technician", "ANN")
    assert (ran.code, "ann's clock is already running" in ran.err, len(running(shop))) == (2, True, 1)


def test_two_technicians_are_stopped_by_name(shop):
    labour(shop, "start", "26-0001", "clean")
    labour(shop, "start", "26-0001", "paint", "--technician", "Ben")
    labour(shop, "stop", "--technician", "ben", after=30)
    assert ([each.technician for each in kept_claim(shop).labour], running(shop)[0][0]) == (["Ben"], "ann")


def test_nothing_to_stop_names_who_is_running(shop):
    labour(shop, "start", "26-0001", "paint", "--technician", "Ben")
    ran = labour(shop, "stop")
    assert (ran.code, "Ben on 26-0001" in ran.err) == (2, True)


def test_a_forgotten_clock_is_not_guessed(shop):
    labour(shop, "start", "26-0001", "clean")
    ran = labour(shop, "stop", after=24 * 60)
    assert (ran.code, "was forgotten" in ran.err, len(running(shop)), kept_claim(shop).labour) == (2, True, 1, ())


def test_a_forgotten_clock_ends_when_it_is_told(shop):
    labour(shop, "start", "26-0001", "clean")
    labour(shop, "stop", "--at", "2026-03-01T16:30", after=24 * 60)
    assert kept_claim(shop).labour[0].ended.isoformat() == "2026-03-01T16:30:00-05:00"


def test_work_over_midnight_is_stopped_and_told_with_its_days(shop):
    labour(shop, "start", "26-0001", "clean", after=14 * 60)
    ran = labour(shop, "stop", after=14 * 60 + 40)
    assert (ran.code, ran.out) == (0, "26-0001: clean, 40 min, ann, 2026-03-01 23:30 to 2026-03-02 00:10\n")


def test_a_time_after_midnight_is_of_the_next_day_and_told_so(shop):
    labour(shop, "start", "26-0001", "clean", after=14 * 60)
    ran = labour(shop, "stop", "--at", "0:10", after=20 * 60)
    assert ran.out == "26-0001: clean, 40 min, ann, 2026-03-01 23:30 to 2026-03-02 00:10\n"


def test_the_help_says_when_a_clock_counts_as_forgotten(shop):
    told = " ".join(labour(shop, "stop", "--help").out.split())
    assert "longer than 12 hours, or longer than 6 and over midnight, was forgotten" in told


def test_a_forgotten_clock_is_marked_in_the_list(shop):
    labour(shop, "start", "26-0001", "clean")
    clocks = labour(shop, "running", "--json", after=24 * 60).json["running"]
    assert [(clock["minutes"], clock["forgotten"]) for clock in clocks] == [(1440, True)]


def test_running_clocks_read_in_a_line_each(shop):
    labour(shop, "start", "26-0001", "clean")
    ran = labour(shop, "running", after=5)
    assert ran.out == "• 26-0001  clean, ann, since 2026-03-01 09:30 (5 min)\n"


def test_no_running_clock_is_said(shop):
    assert labour(shop, "running").err == "No clock is running.\n"


def test_a_clock_that_was_stopped_meanwhile_counts_once(shop):
    labour(shop, "start", "26-0001", "clean")
    desk = the_desk(shop)
    clock = desk.book.clocks()[0]
    labour(shop, "stop", after=30)
    with pytest.raises(Exception, match="stopped or started anew"), desk.changing("26-0001") as changing:  # noqa: PT012
        changing.stop_clock(clock)
        changing.keep(changing.claim.model_copy(update={"labour": changing.claim.labour * 2}))
    assert len(kept_claim(shop).labour) == 1


def test_a_clock_stays_when_the_claim_takes_no_labour(shop):
    labour(shop, "start", "26-0001", "clean")
    happen(shop, "26-0001", "withdrawn")
    ran = labour(shop, "stop", after=30)
    assert (ran.code, len(running(shop)), kept_claim(shop).labour) == (2, 1, ())


def test_time_is_thrown_away_on_request(shop):
    labour(shop, "start", "26-0001", "clean")
    labour(shop, "stop", "--discard", "--yes", after=30)
    assert (running(shop), kept_claim(shop).labour) == ([], ())


@pytest.mark.parametrize(("typed", "left"), [("y\n", 0), ("n\n", 1), ("\n", 1), ("", 1)])
def test_throwing_time_away_asks(shop, typed, left):
    labour(shop, "start", "26-0001", "clean")
    labour(shop, "stop", "--discard", typed=typed, terminal=True)
    assert len(running(shop)) == left


def test_a_withdrawn_claim_starts_no_clock(shop):
    happen(shop, "26-0001", "withdrawn")
    ran = labour(shop, "start", "26-0001", "clean")
    assert (ran.code, running(shop)) == (2, [])


def test_hours_are_written_down(shop):
    labour(shop, "add", "26-0001", "short-block-replace", "--hours", "1.5", "--technician", "Ben")
    entry = kept_claim(shop).labour[0]
    assert (entry.hours, entry.technician) == (Decimal("1.5"), "Ben")


def test_a_start_and_an_end_are_written_down(shop):
    labour(shop, "add", "26-0001", "clean", "--started", "08:00", "--ended", "9:15")
    entry = kept_claim(shop).labour[0]
    assert (entry.started.isoformat(), entry.ended.isoformat()) == (
        "2026-03-01T08:00:00-05:00",
        "2026-03-01T09:15:00-05:00",
    )


@pytest.mark.parametrize(
    "time",
    [(), ("--started", "08:00"), ("--ended", "08:00"), ("--hours", "1", "--started", "08:00", "--ended", "09:00")],
)
def test_time_is_said_once_and_whole(shop, time):
    ran = labour(shop, "add", "26-0001", "clean", *time)
    assert (ran.code, "--started and --ended together" in ran.err) == (2, True)


def test_an_end_before_the_start_is_refused(shop):
    ran = labour(shop, "add", "26-0001", "clean", "--started", "10:00", "--ended", "09:00")
    assert (ran.code, "--ended 2026-03-01 09:00 is before --started 2026-03-01 10:00" in ran.err) == (2, True)


@pytest.mark.parametrize(
    "time",
    [("--hours", "25"), ("--started", "2026-02-27T08:00", "--ended", "2026-02-28T09:00")],
    ids=["hours", "times"],
)
def test_more_than_a_day_in_one_entry_is_refused(shop, time):
    ran = labour(shop, "add", "26-0001", "clean", *time)
    assert (ran.code, kept_claim(shop).labour) == (2, ())


def test_a_refusal_says_nothing_of_free_text_that_was_kept(shop):
    assert "kept as free text" not in labour(shop, "add", "26-0001", "clean", "--hours", "25").err


def test_a_clock_that_would_count_more_than_a_day_goes_on(shop):
    labour(shop, "start", "26-0001", "clean")
    ran = labour(shop, "stop", "--at", "2026-03-02T10:00", after=25 * 60)
    assert (ran.code, "24 h 30 min" in ran.err, len(running(shop))) == (2, True, 1)
    assert "claimpack labour stop --technician ann --at 2026-03-01T" in ran.err


def test_more_than_sixteen_hours_are_kept_and_told_with_the_way_back(shop):
    ran = labour(shop, "add", "26-0001", "clean", "--hours", "17")
    assert (ran.code, kept_claim(shop).labour[0].hours) == (0, Decimal(17))
    assert "claimpack labour remove 26-0001 1" in ran.err


def morning(shop, started, ended, *rest, claim="26-0001"):
    return labour(shop, "add", claim, "clean", "--started", started, "--ended", ended, *rest)


def test_time_that_overlaps_on_the_same_claim_is_told(shop):
    morning(shop, "07:00", "09:00")
    ran = morning(shop, "08:00", "09:15")
    assert (ran.code, "this claim, clean, 2026-03-01 07:00 to 09:00" in ran.err) == (0, True)


def test_time_that_overlaps_on_another_claim_is_told(two):
    morning(two, "07:00", "09:00")
    ran = morning(two, "08:00", "09:15", claim="26-0002")
    assert (ran.code, "claim 26-0001, clean, 2026-03-01 07:00" in ran.err) == (0, True)


def test_time_that_does_not_overlap_is_not_told(two):
    morning(two, "07:00", "08:00")
    assert "at that time" not in morning(two, "08:00", "09:15", claim="26-0002").err


def test_time_on_a_withdrawn_claim_does_not_count(two):
    morning(two, "07:00", "09:00")
    happen(two, "26-0001", "withdrawn")
    assert "at that time" not in morning(two, "08:00", "09:15", claim="26-0002").err


def test_a_clock_that_runs_elsewhere_is_told(two):
    labour(two, "start", "26-0001", "clean", after=-90)
    ran = morning(two, "08:30", "09:15", claim="26-0002")
    assert "claim 26-0001, clean, a clock that runs since 2026-03-01 08:00" in ran.err


def test_a_stopped_clock_tells_what_overlaps_it(two):
    labour(two, "start", "26-0001", "clean")
    morning(two, "09:40", "09:50", claim="26-0002")
    ran = labour(two, "stop", after=60)
    assert (ran.code, "claim 26-0002, clean, 2026-03-01 09:40 to 09:50" in ran.err) == (0, True)


def test_a_clock_does_not_overlap_itself(shop):
    labour(shop, "start", "26-0001", "clean")
    assert "at that time" not in labour(shop, "stop", after=60).err


def test_scripts_read_the_doubts(two):
    morning(two, "07:00", "09:00")
    told = morning(two, "08:00", "09:15", "--json", claim="26-0002").json
    assert ["claim 26-0001" in doubt for doubt in told["doubts"]] == [False, True]


@pytest.mark.parametrize(
    ("option", "value", "says"),
    [
        ("--hours", "lots", "labour add: --hours: 'lots' is not a decimal number"),
        ("--hours", "-1", "--hours: '-1' is below 0"),
    ],
)
def test_a_value_that_has_no_meaning_names_its_option(shop, option, value, says):
    ran = labour(shop, "add", "26-0001", "clean", option, value)
    assert (ran.code, says in ran.err) == (2, True)


def test_the_list_shows_clock_schedule_and_claim(shop):
    labour(shop, "add", "26-0001", "short-block-replace", "--hours", "2.5")
    labour(shop, "start", "26-0001", "clean", "--technician", "Ben")
    listed = labour(shop, "list", "26-0001", "--json").json
    entry = listed["labour"][0]
    assert (entry["schedule"], entry["clocked"], entry["claimed"], listed["running"][0]["technician"]) == (
        *("1.6", "2.50", "1.6"),
        "Ben",
    )


def test_the_list_of_a_claim_has_no_clock_of_another(two):
    labour(two, "start", "26-0002", "clean")
    assert labour(two, "list", "26-0001", "--json").json["running"] == []


def test_the_list_reads_in_columns(shop):
    labour(shop, "add", "26-0001", "short-block-replace", "--hours", "2.5")
    line = labour(shop, "list", "26-0001").out.splitlines()[1]
    assert " ".join(line.split()) == "1 short-block-replace ann 2.5 h 1.6 1.6"


def test_an_entry_is_taken_off(shop):
    labour(shop, "add", "26-0001", "clean", "--hours", "1")
    labour(shop, "remove", "26-0001", "1")
    assert kept_claim(shop).labour == ()


def test_the_book_is_whole_after_a_day_of_labour(shop):
    labour(shop, "start", "26-0001", "clean")
    labour(shop, "stop", after=75)
    labour(shop, "add", "26-0001", "paint", "--hours", "0.5")
    assert claimpack("shop", "verify", folder=shop).code == 0


@pytest.mark.parametrize(("day", "code"), [("2026-03-01", 0), ("2026-03-02", 2)])
def test_work_of_a_day_still_to_come_is_not_written_down(shop, day, code):
    ran = labour(shop, "add", "26-0001", "clean", "--started", f"{day}T08:00", "--ended", f"{day}T09:00")
    assert (ran.code, "--started" in ran.err) == (code, code == 2)


@pytest.mark.parametrize(
    ("options", "hint"),
    [
        ((), "claimpack labour stop\n"),
        (("--technician", "Ann"), "claimpack labour stop\n"),
        (("--technician", "ben b"), "claimpack labour stop --technician 'ben b'\n"),
    ],
    ids=["oneself", "oneself by name", "somebody else"],
)
def test_starting_says_how_this_login_stops_the_clock(shop, options, hint):
    assert labour(shop, "start", "26-0001", "short-block-replace", *options).err.endswith(f"done: {hint}")


def test_a_clock_on_work_that_needs_the_makers_approval_says_so_first(tmp_path):
    shop = a_shop(tmp_path, dates__repaired=None)
    ran = labour(shop, "start", "26-0001", "short-block-replace", "--json")
    assert (ran.code, "prior approval" in ran.json["first"][0]) == (0, True)


def test_work_of_a_login_without_a_name_names_no_technician(shop):
    claimpack("labour", "add", "26-0001", "clean", "--hours", "1", folder=shop, environ={"CLAIMPACK_WHO": ""})
    assert kept_claim(shop).labour[-1].technician == ""


def test_a_clock_of_a_login_without_a_name_is_asked_whose_it_is(shop):
    ran = claimpack("labour", "start", "26-0001", "clean", folder=shop, environ={"CLAIMPACK_WHO": ""})
    assert (ran.code, "--technician" in ran.err, running(shop)) == (2, True, [])


def test_labour_may_name_its_class(shop):
    claimpack("labour", "add", "26-0001", "hone the bore", "--hours", "1.0", "--class", "engine", folder=shop)
    assert kept_claim(shop).labour[-1].class_ == "engine"


def test_how_to_begin_is_told_where_no_work_is_written_down_and_no_clock_runs(tmp_path):
    shop = a_shop(tmp_path, labour=[])
    assert "No labour yet" in labour(shop, "list", "26-0001").err
    labour(shop, "start", "26-0001", "clean")
    assert "No labour yet" not in labour(shop, "list", "26-0001").err
