import pytest

from claimpack.core.claims.claim import Claim
from claimpack.core.claims.editing.key_paths import every_key, is_a_day, key_path
from claimpack.errors import BadInput


@pytest.mark.parametrize("written", ["parts[1].unit_cost", "parts.1.unit_cost"])
def test_a_place_in_a_list_is_written_two_ways(written):
    assert str(key_path(Claim, written)) == "parts[1].unit_cost"


def test_every_key_there_is_can_be_named():
    assert [str(key_path(Claim, key)) for key in every_key(Claim)] == list(every_key(Claim))


@pytest.mark.parametrize(
    ("written", "holds"),
    [
        ("dates.presented", True),
        ("dates.failed", True),
        ("approval.on", True),
        ("held[1].since", True),
        ("questions[2].asked", True),
        ("unit.hours", False),
        ("unit.serials.engine", False),
        ("failure[2].component", False),
        ("labour[1].class", False),
        ("papers[1]", False),
    ],
)
def test_a_key_that_holds_a_day_is_known(written, holds):
    assert is_a_day(Claim, key_path(Claim, written)) is holds


@pytest.mark.parametrize(
    ("written", "is_value"),
    [
        ("dates.failed", True),
        ("unit.serials.engine", True),
        ("papers[1]", True),
        ("dates", False),
        ("approval", False),
        ("papers", False),
        ("unit.serials[1]", False),
    ],
)
def test_a_key_that_takes_a_value_is_told_from_one_with_keys_of_its_own(written, is_value):
    assert key_path(Claim, written).is_value is is_value


@pytest.mark.parametrize(
    ("written", "meant"),
    [
        ("unit.hous", "unit.hours"),
        ("owner.fone", "owner.phone"),
        ("unit.phone", "owner.phone"),
        ("parts[2].unit_cots", "parts[1].unit_cost"),
        ("presented", "dates.presented"),
        ("makr", "maker"),
    ],
)
def test_an_unknown_key_suggests_the_nearest(written, meant):
    with pytest.raises(BadInput) as refused:
        key_path(Claim, written)
    assert meant in refused.value.do


def test_a_list_wants_the_number_of_an_item():
    with pytest.raises(BadInput) as refused:
        key_path(Claim, "parts.unit_cost")
    assert "parts[1].number" in refused.value.do


@pytest.mark.parametrize("written", ["", "owner.", ".owner", "owner..name", "parts[one].name", "a b", "parts[1"])
def test_what_is_no_key_is_refused(written):
    with pytest.raises(BadInput, match="is not the name of a key"):
        key_path(Claim, written)


def test_a_value_has_no_keys_of_its_own():
    with pytest.raises(BadInput) as refused:
        key_path(Claim, "maker.name")
    assert "one value" in refused.value.why
