from datetime import date, datetime

import pytest
from builders import a_claim

from claimpack.core.claims.claim import Claim
from claimpack.core.claims.days_ahead import (
    DayAhead,
    as_known_on,
    days_ahead,
    new_days_ahead,
    refuse_days_ahead,
    written_days_ahead,
)
from claimpack.core.claims.editing.key_paths import every_key
from claimpack.core.facts.keys import keys_of
from claimpack.errors import BadInput

REPAIRED = date(2026, 2, 24)
EARLY = date(2000, 1, 1)


def keys(claim, today=EARLY):
    return [day.key for day in days_ahead(claim, today)]


def with_every_day():
    """A claim that says every day a claim can say."""
    return a_claim(
        unit__built="2025-01-02",
        unit__invoiced="2025-01-09",
        owner__first_owner=False,
        dates__in_service="2025-03-14",
        dates__registered="2025-03-15",
        dates__resold="2025-07-20",
        dates__transferred="2025-08-01",
        dates__returned="2026-02-26",
        approval={"on": "2026-02-10"},
        labour=[{"operation": "clean", "started": "2026-02-24T09:00:00", "ended": "2026-02-24T10:00:00"}],
        held=[{"part": "coil", "since": "2026-02-24"}],
        parts=[{"name": "starter", "core_returned": "2026-02-26"}],
        papers=[{"file": "papers/service.pdf", "on": "2025-06-01"}],
        earlier=[
            {
                "component": "coil",
                "repaired": "2025-09-01",
                "presented": "2025-08-20",
                "returned": "2025-09-03",
                "told": "2025-09-09",
            }
        ],
    )


def test_every_key_of_a_claim_that_holds_a_day_is_looked_at():
    dated = [key for key in every_key(Claim) if isinstance(_value(with_every_day(), key), date)]
    assert keys(with_every_day()) == dated


def _value(record, key):
    for step in key.replace("failure[2]", "failure.also[1]").replace("[1]", ".0").split("."):
        if record is None or (step == "0" and not record):
            return None
        record = record[0] if step == "0" else getattr(record, keys_of(type(record))[step])
    return record


@pytest.mark.parametrize(
    ("today", "ahead"),
    [(date(2026, 2, 23), ["dates.repaired"]), (REPAIRED, []), (date(2026, 2, 25), [])],
    ids=["the day before", "the day", "the day after"],
)
def test_a_day_lies_ahead_until_it_has_come(today, ahead):
    assert keys(a_claim(), today) == ahead


def test_the_time_of_day_does_not_count():
    late = [{"operation": "clean", "started": "2026-02-24T23:00:00", "ended": "2026-02-24T23:59:00"}]
    assert days_ahead(a_claim(labour=late), REPAIRED) == ()


def test_the_role_of_a_day_leaves_its_place_out():
    late = [{"operation": "a", "hours": "1"}, {"operation": "b", "started": datetime(2026, 3, 1, 9, 0)}]  # noqa: DTZ001
    (found,) = days_ahead(a_claim(labour=late), REPAIRED)
    assert (found.key, found.role, found.on) == ("labour[2].started", "labour.started", date(2026, 3, 1))


@pytest.mark.parametrize(
    ("today", "known"),
    [(date(2026, 2, 23), False), (REPAIRED, True), (date(2026, 2, 25), True)],
    ids=["the day before", "the day", "the day after"],
)
def test_a_day_decides_something_once_it_has_come(today, known):
    assert (as_known_on(a_claim(), today).dates.repaired == REPAIRED) is known


def test_what_was_known_when_it_came_in_may_be_asked_before():
    claim = as_known_on(a_claim(unit__invoiced="2025-03-01"), date(2025, 1, 1))
    assert (claim.dates.failed, claim.dates.presented) == (date(2026, 2, 2), date(2026, 2, 5))
    assert (claim.unit.invoiced, claim.dates.repaired) == (date(2025, 3, 1), None)


@pytest.mark.parametrize(
    ("invoiced", "known"), [("2026-02-05", True), ("2026-02-06", False)], ids=["the day", "the day after"]
)
def test_an_invoice_still_to_come_decides_nothing(invoiced, known):
    claim = as_known_on(a_claim(unit__invoiced=invoiced), date(2026, 2, 5))
    assert (claim.unit.invoiced == date.fromisoformat(invoiced)) is known


SOON = date(2026, 2, 20)
COIL, BLOCK = {"part": "coil", "since": "2026-02-24"}, {"part": "block", "since": "2026-02-24"}


def fresh(before, after):
    return [day.key for day in new_days_ahead(a_claim(**before), a_claim(**after), SOON)]


def test_a_day_ahead_that_a_change_brings_is_new():
    assert fresh({"dates__repaired": None}, {}) == ["dates.repaired"]


def test_a_day_ahead_that_was_there_before_hinders_no_other_change():
    assert fresh({}, {"owner__name": "B"}) == []


def test_a_day_ahead_changed_to_another_is_new():
    assert fresh({}, {"dates__repaired": "2026-02-25"}) == ["dates.repaired"]


def test_an_item_that_moves_up_in_its_list_is_not_new():
    assert fresh({"held": [{"part": "belt"}, BLOCK]}, {"held": [BLOCK]}) == []


def test_a_second_item_of_the_same_day_is_new():
    assert fresh({"held": [COIL]}, {"held": [COIL, BLOCK]}) == ["held[2].since"]


@pytest.mark.parametrize(
    ("key", "text", "ahead"),
    [
        ("dates.repaired", "2026-02-20", False),
        ("dates.repaired", "2026-02-21", True),
        ("labour[2].started", "2026-02-21T09:00", True),
        ("held.1.since", "2026-02-21", True),
        ("failure.cause", "2026-02-21", False),
        ("dates.repaired", "soon", False),
        ("dates.repaired", None, False),
    ],
)
def test_of_what_was_typed_the_days_still_to_come_are_found(key, text, ahead):
    assert bool(written_days_ahead([(key, text)], SOON)) is ahead


def said(*days, **how):
    with pytest.raises(BadInput) as caught:
        refuse_days_ahead([DayAhead(key, REPAIRED) for key in days], SOON, "claim 26-0001", **how)
    return caught.value.lines()


def test_a_day_still_to_come_is_refused_with_its_key_and_today():
    assert said("dates.repaired") == [
        "claim 26-0001: key dates.repaired: 2026-02-24 is still to come; today is 2026-02-20",
        "A claim says what has happened.",
        "Correct the day; or say which day it is with --today.",
    ]


def test_every_day_still_to_come_is_named():
    assert said("dates.failed", "dates.repaired")[1] == (
        "claim 26-0001: key dates.repaired: 2026-02-24 is still to come"
    )


def test_where_an_option_gave_the_day_it_is_named():
    assert said("held.since", options={"held.since": "--since"})[0].startswith("claim 26-0001: --since: 2026-02-24")


def test_where_no_day_is_still_to_come_nothing_is_refused():
    assert refuse_days_ahead((), SOON, "claim 26-0001") is None
