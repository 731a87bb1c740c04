from decimal import Decimal

import pytest
from builders import a_claim, a_plan

from claimpack.core.facts.lines import Labour
from claimpack.core.pricing.labour import clocked, hardly_worked, labour_times, operation_meant

SCHEDULE = [
    {"code": "short-block", "name": "Replace short block", "hours": "1.6", "includes": ["starter"]},
    {"code": "starter", "name": "Replace starter", "hours": "0.4"},
]


def times(*labour, **pays):
    """Every labour entry of a claim under a plan with two operations."""
    claim = a_claim(labour=[{"operation": "short-block", **entry} for entry in labour])
    return labour_times(claim, a_plan(operation=SCHEDULE, **{f"pays__{key}": said for key, said in pays.items()}))


def claimed(*labour, **pays):
    """The hours claimed for every entry."""
    return [str(time.claimed) for time in times(*labour, **pays)]


@pytest.mark.parametrize(
    ("entry", "hours"),
    [
        ({"hours": "1.25"}, Decimal("1.25")),
        ({"started": "2026-02-24T09:00:00", "ended": "2026-02-24T10:30:00"}, Decimal("1.5")),
        ({"started": "2026-02-24T09:00:00-05:00", "ended": "2026-02-24T15:30:00Z"}, Decimal("1.5")),
        ({"started": "2026-02-24T09:00:00", "ended": "2026-02-24T09:00:00"}, Decimal(0)),
        ({"hours": "1", "started": "2026-02-24T09:00:00", "ended": "2026-02-24T11:00:00"}, Decimal(1)),
        ({"started": "2026-02-24T09:00:00"}, None),
        ({}, None),
    ],
    ids=["stated", "by the clock", "across time zones", "no time at all", "stated wins", "still running", "nothing"],
)
def test_hours_are_as_stated_or_by_the_clock(entry, hours):
    assert clocked(Labour(operation="x", **entry)) == hours


@pytest.mark.parametrize("hours", ["0.5", "1.6", "3", None])
def test_a_known_operation_is_claimed_at_the_schedule(hours):
    assert claimed({"hours": hours}) == ["1.6"]


@pytest.mark.parametrize(("hours", "expected"), [("1.5", "1.5"), ("1.6", "1.6"), ("1.7", "1.6"), (None, "1.6")])
def test_the_lower_of_schedule_and_clock(hours, expected):
    assert claimed({"hours": hours}, claim_time="lower") == [expected]


@pytest.mark.parametrize(("hours", "expected"), [("1.5", "1.5"), ("3", "3.0"), (None, "0.0")])
def test_the_clock_where_the_plan_pays_the_clock(hours, expected):
    assert claimed({"hours": hours}, claim_time="actual") == [expected]


@pytest.mark.parametrize(
    ("way", "hours", "expected"),
    [
        ("schedule", ["1", "0.8"], ["1.6", "0.0"]),
        ("lower", ["1", "0.8"], ["1.0", "0.6"]),
        ("lower", ["1", "0.4"], ["1.0", "0.4"]),
        ("lower", ["2", "1"], ["1.6", "0.0"]),
        ("actual", ["1", "0.8"], ["1.0", "0.8"]),
        ("actual", ["2", "1"], ["2.0", "1.0"]),
    ],
)
def test_an_operation_done_in_two_sittings(way, hours, expected):
    assert [Decimal(line) for line in claimed(*({"hours": h} for h in hours), claim_time=way)] == [
        Decimal(line) for line in expected
    ]


@pytest.mark.parametrize(
    ("way", "worked", "keys"),
    [
        ("schedule", ["1", "0.8"], ["price.schedule-stated", "price.once"]),
        ("lower", ["1.6", "1"], ["price.schedule-stated", "price.once"]),
        ("lower", ["1.5", "1"], ["price.schedule-stated", "price.schedule-stated"]),
        ("actual", ["2", "1"], ["price.schedule-stated", "price.schedule-stated"]),
    ],
)
def test_an_operation_whose_hours_are_claimed_says_of_the_next_sitting_that_it_is_claimed_once(way, worked, keys):
    assert [time.notes[0].key for time in times(*({"hours": hours} for hours in worked), claim_time=way)] == keys


def test_an_operation_whose_hours_were_rounded_down_is_claimed_once_all_the_same():
    second = times({}, {}, labour_step="0.25", labour_rounding="down")[1]
    assert (second.claimed, second.notes[0].key) == (0, "price.once")


