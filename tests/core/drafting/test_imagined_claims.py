from __future__ import annotations

from datetime import date
from decimal import Decimal

import pytest
from builders import a_plan, a_window

from claimpack.core.drafting.imagined_claims import (
    SOMETHING_ELSE,
    ImaginedUnit,
    for_component,
    for_use,
    imagined_claim,
    knowing,
)

SOLD = date(2025, 3, 14)
PLAN = a_plan(
    window=[a_window(), a_window(id="clutch", covers=["clutch"], uses=["rental"])],
    requires={"serial_roles": ["unit", "engine"]},
)


def imagined(**unit):
    return imagined_claim(PLAN, SOLD, ImaginedUnit(**unit))


def windows(plan):
    return [window.id for window in plan.window]


def test_a_plan_cut_down_to_a_component_has_the_windows_that_cover_it():
    assert windows(for_component(PLAN, "clutch")) == ["clutch"]


def test_of_a_component_that_the_plan_does_not_know_the_whole_plan_is_kept():
    assert for_component(PLAN, "gearbox") == knowing(PLAN)


@pytest.mark.parametrize(
    ("use", "kept"), [("rental", ["engine", "clutch"]), ("household", ["engine"]), ("racing", ["engine", "clutch"])]
)
def test_windows_for_other_uses_go_but_where_the_plan_does_not_know_the_use(use, kept):
    assert windows(for_use(PLAN, use)) == kept


def test_a_serial_number_that_is_imagined_is_the_units_own():
    unit = imagined(serial="HC70-5").unit
    assert (unit.serial("unit"), unit.serial("engine")) == ("HC70-5", "0")


@pytest.mark.parametrize("is_registered", [True, False])
def test_a_unit_is_registered_on_the_day_it_is_sold_or_never(is_registered):
    dates = imagined(registered=is_registered).dates
    assert (dates.registered, dates.never_registered) == ((SOLD, False) if is_registered else (None, True))


@pytest.mark.parametrize(("readings", "has_meter"), [((("hours", Decimal(5)),), None), ((), False)])
def test_a_unit_has_an_hour_meter_where_its_hours_are_tried(readings, has_meter):
    assert imagined(readings=readings).unit.meter is has_meter


def test_what_was_repaired_before_is_something_that_no_claim_is_about():
    assert [[one.component for one in imagined(repaired=was).earlier] for was in (False, True)] == [
        [],
        [SOMETHING_ELSE],
    ]
