import pytest
from builders import a_claim

from claimpack.core.cautions import BROKEN, DEFER, FUEL, LITHIUM, WET_BATTERY, cautions_for, hazard_of
from claimpack.core.claim import HeldPart

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
        ("battery pack", "battery hedge trimmer", NO_ENGINE, "lithium battery"),
        ("battery", "blower", NO_ENGINE, "lithium battery"),
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