def test_an_operation_is_claimed_from_the_maker_before_anybody_else():
    assert [Decimal(line) for line in claimed({"payer": "owner"}, {"payer": "maker"})] == [0, Decimal("1.6")]


@pytest.mark.parametrize("spelled", ["starter", "Starter"])
def test_an_operation_that_another_includes_is_claimed_at_nothing(spelled):
    starter = times({}, {"operation": spelled})[1]
    assert (starter.claimed, starter.notes[0].key) == (0, "price.included")


def test_what_includes_an_operation_is_told_by_its_name():
    assert times({}, {"operation": "starter"})[1].notes[0].facts["operation"] == "Replace short block"


def test_an_operation_without_a_name_is_told_by_its_code():
    schedule = [{"code": "short-block", "hours": "1.6", "includes": ["starter"]}]
    claim = a_claim(labour=[{"operation": "short-block"}, {"operation": "starter"}])
    found = labour_times(claim, a_plan(operation=schedule))
    assert (found[0].name, found[1].notes[0].facts["operation"]) == ("short-block", "short-block")


def test_an_operation_is_told_by_its_name_in_the_schedule():
    assert times({"operation": "Short-Block"})[0].name == "Replace short block"


def test_an_operation_included_in_goodwill_is_still_claimed():
    assert claimed({"payer": "shop"}, {"operation": "starter"})[1] == "0.4"


def test_free_text_is_claimed_at_its_own_time():
    free = times({"operation": "clean carburettor", "hours": "0.33"})[0]
    assert (free.claimed, free.schedule, free.notes[0].key) == (Decimal("0.3"), None, "price.stated")


def test_free_text_by_the_clock_says_so():
    entry = {"operation": "clean", "started": "2026-02-24T09:00:00", "ended": "2026-02-24T09:20:00"}
    assert (times(entry)[0].clocked, times(entry)[0].notes[0].key) == (Decimal("0.33"), "price.clocked")


@pytest.mark.parametrize(
    ("entry", "note"),
    [
        ({"hours": "1.6"}, "price.schedule-stated"),
        ({"started": "2026-02-24T09:00:00", "ended": "2026-02-24T10:00:00"}, "price.schedule-clock"),
    ],
)
def test_hours_that_were_typed_are_not_told_as_those_of_a_clock(entry, note):
    assert times(entry)[0].notes[0].key == note


def test_free_text_without_a_time_is_claimed_at_nothing():
    assert times({"operation": "clean"})[0].notes[0].key == "price.no-time"


@pytest.mark.parametrize(
    ("hours", "key"),
    [
        (None, "price.schedule"),
        ("1.5", "price.schedule-stated"),
        ("1.6", "price.schedule-stated"),
        ("1.7", "price.beyond"),
    ],
)
def test_the_time_worked_is_shown_beside_the_schedule(hours, key):
    assert times({"hours": hours})[0].notes[0].key == key


def test_hours_beyond_the_schedule_are_told_even_where_rounding_adds_some():
    assert times({"hours": "2"}, labour_step="0.25", labour_rounding="up")[0].notes[0].facts["beyond"] == "0.40"


@pytest.mark.parametrize(("way", "expected"), [("nearest", "1.50"), ("up", "1.75"), ("down", "1.50")])
def test_hours_go_to_the_plans_step(way, expected):
    assert claimed({}, labour_step="0.25", labour_rounding=way) == [expected]


def test_entries_stay_in_the_claims_order():
    labour = [{"payer": "shop", "operation": "a"}, {"operation": "b"}]
    assert [time.name for time in times(*labour)] == ["a", "b"]


@pytest.mark.parametrize(
    ("labour", "way", "found"),
    [
        ([{"hours": "0.15"}], "schedule", ["0.15"]),
        ([{"hours": "0.16"}], "schedule", []),
        ([{"hours": "0"}], "schedule", ["0.00"]),
        ([{"hours": "0"}, {"hours": "1.2"}], "schedule", []),
        ([{"hours": "0.05"}, {"hours": "0.05"}], "schedule", ["0.10"]),
        ([{"hours": "0"}, {}], "schedule", []),
        ([{}], "schedule", []),
        ([{"hours": "0", "payer": "shop"}], "schedule", []),
        ([{"hours": "0", "operation": "free words"}], "schedule", []),
        ([{"hours": "0"}], "actual", []),
        ([{"hours": "0"}], "lower", []),
    ],
)
def test_less_than_a_tenth_of_the_schedule_is_hardly_worked(labour, way, found):
    claim = a_claim(labour=[{"operation": "short-block", **entry} for entry in labour])
    plan = a_plan(operation=SCHEDULE, pays__claim_time=way)
    assert [str(each.worked) for each in hardly_worked(claim, plan)] == found


