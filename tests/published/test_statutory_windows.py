"""The windows of law that are shipped, against the sections they cite; values beside the citation."""

from __future__ import annotations

from datetime import date
from decimal import Decimal

import pytest

from claimpack.core.claims.claim import Claim
from claimpack.core.clauses.starts import start_rule
from claimpack.core.clauses.window import Window
from claimpack.core.facts.keys import record_from
from claimpack.core.plans.plan import Plan, WindowSet
from claimpack.core.verdict.coverage import judge
from claimpack.template_files import COVERAGE, Places, read_plans, shipped, template, templates

READ_ON = date(2026, 11, 25)
SETS = (
    "us-ca-ci-19-kw-and-over",
    "us-ca-ci-constant-speed",
    "us-ca-ci-under-19-kw",
    "us-ca-large-si-up-to-1-litre",
    "us-ca-marine-evaporative",
    "us-ca-small-offroad",
)
REPAIR_TIME = "us-ca-repair-time"


def statute(wanted: str) -> WindowSet:
    return record_from(WindowSet, template(COVERAGE, wanted, Places()).keys, wanted)


def window_of(wanted: str) -> Window:
    (window,) = statute(wanted).window
    return window


@pytest.mark.source("13 CCR 2405(a), (b)(2)")
def test_small_offroad_engines_have_two_years_from_delivery_without_hours():
    window = window_of("us-ca-small-offroad")
    assert (str(window.period), window.hours) == ("P2Y", None)
    assert statute("us-ca-small-offroad").start == start_rule("delivered")


@pytest.mark.source("13 CCR 2425(b)(2)")
def test_diesel_engines_of_19_kw_and_over_have_five_years_or_3000_hours():
    window = window_of("us-ca-ci-19-kw-and-over")
    assert (str(window.period), window.hours) == ("P5Y", Decimal(3000))


@pytest.mark.source("13 CCR 2425(b)(2)")
def test_diesel_engines_under_19_kw_have_two_years_or_1500_hours():
    window = window_of("us-ca-ci-under-19-kw")
    assert (str(window.period), window.hours) == ("P2Y", Decimal(1500))


@pytest.mark.source("13 CCR 2425(b)(2)")
def test_constant_speed_diesel_engines_have_two_years_or_1500_hours():
    window = window_of("us-ca-ci-constant-speed")
    assert (str(window.period), window.hours) == ("P2Y", Decimal(1500))


@pytest.mark.source("13 CCR 2435(a)")
def test_large_spark_ignition_engines_up_to_one_litre_follow_the_small_engine_rule():
    window = window_of("us-ca-large-si-up-to-1-litre")
    assert (str(window.period), window.hours) == ("P2Y", None)


@pytest.mark.source("13 CCR 2861(a), (b)(2)")
def test_marine_evaporative_parts_have_two_years_from_delivery():
    window = window_of("us-ca-marine-evaporative")
    assert (str(window.period), window.hours) == ("P2Y", None)
    assert statute("us-ca-marine-evaporative").start == start_rule("delivered")


@pytest.mark.source("13 CCR 2405(b), 2425(b), 2435(b)")
@pytest.mark.parametrize("wanted", SETS)
def test_a_window_of_law_reaches_every_owner_and_every_use(wanted):
    window = window_of(wanted)
    assert (window.first_owner_only, window.uses, window.registered_within) == (False, None, None)


@pytest.mark.practice
@pytest.mark.parametrize("wanted", SETS)
def test_a_window_of_law_names_its_section_the_day_it_was_read_and_a_caution(wanted):
    found = statute(wanted)
    assert found.cites.startswith("13 CCR ")
    assert found.read_on == READ_ON
    assert "Check the current text" in found.note
    assert "not legal advice" in found.note


@pytest.mark.practice
@pytest.mark.parametrize("wanted", SETS)
def test_a_window_of_law_stands_against_the_list_of_wear_parts_where_it_was_sold(wanted):
    window = window_of(wanted)
    assert (window.despite_exclusions, window.sold_in) == (True, ("US-CA",))


@pytest.mark.source("13 CCR 2435(a): model year 2002 and later")
@pytest.mark.parametrize(("year", "verdict"), [(2001, "not covered"), (2002, "covered"), (None, "undecided")])
def test_large_spark_ignition_engines_are_of_model_year_2002_and_later(year, verdict):
    own = {"id": "own", "covers": ["paint"], "period": "P1D"}
    plan = Plan.model_validate({"id": "p", "maker": "m", "currency": "USD", "window": [own]})
    unit = {"model": "L-1", "sold_in": "US-CA", "serials": [], "model_year": year}
    days = {"delivered": "2024-03-15", "presented": "2025-03-15"}
    keys = {"number": "1", "maker": "m", "unit": unit, "dates": days, "failure": {"component": "carburettor"}}
    found = judge(Claim.model_validate(keys), plan.with_windows_of(statute("us-ca-large-si-up-to-1-litre")))
    assert found.verdict == verdict


@pytest.mark.practice
def test_only_sections_that_were_read_are_shipped():
    shipped_sets = [name for name, entry in templates(COVERAGE, Places()).items() if entry.is_window_set]
    assert sorted(shipped_sets) == sorted((*SETS, REPAIR_TIME))


@pytest.mark.practice
def test_time_in_repair_is_given_by_a_section_that_was_read_as_quoted():
    found = statute(REPAIR_TIME)
    assert (found.cites, found.read_on) == ("Cal. Civ. Code 1795.6, 1795.7", READ_ON)
    assert "page that quotes it. Check the current text" in found.note


@pytest.mark.memory
@pytest.mark.parametrize("section", ["1039.120(b)", "1054.120", "1048.120", "1051.120", "1060.120", "1068.115"])
def test_a_section_known_from_memory_alone_is_cited_nowhere(section):
    files = [*shipped(COVERAGE).glob("*.toml"), *shipped("terms").glob("*.toml")]
    assert not [file.name for file in files if section in file.read_text(encoding="utf-8")]


@pytest.mark.practice
def test_a_plan_takes_in_a_window_of_law_with_its_section():
    halden = next(plan for plan in read_plans(Places()) if plan.id == "halden-2025")
    cited = {window.id: window.cites for window in halden.window}
    assert cited["us-ca-small-offroad"] == "13 CCR 2405(a), (b)(2)"


@pytest.mark.practice
def test_no_window_id_is_given_twice_once_the_law_is_taken_in():
    for plan in read_plans(Places()):
        ids = [window.id for window in plan.window]
        assert len(ids) == len(set(ids)), plan.id
