import datetime as dt

import pytest
from audits import an_audited, found_by
from builders import a_plan

from claimpack.core.auditing.house import House
from claimpack.core.values.opening_hours import opening

PLAN = a_plan(
    operation=[
        {"code": "coil", "name": "Replace ignition coil", "hours": "0.5", "includes": ["spark-test"]},
        {"code": "spark-test", "name": "Test spark and coil", "hours": "0.3"},
    ]
)
HOUSE = House(opening({"tue": "08:00-17:30"}), frozenset({dt.date(2026, 2, 10)}))


def worked(started, ended, number="26-0001", **entry):
    labour = [{"operation": "coil", "started": started, "ended": ended, "technician": "Ben", **entry}]
    return an_audited(number, number, labour=labour)._replace(plan=PLAN)


@pytest.mark.parametrize(
    ("started", "ended", "count"),
    [
        ("2026-02-24T07:30", "2026-02-24T09:00", 0),
        ("2026-02-24T07:29", "2026-02-24T09:00", 1),
        ("2026-02-24T17:00", "2026-02-24T18:30", 0),
        ("2026-02-24T17:00", "2026-02-24T18:31", 1),
        ("2026-02-24T17:59", "2026-02-24T18:10", 0),
        ("2026-02-24T18:00", "2026-02-24T18:10", 1),
        ("2026-02-23T09:00", "2026-02-23T10:00", 1),
        ("2026-02-10T09:00", "2026-02-10T10:00", 1),
    ],
    ids=[
        "half an hour early",
        "earlier",
        "an hour late",
        "later",
        "begun late",
        "begun later",
        "a shut day",
        "a holiday",
    ],
)
def test_work_is_done_when_the_shop_is_open(started, ended, count):
    assert len(found_by("work-when-shut", worked(started, ended)._replace(house=HOUSE))) == count


def test_of_a_clock_that_still_runs_no_end_is_told():
    (found,) = found_by("work-when-shut", worked("2026-02-23T09:00", None)._replace(house=HOUSE))
    assert found.says[0].key == "work-when-shut.still-on"


def test_a_clock_that_ran_into_another_day_is_told_with_that_day():
    (found,) = found_by("work-when-shut", worked("2026-02-24T09:00", "2026-02-25T08:30")._replace(house=HOUSE))
    assert found.says[0].facts["ended"] == "2026-02-25 08:30"


def test_a_shop_that_does_not_tell_its_hours_is_never_shut():
    assert not found_by("work-when-shut", worked("2026-02-22T23:00", "2026-02-23T01:00"))


@pytest.mark.parametrize(
    ("day", "count"),
    [("2026-02-04", 1), ("2026-02-05", 0), ("2026-02-24", 0), ("2026-02-25", 1)],
    ids=["before it came", "that day", "the day of the repair", "after it"],
)
def test_work_is_done_while_the_unit_is_there(day, count):
    assert len(found_by("work-outside-visit", worked(f"{day}T09:00", f"{day}T10:00"))) == count


def minutes(*taken, who="Ben"):
    for place, length in enumerate(taken):
        ended = dt.datetime.fromisoformat("2026-02-24T09:00") + dt.timedelta(minutes=length)
        yield worked("2026-02-24T09:00", ended.isoformat(), f"{who}-{place}", technician=who)


BUSY = [27, 31, 33, 36, 38, 41, 44, 29, 35, 37, 42, 47]


def test_the_same_odd_figure_every_time_is_found():
    found = found_by("same-figure-every-time", *minutes(*[39] * 12), *minutes(*BUSY, who="Ida"))
    assert [each.evidence["minutes"] for each in found] == ["39"]


def test_a_figure_that_stands_twice_on_a_claim_counts_as_often_as_it_stands_there():
    twice = [each.claim.model_copy(update={"labour": each.claim.labour * 2}) for each in minutes(*[39] * 6)]
    claims = [each._replace(claim=claim) for each, claim in zip(minutes(*[39] * 6), twice, strict=True)]
    (found,) = found_by("same-figure-every-time", *claims, *minutes(*BUSY, who="Ida"))
    assert "12 times of 12" in found.said


def test_a_clock_read_in_quarters_of_an_hour_gives_few_figures():
    assert not found_by("same-figure-every-time", *minutes(*[45] * 9, 15, 60, 75), *minutes(*BUSY, who="Ida"))


def test_a_figure_that_everybody_has_is_that_of_the_job():
    assert not found_by("same-figure-every-time", *minutes(*[39] * 12), *minutes(*[39] * 12, who="Ida"))


@pytest.mark.parametrize(
    ("words", "count"), [("Spark and coil tested", 1), ("Fitted the coil once more", 1), ("Steam cleaned", 0)]
)
def test_work_that_another_operation_holds_is_found_under_other_words(words, count):
    labour = [{"operation": "coil", "hours": "0.5"}, {"operation": words, "hours": "0.4"}]
    claim = an_audited(labour=labour)._replace(plan=PLAN)
    assert len(found_by("included-by-another-name", claim)) == count
