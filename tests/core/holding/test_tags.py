import pytest
from builders import a_claim

from claimpack.core.holding.cautions import CARRIER
from claimpack.core.holding.hold import ClaimsHold
from claimpack.core.holding.tags import tags

TWO = [{"part": "short block", "shelf": "B3"}, {"part": "starter", "serial": "S-1"}]


def the_tags(**changes):
    return tags(a_claim(**changes), "Halden", ClaimsHold())


def test_every_held_part_has_a_tag_in_the_claims_order():
    assert [(tag.part, tag.place, tag.of) for tag in the_tags(held=TWO)] == [
        ("short block", 1, 2),
        ("starter", 2, 2),
    ]


def test_no_held_part_has_no_tag():
    assert the_tags() == ()


def test_a_code_is_the_claim_and_the_part():
    assert [tag.code for tag in the_tags(held=TWO)] == ["26-0001/1", "26-0001/2"]


@pytest.mark.parametrize(
    ("serials", "serial"),
    [
        ([{"role": "engine", "value": "E"}, {"role": "unit", "value": "U"}], "U"),
        ([{"role": "engine", "value": "E"}], "E"),
        ([], ""),
    ],
)
def test_the_units_serial_comes_first(serials, serial):
    assert the_tags(unit__serials=serials, held=TWO)[0].serial == serial


def test_a_tag_tells_the_dangers_of_its_part():
    assert "Fire hazard" in the_tags(held=TWO)[0].cautions[0]


@pytest.mark.parametrize(("hazard", "more"), [("fuel", (CARRIER,)), ("none", ())])
def test_who_packs_a_dangerous_part_is_told_to_ask_the_carrier(hazard, more):
    (tag,) = the_tags(held=[{"part": "short block", "hazard": hazard}])
    assert tag.cautions_on_the_way == (*tag.cautions, *more)
