import pytest
from builders import a_claim

from claimpack.core.facts.lines import HeldPart
from claimpack.core.holding.cautions import (
    BROKEN,
    DEFER,
    DRAINED,
    FUEL,
    LITHIUM,
    WET_BATTERY,
    cautions_for,
    hazard_of,
    names_air,
)

NO_ENGINE = [{"role": "unit", "value": "U-1"}]


def hazard(part, kind="", serials=None, stated=None):
    changes = {"unit__kind": kind} | ({} if serials is None else {"unit__serials": serials})
    return hazard_of(HeldPart(part=part, hazard=stated), a_claim(**changes).unit)


@pytest.mark.parametrize("stated", ["fuel", "lithium battery", "wet battery", "none"])
def test_a_hazard_that_is_stated_stands(stated):
    assert hazard("short block", stated=stated) == stated


@pytest.mark.parametrize(
    ("part", "kind", "serials", "expected"),
    [
        ("short block", "cut-off saw", None, "fuel"),
        ("short block", "cut-off saw", NO_ENGINE, "fuel"),
        ("Carburetor", "cut-off saw", NO_ENGINE, "fuel"),
        ("fuel pump", "generator", None, "fuel"),
        ("fuel hose clamp", "generator", None, "fuel"),
        ("ignition coil", "cut-off saw", None, "none"),
        ("ignition coils", "cut-off saw", None, "none"),
        ("impeller", "trash pump", None, "none"),
        ("part from the left side", "cut-off saw", None, "fuel"),
        ("battery pack", "battery hedge trimmer", NO_ENGINE, "lithium battery"),
        ("battery", "blower", NO_ENGINE, "lithium battery"),
        ("pack", "battery blower", NO_ENGINE, "lithium battery"),
        ("battery", "ride-on mower", None, "wet battery"),
        ("motor", "battery blower", NO_ENGINE, "none"),
        ("pump head", "electric pump", NO_ENGINE, "none"),
    ],
)
def test_a_hazard_not_stated_follows_from_the_part_and_the_unit(part, kind, serials, expected):
    assert hazard(part, kind, serials) == expected


@pytest.mark.parametrize(
    ("of", "first"), [("fuel", FUEL), ("lithium battery", LITHIUM), ("wet battery", WET_BATTERY), ("none", BROKEN)]
)
def test_the_gravest_caution_comes_first(of, first):
    assert cautions_for(of)[0] == first


@pytest.mark.parametrize("of", ["fuel", "lithium battery", "wet battery", "none"])
def test_the_makers_manual_and_local_codes_have_the_last_word(of):
    assert cautions_for(of)[-1] == DEFER


@pytest.mark.parametrize(("drained", "first"), [(True, DRAINED), (False, FUEL), (None, FUEL)])
def test_a_part_that_was_drained_is_not_to_be_drained_again(drained, first):
    assert cautions_for("fuel", drained=drained)[0] == first


def test_draining_says_nothing_of_another_hazard():
    assert cautions_for("lithium battery", drained=True) == cautions_for("lithium battery")


@pytest.mark.parametrize(
    ("carrier", "by_air"), [("Swift Air", True), ("Vol aérien", True), ("Correo Avión", True), ("Fairway", False)]
)
def test_a_carrier_by_air_is_known_by_its_name_with_or_without_accents(carrier, by_air):
    assert names_air(carrier) is by_air
