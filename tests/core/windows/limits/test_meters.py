from decimal import Decimal

import pytest
from builders import a_claim, a_plan, a_window

from claimpack.core.verdict.coverage import judge
from claimpack.core.windows.limits.meters import others_left
from claimpack.core.windows.reasons import settled

CYCLES = {"limits": [{"meter": "cycles", "at": "5000"}]}
NO_HOURS = {"unit__hours": None, "unit__meter": None}


def window(claim, **changes):
    """The one window of a plan, judged."""
    return judge(claim, a_plan(window=[a_window(**changes)])).windows[0]


def read(*meters, **changes):
    return a_claim(unit__meters=list(meters), **changes)


def keys(judged, rule="meter"):
    return [reason.says.key for reason in judged.reasons if reason.rule == rule]


@pytest.mark.parametrize(
    ("meters", "key"),
    [
        ([{"kind": "Cycles", "value": "4999.9"}], "meter.inside"),
        ([{"kind": "cycles", "value": "5000"}], "meter.at-limit"),
        ([{"kind": "cycles", "value": "5000.1"}], "meter.outside"),
        ([{"kind": "cycles", "value": "1", "replaced_at": "5000"}], "meter.outside"),
        ([{"kind": "cycles", "fitted": False}], "meter.none"),
        ([{"kind": "miles", "value": "1"}], "meter.unknown"),
        ([], "meter.unknown"),
    ],
)
def test_a_meter_is_held_against_its_own_limit(meters, key):
    assert keys(window(read(*meters), **CYCLES)) == [key]


@pytest.mark.parametrize(("value", "fact"), [("4999.9", "left"), ("5000.1", "over")])
def test_what_is_left_to_a_limit_or_over_it_is_told(value, fact):
    (reason,) = [
        each for each in window(read({"kind": "cycles", "value": value}), **CYCLES).reasons if each.rule == "meter"
    ]
    assert reason.says.facts[fact] == "0.1"


@pytest.mark.parametrize(
    ("meters", "left"),
    [
        ([{"kind": "cycles", "value": "4990"}], [Decimal(10)]),
        ([{"kind": "cycles", "value": "5010"}], [Decimal(-10)]),
        ([{"kind": "cycles", "fitted": False}], []),
        ([], []),
    ],
    ids=["read", "over", "not fitted", "not told of"],
)
def test_what_is_left_of_a_limit_is_told_where_its_meter_is_read(meters, left):
    limits = a_plan(window=[a_window(**CYCLES)]).window[0].other_limits
    assert [each.left for each in others_left(read(*meters), limits)] == left


@pytest.mark.parametrize("kind", ["cycles", "hours"])
def test_what_a_replaced_meter_counts_is_told_with_what_it_is_the_sum_of(kind):
    meters = [{"kind": kind, "value": "12.0", "replaced_at": "830.5"}]
    judged = window(read(*meters, **NO_HOURS), limits=[{"meter": kind, "at": "900"}])
    assert "842.5 (12.0 + 830.5)" in judged.reasons[-1].says.facts.values()


def test_a_meter_that_is_not_told_of_is_asked_for():
    assert [reason.asks for reason in window(a_claim(), **CYCLES).reasons if reason.asks] == ["unit.meters"]


def test_a_limit_of_hours_may_stand_with_the_others():
    limits = [{"meter": "cycles", "at": "5000"}, {"meter": "hours", "at": "99"}]
    judged = window(read({"kind": "cycles", "value": "1"}), limits=limits)
    assert (keys(judged, "hours"), judged.hours_limit) == (["hours.outside"], 99)


@pytest.mark.parametrize("hours", ["899.9", "900"])
def test_one_end_that_is_past_speaks_against_nothing_while_another_is_not(hours):
    judged = window(a_claim(unit__hours=hours), period="P10M", hours=900, whichever="last")
    assert (judged.inside, keys(judged, "age")) == (True, ["last.age"])


def test_when_every_end_is_past_the_window_is_closed():
    judged = window(a_claim(unit__hours="900.1"), period="P10M", hours=900, whichever="last")
    assert (judged.inside, keys(judged, "age"), keys(judged, "hours")) == (False, ["age.outside"], ["hours.outside"])


def test_a_reading_that_may_keep_a_window_open_is_asked_for():
    judged = window(a_claim(**NO_HOURS), period="P10M", hours=900, whichever="last")
    assert (judged.inside, [reason.asks for reason in judged.reasons if reason.asks]) == (None, ["unit.hours"])


def test_no_reading_opens_a_window_before_its_start():
    plan = a_plan(window=[a_window(hours=900, whichever="last", start=["registered"])])
    assert judge(a_claim(dates__registered="2026-02-06"), plan).verdict == "not covered"


@pytest.mark.parametrize(("start", "inside"), [("delivered", True), ("invoiced", None)])
def test_a_reading_opens_a_window_whose_start_is_not_known_only_where_it_has_started(start, inside):
    days = {"dates__purchased": None, "dates__delivered": None, "unit__built": "2025-03-14"}
    judged = window(a_claim(**days), period="P10M", hours=900, whichever="last", start=[start])
    assert judged.inside is inside


@pytest.mark.parametrize(
    ("meters", "count"),
    [
        ([{"kind": "cycles", "value": "1"}], 1),
        ([{"kind": "cycles", "fitted": False}], 0),
        ([], 1),
    ],
    ids=["read", "not fitted", "not told of"],
)
def test_a_limit_counts_unless_the_unit_has_no_such_meter(meters, count):
    assert len(window(read(*meters), **CYCLES).limits) == count


def test_a_registration_that_is_a_condition_stays_one():
    judged = window(a_claim(), period="P10M", hours=900, whichever="last", registered_within="P30D")
    assert settled(judged.reasons) is None


def test_of_two_uses_one_waiting_for_the_last_is_certain_until_its_period_ends():
    windows = [
        a_window(uses=["household"], hours=50, whichever="last"),
        a_window(id="other", uses=["professional", "rental"], period="P24M"),
    ]
    found = judge(a_claim(unit__use=None), a_plan(window=windows))
    assert (found.verdict, str(found.window.ends), found.window.hours_limit) == ("covered", "2026-03-14", None)


def test_a_part_put_in_counts_the_meter_of_that_day():
    plan = a_plan(window=[a_window(**CYCLES)], replaced={"period": "P90D"})
    earlier = [{"component": "short block", "repaired": "2026-01-05"}]
    known = [{**earlier[0], "meters": [{"kind": "cycles", "value": "4000"}]}]
    now = {"unit__meters": [{"kind": "cycles", "value": "6000"}]}
    verdicts = [judge(a_claim(earlier=told, **now), plan).verdict for told in (earlier, known)]
    assert verdicts == ["undecided", "covered"]
