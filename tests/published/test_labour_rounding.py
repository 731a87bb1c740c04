"""Labour-time rows: minutes on the clock as hours of a claim."""

from datetime import datetime, timedelta
from decimal import ROUND_HALF_EVEN, Decimal

import pytest
from builders import a_claim, a_plan

from claimpack.core.facts.lines import Labour
from claimpack.core.pricing.labour import clocked, labour_times
from claimpack.core.pricing.pricing import price
from claimpack.core.values.money import to_step

START = datetime(2026, 2, 24, 9, 0)  # noqa: DTZ001

# minutes; to a tenth nearest and up, to a hundredth, to a quarter
MINUTES = {
    "H1": (1, "0.0", "0.1", "0.02", "0.00"),
    "H2": (3, "0.1", "0.1", "0.05", "0.00"),
    "H3": (9, "0.2", "0.2", "0.15", "0.25"),
    "H4": (20, "0.3", "0.4", "0.33", "0.25"),
    "H5": (44, "0.7", "0.8", "0.73", "0.75"),
    "H6": (50, "0.8", "0.9", "0.83", "0.75"),
    "H7": (57, "1.0", "1.0", "0.95", "1.00"),
    "H8": (75, "1.3", "1.3", "1.25", "1.25"),
    "H9": (95, "1.6", "1.6", "1.58", "1.50"),
}


def work(minutes):
    """Free-text work of so many minutes, by the clock."""
    return {"operation": "clean", "started": START, "ended": START + timedelta(minutes=minutes)}


def claimed(*minutes, step="0.1", way="nearest"):
    """The hours claimed for each piece of work."""
    plan = a_plan(pays__labour_step=step, pays__labour_rounding=way)
    return [time.claimed for time in labour_times(a_claim(labour=[work(count) for count in minutes]), plan)]


@pytest.mark.practice
@pytest.mark.parametrize(
    ("minutes", "hours"),
    [(row[0], row[1:]) for row in MINUTES.values()],
    ids=MINUTES,
)
def test_minutes_on_the_clock_are_claimed_in_the_plans_steps(minutes, hours):
    ways = [("0.1", "nearest"), ("0.1", "up"), ("0.01", "nearest"), ("0.25", "nearest")]
    assert [claimed(minutes, step=step, way=way)[0] for step, way in ways] == [Decimal(hour) for hour in hours]


@pytest.mark.practice
@pytest.mark.parametrize("tenths", range(11))
def test_six_minutes_are_a_tenth_of_an_hour(tenths):
    """H1-H9: 6 minutes are 0.1 h, 60 are 1.0 h, whichever way is rounded."""
    assert {claimed(6 * tenths, way=way)[0] for way in ("nearest", "up", "down")} == {Decimal(tenths) / 10}


@pytest.mark.source("29 CFR 785.48(b): H20, the nearest tenth or quarter averages out")
@pytest.mark.parametrize(("step", "minutes"), [("0.1", 6), ("0.25", 15)])
def test_rounding_to_the_nearest_averages_out(step, minutes):
    strays = [claimed(minute, step=step)[0] * 60 - minute for minute in range(1, minutes * 20)]
    assert abs(sum(strays) / len(strays)) < Decimal("0.6")


@pytest.mark.source("arithmetic: H21")
def test_rounding_up_pays_a_tenth_for_every_minute_begun():
    assert claimed(*range(1, 7), way="up") == [Decimal("0.1")] * 6


@pytest.mark.source("arithmetic: H21")
def test_rounding_to_the_nearest_pays_nothing_for_two_minutes():
    assert claimed(*range(1, 9)) == [Decimal(0)] * 2 + [Decimal("0.1")] * 6


@pytest.mark.source("arithmetic: H22, the choice here is to round each line and then add")
def test_each_line_is_rounded_and_then_added():
    assert sum(claimed(20, 20, 20)) == Decimal("0.9")


@pytest.mark.practice
@pytest.mark.parametrize(("seconds", "hours"), [(449, "0"), (450, "0.25"), (451, "0.25")])
def test_seven_and_a_half_minutes_are_the_middle_of_a_quarter(seconds, hours):
    """H23."""
    entry = Labour(operation="clean", started=START, ended=START + timedelta(seconds=seconds))
    assert to_step(clocked(entry), Decimal("0.25"), "nearest") == Decimal(hours)


@pytest.mark.source("python decimal: H24, half up and not half even")
def test_an_hour_price_on_the_half_cent_is_rounded_up():
    plan = a_plan(pays__labour_rate="87.35")
    priced = price(a_claim(labour=[{"operation": "clean", "hours": "0.7"}]), plan)
    exact = Decimal("0.7") * Decimal("87.35")
    assert (priced.amounts.labour, exact.quantize(Decimal("0.01"), ROUND_HALF_EVEN)) == (
        Decimal("61.15"),
        Decimal("61.14"),
    )
