import datetime as dt

import pytest
from audits import WITHDRAWN, an_audited, found_by
from builders import a_plan

from claimpack.core.auditing.house import House
from claimpack.core.clauses.operations import Operation
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


@pytest.mark.parametrize(("technician", "who"), [("Ben", "Ben"), ("", "Somebody")])
def test_whoever_worked_when_it_was_shut_is_told_where_that_is_known(technician, who):
    shut = worked("2026-02-23T09:00", "2026-02-23T10:00", technician=technician)._replace(house=HOUSE)
    (found,) = found_by("work-when-shut", shut)
    assert found.says[0].facts["who"] == who


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
        yield worked("2026-02-24T09:00", ended.isoformat(), f"{who or 'nobody'}-{place}", technician=who)


BUSY = [27, 31, 33, 36, 38, 41, 44, 29, 35, 37, 42, 47]


def test_the_same_odd_figure_every_time_is_found():
    found = found_by("same-figure-every-time", *minutes(*[39] * 12), *minutes(*BUSY, who="Ida"))
    assert [each.evidence["minutes"] for each in found] == ["39"]


@pytest.mark.parametrize(("taken", "count"), [([39] * 7, 0), ([39] * 8, 1), ([39] * 7 + [41], 0), ([39] * 8 + [41], 1)])
def test_a_figure_is_told_from_eight_times_on(taken, count):
    assert len(found_by("same-figure-every-time", *minutes(*taken), *minutes(*BUSY, who="Ida"))) == count


def test_a_round_figure_of_somebody_who_reads_the_minutes_is_told():
    found = found_by("same-figure-every-time", *minutes(*[45] * 9, 33, 37, 52), *minutes(*BUSY, who="Ida"))
    assert [each.evidence["minutes"] for each in found] == ["45"]


@pytest.mark.parametrize(
    "claims",
    [[*minutes(*[39] * 12, who="")], [*minutes(*[30] * 12)]],
    ids=["nobody is named", "the schedule's own"],
)
def test_a_figure_that_nobody_measured_is_none(claims):
    assert not found_by("same-figure-every-time", *claims, *minutes(*BUSY, who="Ida"))


@pytest.mark.parametrize(("others", "count"), [(4, 1), (5, 0)], ids=["fewer", "half of them"])
def test_a_figure_that_half_of_the_others_have_too_is_none(others, count):
    ida, cora = minutes(*[39] * others, who="Ida"), minutes(27, 31, 33, 36, 38, 44, who="Cora")
    found = found_by("same-figure-every-time", *minutes(*[39] * 8), *ida, *[*cora][: 10 - others])
    assert len(found) == count


def test_a_clock_read_in_tens_gives_the_figure_that_others_times_are_rounded_to():
    others = [claim for who in ("Ida", "Cora", "Ana") for claim in minutes(*[45] * 5, who=who)]
    assert not found_by("same-figure-every-time", *minutes(*[40] * 11, 20), *others)


def test_a_clock_that_still_runs_gives_no_figure():
    running = [worked("2026-02-24T09:00", None, f"26-{place}") for place in range(8)]
    assert not found_by("same-figure-every-time", *running)


@pytest.mark.parametrize("change", [{"standing": WITHDRAWN}, {"plan": None}], ids=["withdrawn", "without a plan"])
def test_figures_of_claims_that_are_not_compared_are_no_pattern(change):
    claims = [each._replace(**change) for each in (*minutes(*[39] * 12), *minutes(*BUSY, who="Ida"))]
    assert not found_by("same-figure-every-time", *claims)


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


@pytest.mark.parametrize("change", [{"standing": WITHDRAWN}, {"plan": None}], ids=["withdrawn", "without a plan"])
def test_work_under_other_words_is_asked_about_under_a_plan_that_pays_alone(change):
    labour = [{"operation": "coil", "hours": "0.5"}, {"operation": "Spark and coil tested", "hours": "0.4"}]
    assert not found_by("included-by-another-name", an_audited(labour=labour)._replace(plan=PLAN)._replace(**change))


@pytest.mark.parametrize(
    ("words", "operation"),
    [("Spark and coil tested", ("spark-test", "Test spark and coil")), ("Carburettor cleaned", ("carburettor",) * 2)],
    ids=["by what it includes", "by its code, where it has no name"],
)
def test_work_under_other_words_is_told_with_the_operation_that_holds_it(words, operation):
    carburettor = Operation(code="carburettor", hours="0.7")
    plan = PLAN.model_copy(update={"operation": (*PLAN.operation, carburettor)})
    labour = [{"operation": code, "hours": "0.5"} for code in ("carburettor", "coil", words)]
    (found,) = found_by("included-by-another-name", an_audited(labour=labour)._replace(plan=plan))
    assert (found.evidence["operation"], found.says[0].facts["operation"]) == operation
