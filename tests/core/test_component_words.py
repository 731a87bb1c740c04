from __future__ import annotations

import pytest
from builders import a_plan

from claimpack.core.component_words import (
    component_meant,
    components_offered,
    kind_of,
    refuse_no_component,
    replaced_by_operations,
    slip_for,
    spoken_of,
)
from claimpack.errors import BadInput

EXCLUDED = ["tyre", "nozzle", "drive belt", "air filter", "carburettor", "blade"]
OPERATIONS = [
    {"code": "a", "name": "Replace blade spindle", "hours": "1"},
    {"code": "b", "name": "Replace impeller and set clearance", "hours": "1"},
    {"code": "c", "name": "Replace seal, both sides", "hours": "1"},
    {"code": "d", "name": "Take off and refit deck belt", "hours": "1"},
    {"code": "e", "hours": "1"},
]
PLAN = a_plan(excluded__components=EXCLUDED, operation=OPERATIONS)


@pytest.mark.parametrize(
    ("said", "meant"),
    [
        ("tires", "tyre"),
        ("Tire", "tyre"),
        ("tyres", "tyre"),
        ("nozle", "nozzle"),
        ("nozzles", "nozzle"),
        ("drive-belts", "drive belt"),
        ("the drivebelt", "drive belt"),
        ("carburetor", "carburettor"),
        ("carburetors", "carburettor"),
        ("switches", None),
        ("wire", None),
        ("hose", None),
        ("", None),
    ],
)
def test_a_plural_a_slip_and_another_spelling_are_asked_about(said, meant):
    assert slip_for(said, PLAN, EXCLUDED) == meant


@pytest.mark.parametrize(
    ("said", "held"),
    [
        ("high-pressure nozzle", "nozzle"),
        ("nozzles, front", None),
        ("front nozzles", "nozzle"),
        ("front nozle", "nozzle"),
        ("nozzle holder", "nozzle"),
        ("rear left tire", "tyre"),
        ("drive belt pulley", "drive belt"),
        ("belt pulley", None),
        ("blade spindle", None),
        ("blade clutch", "blade"),
    ],
)
def test_a_phrase_holds_an_excluded_component_as_whole_words(said, held):
    assert spoken_of(said, PLAN, EXCLUDED) == held


@pytest.mark.parametrize(
    ("said", "kind"),
    [
        ("rear engine", "engine"),
        ("short block assembly", "short block"),
        ("petrol engine complete", "engine"),
        ("engine mount", None),
        ("unit", None),
        ("engine", None),
    ],
)
def test_a_phrase_that_ends_in_a_component_may_be_one_of_its_kind(said, kind):
    assert kind_of(said, PLAN, ["engine", "short block"]) == kind


@pytest.mark.parametrize(("said", "meant"), [("engine", "engine"), ("engines", "engine"), ("rear engine", "engine")])
def test_a_component_is_meant_by_its_word_a_slip_and_a_kind(said, meant):
    assert component_meant(said, PLAN, ["engine"]) == meant


@pytest.mark.parametrize(("said", "meant"), [("belt", "drive belt"), ("the belts", "drive belt"), ("air", None)])
def test_the_last_word_of_an_excluded_component_may_mean_it_in_short(said, meant):
    assert spoken_of(said, PLAN, EXCLUDED) == meant


@pytest.mark.parametrize("said", ["batteries", "batterie"])
def test_a_plural_of_a_word_that_ends_in_y_is_asked_about(said):
    plan = a_plan(excluded__components=["battery"])
    assert slip_for(said, plan, ["battery"]) == "battery"


def test_a_component_may_be_meant_in_short():
    assert kind_of("coil", PLAN, ["ignition coil"]) == "ignition coil"


def test_a_word_that_the_plan_knows_means_itself():
    plan = a_plan(excluded__components=["tyre", "tire"])
    assert slip_for("tire", plan, ["tyre"]) is None


def test_operations_tell_what_they_replace():
    assert replaced_by_operations(PLAN) == ("blade spindle", "impeller", "seal")


def test_what_operations_replace_is_offered_first():
    assert components_offered(PLAN)[:5] == ("blade spindle", "impeller", "seal", "air filter", "blade")


@pytest.mark.parametrize("said", ["2026-06-01", "42", "0.3", "-"])
def test_a_date_or_a_number_is_no_component(said):
    with pytest.raises(BadInput, match=r"open: .* is no component"):
        refuse_no_component(said, "open: ")


@pytest.mark.parametrize("said", ["", "ignition coil", "V2 block", "ポンプ"])
def test_whatever_has_letters_may_be_one(said):
    assert refuse_no_component(said, "") is None