def test_an_operation_that_another_includes_claims_nothing_to_look_at():
    claim = a_claim(labour=[{"operation": "short-block", "hours": "1.6"}, {"operation": "starter", "hours": "0"}])
    assert hardly_worked(claim, a_plan(operation=SCHEDULE)) == ()


EACH_OTHER = [
    {"code": "engine-out", "hours": "1.6", "includes": ["muffler"]},
    {"code": "muffler", "hours": "2.4", "includes": ["engine-out"]},
    {"code": "recoil", "hours": "0.3", "includes": ["recoil"]},
]


def claimed_of(schedule, *operations):
    """The hours claimed for entries of 1.6 h of these operations, under a plan with that schedule."""
    claim = a_claim(labour=[{"operation": operation, "hours": "1.6"} for operation in operations])
    return [str(time.claimed) for time in labour_times(claim, a_plan(operation=schedule))]


@pytest.mark.parametrize("spelled", ["tear down", "Tear-Down"])
def test_an_operation_included_by_name_alone_is_claimed_at_nothing(spelled):
    schedule = [{"code": "short-block", "hours": "2.0", "includes": ["tear down"]}]
    assert claimed_of(schedule, "short-block", spelled) == ["2.0", "0"]


def test_an_operation_included_by_name_alone_is_claimed_where_the_other_one_is_not():
    assert claimed_of([{"code": "short-block", "hours": "2.0", "includes": ["tear down"]}], "tear down") == ["1.6"]


@pytest.mark.parametrize(
    ("operations", "hours"),
    [
        (["engine-out", "muffler"], ["0", "2.4"]),
        (["muffler", "engine-out"], ["2.4", "0"]),
        (["engine-out"], ["1.6"]),
        (["recoil"], ["0.3"]),
    ],
)
def test_of_operations_that_include_each_other_the_longer_one_is_claimed(operations, hours):
    assert [Decimal(line) for line in claimed_of(EACH_OTHER, *operations)] == [Decimal(line) for line in hours]


def test_of_a_circle_of_operations_of_equal_hours_the_plans_first_is_claimed():
    circle = [{"code": code, "hours": "1", "includes": [other]} for code, other in ("ab", "bc", "ca")]
    assert [Decimal(line) for line in claimed_of(circle, "c", "b", "a")] == [0, 0, 1]


def test_an_operation_the_plan_pays_by_the_clock_says_that_it_has_no_time():
    assert times({}, claim_time="actual")[0].notes[0].key == "price.no-time"


@pytest.mark.parametrize(("hours", "told"), [("0.25", ["0.3", "0.1"]), ("0.3", [])])
def test_hours_that_were_rounded_say_so(hours, told):
    facts = [
        note.facts for note in times({"operation": "clean", "hours": hours})[0].notes if note.key == "price.rounded"
    ]
    assert [value for each in facts for value in (each["claimed"], each["step"])] == told


@pytest.mark.parametrize("said", ["short-block", "Short Block"])
def test_an_operation_of_the_schedule_is_written_down_as_the_schedule_writes_it(said):
    assert operation_meant(said, a_plan(operation=SCHEDULE)) == ("short-block", "")


@pytest.mark.parametrize(
    ("said", "code"),
    [("shortt-block", "short-block"), ("Replace startr", "starter")],
    ids=["a code mistyped", "a name mistyped"],
)
def test_work_that_is_nearly_an_operation_is_kept_in_its_words_and_the_code_suggested(said, code):
    kept, note = operation_meant(said, a_plan(operation=SCHEDULE))
    assert (kept, note.endswith(f" {code}?")) == (said, True)


def test_work_like_none_of_the_operations_is_kept_in_its_words_and_no_code_suggested():
    kept, note = operation_meant("polish the handle", a_plan(operation=SCHEDULE))
    assert (kept, "?" in note) == ("polish the handle", False)


@pytest.mark.parametrize("plan", [None, a_plan()], ids=["no plan", "a plan without a schedule"])
def test_work_is_kept_in_its_words_without_a_remark_where_there_is_no_schedule(plan):
    assert operation_meant("polish the handle", plan) == ("polish the handle", "")
