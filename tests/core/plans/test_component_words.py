from __future__ import annotations

import pytest
from builders import a_plan, a_window

from claimpack.core.plans.component_words import (
    component_meant,
    components_offered,
    is_known,
    is_same_component,
    is_spelling_of,
    kind_of,
    names_one_of,
    refuse_no_component,
    replaced_by_operations,
    slip_for,
    spoken_of,
    without,
    words_it_may_be,
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
        ("nozzles, front", "nozzle"),
        ("filter for air", "air filter"),
        ("front nozzles", "nozzle"),
        ("front nozle", "nozzle"),
        ("nozzle holder", "nozzle"),
        ("rear left tire", "tyre"),
        ("drive belt pulley", "drive belt"),
        ("belt pulley", None),
        ("blade spindle", None),
        ("blade clutch", "blade"),
        ("belts, drive", "drive belt"),
        ("deck drive belts", "drive belt"),
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
        ("assembly, block, short", "short block"),
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


def test_a_phrase_without_the_number_of_a_component_does_not_hold_it():
    assert spoken_of("front ignition coil", PLAN, ["ignition coil 2"]) is None


@pytest.mark.parametrize("said", ["batteries", "batterie"])
def test_a_plural_of_a_word_that_ends_in_y_is_asked_about(said):
    plan = a_plan(excluded__components=["battery"])
    assert slip_for(said, plan, ["battery"]) == "battery"


def test_a_component_may_be_meant_in_short():
    assert kind_of("coil", PLAN, ["ignition coil"]) == "ignition coil"


def test_a_word_that_the_plan_knows_means_itself():
    plan = a_plan(excluded__components=["tyre", "tire"])
    assert slip_for("tire", plan, ["tyre"]) is None


@pytest.mark.parametrize(
    ("name", "known"),
    [
        ("Replace gearbox", True),
        ("Overhaul gearbox", True),
        ("Take off and refit gearbox", True),
        ("Oil gearbox", False),
    ],
)
def test_a_plan_knows_the_components_that_its_operations_work_on(name, known):
    assert is_known("gearbox", a_plan(operation=[{"code": "g", "name": name, "hours": "1"}])) is known


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


ENGINE = ["connecting rod", "short block", "crankshaft", "ignition coil", "piston", "engine"]
ROD = a_plan(words={"connecting rod": ["con rod", "stang"], "fuel tank": []}, window=[a_window(covers=ENGINE)])


@pytest.mark.parametrize(
    ("said", "component"),
    [("COIL, IGNITION", "ignition coil"), ("Rod (connecting)", "connecting rod"), ("block/short", "short block")],
)
def test_a_component_is_named_in_whatever_order_its_words_stand(said, component):
    assert names_one_of(said, [component], ROD)


@pytest.mark.parametrize("said", ["con rod", "CON-ROD", "rod, con", "stang"])
def test_a_plan_may_have_other_words_for_a_component(said):
    assert names_one_of(said, ["connecting rod"], ROD)


@pytest.mark.parametrize("said", ["coil", "piston ring", "engine block", "ignition coil lead"])
def test_a_part_of_the_words_names_nothing(said):
    assert not names_one_of(said, ENGINE, ROD)


def test_a_slip_for_another_word_is_one_for_the_component():
    assert slip_for("stangs", ROD, ENGINE) == "connecting rod"


@pytest.mark.parametrize(
    ("said", "known"),
    [("rod, connecting", True), ("stang", True), ("fuel tank", True), ("con", False), ("seat", False)],
)
def test_a_plan_knows_its_own_words_and_no_others(said, known):
    assert is_known(said, ROD) is known


@pytest.mark.parametrize(
    ("said", "near"),
    [
        ("conrod", "connecting rod"),
        ("con-rod", "connecting rod"),
        ("crank", "crankshaft"),
        ("igniton", "ignition coil"),
        ("coil assembly, ignition", "ignition coil"),
        ("piston ring", "piston"),
    ],
)
def test_the_nearest_component_that_an_unknown_word_may_be_is_told_first(said, near):
    assert words_it_may_be(said, ROD, ENGINE)[0] == near


@pytest.mark.parametrize("said", ["seat", "wheel", "ポンプ"])
def test_a_word_like_none_of_the_components_may_be_none_of_them(said):
    assert words_it_may_be(said, ROD, ENGINE) == ()


def test_a_component_that_shares_one_of_two_words_is_told():
    assert words_it_may_be("pump shaft", ROD, ["rotor pump"]) == ("rotor pump",)


@pytest.mark.parametrize("said", ["kit", "set"])
def test_a_word_that_every_component_may_end_in_tells_none_of_them(said):
    assert words_it_may_be(said, ROD, ["crankshaft"]) == ()


@pytest.mark.parametrize(
    ("failed", "earlier", "same"),
    [
        ("connecting rod", "con rod", True),
        ("dashboard", "Dashboard", True),
        ("piston", "crankshaft", False),
        ("piston", "seat", False),
        ("crankshaft", "piston ring", False),
        ("piston", "piston ring", None),
        ("dashboard", "piston", None),
        ("dashboard", "seat", None),
        ("", "piston", None),
        ("", "-", None),
    ],
    ids=[
        "another word for it",
        "a word of nobody's twice",
        "two the plan knows",
        "an unknown word like none",
        "an unknown word like another",
        "an unknown word like it",
        "what failed is unknown",
        "both are unknown",
        "what failed is not said",
        "neither is said",
    ],
)
def test_an_earlier_repair_was_of_what_failed_of_another_component_or_of_who_knows_what(failed, earlier, same):
    assert is_same_component(failed, earlier, ROD) is same


@pytest.mark.parametrize(
    ("out", "left"),
    [([], ["engine", "con rod"]), (["connecting rod"], ["engine"]), (["seat"], ["engine", "con rod"])],
    ids=["nothing left out", "one of them", "one that is not among them"],
)
def test_what_is_left_out_of_a_list_is_left_out_under_every_word_for_it(out, left):
    assert without(["engine", "con rod"], out, ROD) == left


@pytest.mark.parametrize(
    ("one", "other"), [("throttle bodies", "throttle body"), ("batteries", "battery"), ("ties", "tie")]
)
def test_one_and_several_of_a_component_are_the_same_word(one, other):
    assert is_spelling_of(one, other)
