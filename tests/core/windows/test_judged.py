import pytest

from claimpack.core.windows.judged import WindowJudgement, facts_that_decide
from claimpack.core.windows.reasons import passes, unknown


def window(applies=True, inside=True, **keys):
    return WindowJudgement(id="w", applies=applies, inside=inside, **{"starts": None, "ends": None, **keys})


START = unknown("start", "dates.delivered", "start.unknown")
EVENT = unknown("event", "dates.failed", "event.unknown")
AGE = unknown("age", "dates.in_service", "age.start-unknown")
USE = unknown("use", "unit.use", "use.unknown")


@pytest.mark.parametrize(
    ("applies", "inside", "holds"),
    [
        (True, True, True),
        (True, False, False),
        (False, True, False),
        (False, None, False),
        (None, False, False),
        (None, True, None),
        (True, None, None),
        (None, None, None),
    ],
)
def test_a_window_holds_where_it_applies_and_is_open(applies, inside, holds):
    assert window(applies, inside).holds is holds


@pytest.mark.parametrize(("name", "title"), [("", "w"), ("whole unit", "whole unit")])
def test_a_window_is_called_by_its_name(name, title):
    assert window(name=name).title == title


def test_a_closed_window_asks_for_nothing():
    assert facts_that_decide([window(applies=False, reasons=(USE,))], []) == ()


def test_an_open_question_asks_once():
    assert facts_that_decide([window(None, reasons=(USE,)), window(None, reasons=(USE,))], []) == ("unit.use",)


@pytest.mark.parametrize("common", [START, EVENT])
def test_start_and_event_are_asked_for_only_where_a_window_waits_for_them(common):
    assert facts_that_decide([window(inside=None, reasons=(AGE,))], [common]) == ("dates.in_service",)


def test_a_plan_that_is_not_found_is_asked_for():
    assert facts_that_decide([], [unknown("plan", "plan", "plan.none")]) == ("plan",)


def test_what_is_known_is_not_asked_for():
    assert facts_that_decide([window(None, reasons=(passes("use", "use.fits"),))], []) == ()
