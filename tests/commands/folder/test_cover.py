import pytest
from running import claimpack

SAW = ("cover", "--maker", "halden", "--model", "CS-70", "--component", "short block", "--use", "professional")


def test_a_covered_unit_is_answered_in_one_line_first():
    ran = claimpack(*SAW, "--purchased", "2025-06-01", "--hours", "100")
    assert ran.out.startswith("COVERED  until 2026-06-01")


@pytest.mark.parametrize(
    ("presented", "code"), [("2026-06-01", 0), ("2026-06-02", 3)], ids=["the last day", "the day after"]
)
def test_the_exit_code_is_the_answer(presented, code):
    unit = ("--purchased", "2025-06-01", "--hours", "10", "--sold-in", "US-SC", "--never-registered")
    assert claimpack(*SAW, *unit, "--presented", presented).code == code


MOWER = ("cover", "--maker", "orrin & vale", "--model", "RM-42", "--component", "engine", "--use", "professional")


@pytest.mark.parametrize(("options", "code"), [(["--no-meter"], 0), (["--hours", "1"], 0), (["--hours", "5000"], 3)])
def test_a_limit_of_hours_is_asked_of_the_meter_that_a_unit_has(options, code):
    assert claimpack(*MOWER, "--purchased", "2025-06-01", *options).code == code


@pytest.mark.parametrize(("options", "code"), [([], 0), (["--second-owner"], 3), (["--resold", "2026-02-05"], 3)])
def test_cover_of_the_first_owner_alone_is_for_one_who_is_not_said_to_be_another(options, code):
    saw = ("cover", "--maker", "halden", "--model", "CS-70", "--component", "muffler", "--use", "rental")
    assert claimpack(*saw, "--purchased", "2026-02-01", "--hours", "5", *options).code == code


def test_the_counter_is_told_why_a_window_does_not_apply():
    saw = ("cover", "--maker", "halden", "--model", "CS-70", "--component", "muffler", "--use", "rental")
    told = claimpack(*saw, "--purchased", "2026-02-01", "--hours", "5", "--second-owner").out
    assert "Windows that do not apply" in told


def test_a_use_that_is_not_said_is_no_unknown_one(tmp_path):
    ran = claimpack(*SAW[:-2], "--purchased", "2025-06-01", "--hours", "10", folder=tmp_path)
    assert ran.code in (0, 4)


def test_a_missing_reading_is_named():
    mower = ("--maker", "orrin & vale", "--model", "RM-42", "--component", "engine", "--use", "professional")
    ran = claimpack("cover", *mower, "--purchased", "2025-06-01")
    assert (ran.code, "hour-meter reading" in ran.out) == (4, True)


def test_a_unit_without_a_meter_is_judged_by_age():
    assert claimpack(*SAW, "--purchased", "2025-06-01", "--no-meter").code == 0


def test_scripts_read_the_same_keys_as_from_check():
    answer = claimpack(*SAW, "--purchased", "2025-06-01", "--hours", "10", "--json").json
    assert {"verdict", "window", "starts", "ends", "days_left", "hours_left", "windows", "reasons"} <= answer.keys()


def test_an_unknown_maker_suggests_the_nearest():
    ran = claimpack("cover", "--maker", "Hallden", "--model", "CS-70", "--component", "x", "--purchased", "2025-06-01")
    assert "halden" in ran.out


def test_a_date_that_is_none_is_refused():
    ran = claimpack(*SAW, "--purchased", "06/01/2025")
    assert (ran.code, ran.out, "--purchased" in ran.err) == (2, "", True)


def test_dates_that_cannot_follow_are_refused():
    ran = claimpack(*SAW, "--purchased", "2026-02-01", "--failed", "2026-01-01")
    assert (ran.code, "is before" in ran.err) == (2, True)


TERMS = """
format = 1
id = "own"
maker = "m"
currency = "USD"
start_stock = ["invoiced"]
window = [ {id = "unit", covers = ["*"], period = "P2Y", owners = {transfer_within = "P30D", then = "P6M"}} ]
"""


@pytest.mark.parametrize(
    ("options", "says"),
    [
        (("--purchased", "2025-01-10", "--resold", "2025-10-01", "--transferred", "2025-10-31"), "until 2026-04-01"),
        (("--case", "stock", "--invoiced", "2025-02-01"), "until 2027-02-01"),
    ],
    ids=["a second owner", "in stock"],
)
def test_what_is_said_of_a_second_owner_or_of_stock_counts(tmp_path, options, says):
    (tmp_path / "own.toml").write_text(TERMS)
    ran = claimpack("cover", "--maker", "m", "--model", "A", "--component", "x", *options, "--plans", tmp_path)
    assert says in ran.out


