import pytest
from builders import a_claim, a_plan, a_window

from claimpack.core.windows.applies import speaks_about
from claimpack.core.windows.reach import is_second_owner


def said(claim, plan=None, **window):
    """Every reason of a plan's one window, by rule."""
    plan = plan or a_plan(window=[a_window(**window)])
    return {reason.rule: reason.says.key for reason in speaks_about(claim, plan, plan.window[0])}


@pytest.mark.parametrize(("use", "key"), [("professional", "use.fits"), ("rental", "use.other"), (None, "use.unknown")])
def test_a_window_speaks_about_its_uses(use, key):
    assert said(a_claim(unit__use=use), uses=["professional"])["use"] == key


def test_a_window_for_every_use_does_not_ask_for_it():
    assert "use" not in said(a_claim(unit__use=None), uses=["rental", "professional", "household"])


def test_a_window_without_uses_speaks_about_every_use():
    assert "use" not in said(a_claim(unit__use=None))


@pytest.mark.parametrize(("use", "key"), [("professional", "use.fits"), ("rental", "use.other"), (None, "use.unknown")])
def test_a_window_without_uses_is_for_those_of_its_plan(use, key):
    assert said(a_claim(unit__use=use), a_plan(uses=["professional"]))["use"] == key


def test_a_statutory_window_is_for_every_use():
    plan = a_plan(uses=["professional"], window=[a_window(despite_exclusions=True)])
    assert "use" not in said(a_claim(unit__use="rental"), plan)


@pytest.mark.parametrize(("first", "key"), [(True, "owner.first"), (False, "owner.later"), (None, "owner.unknown")])
def test_a_window_may_be_for_the_first_owner_alone(first, key):
    assert said(a_claim(owner__first_owner=first), first_owner_only=True)["owner"] == key


def test_most_windows_are_for_every_owner():
    assert "owner" not in said(a_claim(owner__first_owner=False))


@pytest.mark.parametrize(
    ("place", "key"), [("US-CA", "sold-in.fits"), ("us-ca", "sold-in.fits"), ("US-OR", "sold-in.other")]
)
def test_a_window_may_reach_one_place_alone(place, key):
    assert said(a_claim(unit__sold_in=place), sold_in=["US-CA"])["sold in"] == key


def test_where_a_unit_was_sold_is_asked_for():
    claim = a_claim()
    plan = a_plan(window=[a_window(sold_in=["US-CA"])])
    assert speaks_about(claim, plan, plan.window[0])[-1].asks == "unit.sold_in"


@pytest.mark.parametrize(
    ("use", "key"),
    [("Farm", "use.fits"), ("household", "use.other"), ("fram", "use.near"), ("church", "use.unfamiliar")],
)
def test_any_word_of_a_plan_may_be_a_use_and_one_it_does_not_know_is_asked_about(use, key):
    assert said(a_claim(unit__use=use), uses=["farm"])["use"] == key


def test_a_use_is_told_as_the_plan_writes_it():
    plan = a_plan(window=[a_window(uses=["farm"])])
    (told,) = [each for each in speaks_about(a_claim(unit__use="Farm"), plan, plan.window[0]) if each.rule == "use"]
    assert told.says.facts["use_word"] == "farm"


def test_a_window_for_three_uses_of_four_asks_for_the_use():
    uses = ["rental", "professional", "household"]
    plan = a_plan(window=[a_window(uses=uses), a_window(id="farm", uses=["farm"])])
    assert said(a_claim(unit__use=None), plan)["use"] == "use.unknown"


@pytest.mark.parametrize(
    ("year", "key"),
    [
        (2023, "model-year.other"),
        (2024, "model-year.fits"),
        (2026, "model-year.fits"),
        (2027, "model-year.other"),
        (None, "model-year.unknown"),
    ],
)
@pytest.mark.parametrize("where", ["plan", "window"])
def test_both_model_years_are_in_for_a_window_or_its_plan(year, key, where):
    years = {"model_years": [2024, 2026]}
    plan = a_plan(**years) if where == "plan" else a_plan(window=[a_window(**years)])
    assert said(a_claim(unit__model_year=year), plan)["model year"] == key


@pytest.mark.parametrize(
    ("serial", "key"), [("H-99", "serial.outside"), ("H-100", "serial.inside"), ("H-200", "serial.outside")]
)
@pytest.mark.parametrize("where", ["plan", "window"])
def test_a_serial_number_lies_in_a_range_of_a_window_or_its_plan(serial, key, where):
    ranges = {"serials": ["H-100 .. H-199"]}
    plan = a_plan(**ranges) if where == "plan" else a_plan(window=[a_window(**ranges)])
    assert said(a_claim(unit__serials=[{"role": "unit", "value": serial}]), plan)["serial"] == key


def test_a_number_the_plan_asks_for_and_that_is_not_given_may_be_the_one_in_the_range():
    plan = a_plan(serials=["E-100 .. E-199"], requires={"serial_roles": ["engine"]})
    assert said(a_claim(unit__serials=[{"role": "unit", "value": "H-1"}]), plan)["serial"] == "serial.unknown"


def test_a_statutory_window_is_for_its_own_model_years_and_serials_alone():
    plan = a_plan(model_years=[2024, 2024], serials=["H-1 .. H-2"], window=[a_window(despite_exclusions=True)])
    assert not {"model year", "serial"} & said(a_claim(), plan).keys()


@pytest.mark.parametrize(
    ("resold", "second"),
    [("2026-02-04", True), ("2026-02-05", True), ("2026-02-06", None)],
    ids=["before it came in", "that day", "since"],
)
def test_a_unit_sold_again_by_the_day_it_came_in_has_a_second_owner(resold, second):
    assert is_second_owner(a_claim(dates__resold=resold, owner={})) is second


def test_a_unit_in_stock_has_no_second_owner():
    assert is_second_owner(a_claim(case="stock", owner={}, dates__purchased=None, dates__delivered=None)) is False


@pytest.mark.parametrize(
    ("told", "key"), [("2025-06-09", "owner.told-before"), ("2025-06-10", "owner.told"), ("2025-06-11", "owner.told")]
)
def test_a_maker_told_of_a_second_owner_before_there_was_one_is_asked_about(told, key):
    claim = a_claim(owner={}, dates__resold="2025-06-10", dates__transferred=told)
    assert said(claim, owners={"transfer_within": "P30D"})["owner"] == key