def test_a_case_that_goes_by_more_is_left_to_open():
    ran = claimpack(*SAW, "--case", "part")
    assert (ran.code, "claimpack open" in ran.err) == (2, True)


def test_a_missing_option_is_a_usage_error():
    assert claimpack("cover", "--maker", "halden").code == 2


def test_a_reading_of_a_unit_without_a_meter_is_refused():
    ran = claimpack(*SAW, "--purchased", "2025-06-01", "--no-meter", "--hours", "350")
    assert (ran.code, "contradict each other" in ran.err) == (2, True)


def test_an_unknown_use_is_refused_in_plain_words():
    ran = claimpack(*SAW[:-1], "houshold")
    assert (ran.code, "--use: 'houshold' is no use" in ran.err) == (2, True)


def test_a_unit_s_model_year_and_serial_number_may_be_told(tmp_path):
    keys = 'id = "own"\nmaker = "zork"\ncurrency = "USD"\nmodel_years = [2024, 2025]\nserials = ["Z-1 .. Z-9"]\n'
    (tmp_path / "own.toml").write_text(f'{keys}[[window]]\nid = "all"\ncovers = ["*"]\nperiod = "P1Y"\n')
    unit = ("--maker", "zork", "--model", "Z", "--component", "blade", "--purchased", "2025-06-01", "--plans", tmp_path)
    asked = ("--model-year", "2025", "--serial")
    assert [claimpack("cover", *unit, *asked, f"Z-{number}").code for number in (9, 10)] == [0, 4]


def test_a_reading_of_any_meter_may_be_told(tmp_path):
    keys = 'id = "own"\nmaker = "zork"\ncurrency = "USD"\n[[window]]\nid = "all"\ncovers = ["*"]\nperiod = "P1Y"\n'
    (tmp_path / "own.toml").write_text(f'{keys}limits = [ {{meter = "cycles", at = "5000"}} ]\n')
    unit = ("--maker", "zork", "--model", "Z", "--component", "blade", "--purchased", "2025-06-01", "--plans", tmp_path)
    told = ("cycles=5000", "cycles=5001", "cycles=none", "shots=1", "cycles")
    assert [claimpack("cover", *unit, "--meter", each).code for each in told] == [0, 3, 0, 4, 2]


def test_without_a_plan_it_says_where_plans_are_listed():
    ran = claimpack("cover", "--maker", "zork", "--model", "1", "--component", "engine")
    assert (ran.code, "claimpack plan list" in ran.err) == (4, True)


@pytest.mark.parametrize(
    ("more", "says"),
    [
        (("--failed", "2025-01-01"), "cover: --failed 2025-01-01 is before --purchased 2025-06-01"),
        (
            ("--built", "2026-01-01", "--delivered", "2025-06-01"),
            "--built 2026-01-01 is after --delivered 2025-06-01",
        ),
        (("--hours", "lots"), "cover: --hours: 'lots' is not a decimal number"),
        (("--presented", "3000-01-01"), "--presented: 3000-01-01 is outside the years"),
        (("--registered", "2025-07-01", "--never-registered"), "--never-registered is true, but --registered is"),
    ],
)
def test_values_that_have_no_meaning_are_told_by_their_options(more, says):
    ran = claimpack(*SAW, "--purchased", "2025-06-01", *more)
    assert (ran.code, says in ran.err) == (2, True)


def test_a_day_nobody_gave_is_not_named_as_an_option(tmp_path):
    options = ("--maker", "halden", "--model", "CS-70", "--component", "engine", "--purchased", "2027-01-01")
    ran = claimpack("cover", *options, folder=tmp_path)
    assert (ran.code, "today, 2026-03-01 is before --purchased 2027-01-01" in ran.err) == (2, True)
    assert ("--presented" in ran.err, "written" in ran.err) == (False, False)


def test_a_number_is_no_component(tmp_path):
    ran = claimpack("cover", "--maker", "halden", "--model", "CS-70", "--component", "42", folder=tmp_path)
    assert (ran.code, "--component: '42' is no component" in ran.err) == (2, True)


def test_a_day_of_registration_still_to_come_is_refused_and_decides_nothing():
    ran = claimpack(*SAW, "--purchased", "2025-06-01", "--registered", "2027-06-05", "--hours", "10")
    assert (ran.code, "--registered" in ran.err) == (2, True)
