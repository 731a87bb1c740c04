import pytest
from builders import a_claim

from claimpack.core.claim import Claim
from claimpack.core.key_paths import every_key, key_path, put, take
from claimpack.errors import BadInput


def after(written, value, **keys):
    put(keys, key_path(Claim, written), value)
    return keys


@pytest.mark.parametrize("written", ["parts[1].unit_cost", "parts.1.unit_cost"])
def test_a_place_in_a_list_is_written_two_ways(written):
    assert str(key_path(Claim, written)) == "parts[1].unit_cost"


def test_every_key_there_is_can_be_named():
    assert [str(key_path(Claim, key)) for key in every_key(Claim)] == list(every_key(Claim))


@pytest.mark.parametrize(
    ("written", "meant"),
    [
        ("unit.hous", "unit.hours"),
        ("owner.fone", "owner.phone"),
        ("unit.phone", "owner.phone"),
        ("parts[2].unit_price", "parts[1].unit_cost"),
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


def test_the_first_item_is_number_one():
    with pytest.raises(BadInput, match="parts is a list"):
        key_path(Claim, "parts[0].name")


def test_a_value_is_put_under_its_key():
    assert after("owner.name", "B", owner={"name": "A"}) == {"owner": {"name": "B"}}


def test_tables_above_a_key_are_made():
    assert after("approval.number", "A-1") == {"approval": {"number": "A-1"}}


def test_the_next_item_of_a_list_is_added():
    assert after("parts[2].name", "B", parts=[{"name": "A"}]) == {"parts": [{"name": "A"}, {"name": "B"}]}


def test_an_item_beyond_the_next_is_refused():
    with pytest.raises(BadInput) as refused:
        after("parts[3].name", "B", parts=[{"name": "A"}])
    assert refused.value.do == "The next one is number 2."


def test_a_list_of_values_takes_one():
    assert after("papers[1]", "papers/a.pdf") == {"papers": ["papers/a.pdf"]}


@pytest.mark.parametrize("written", ["owner", "parts", "parts[1]"])
def test_a_value_cannot_stand_for_several_keys(written):
    with pytest.raises(BadInput, match="more than one value"):
        after(written, "x", parts=[{}])


def test_a_key_is_taken():
    keys = {"owner": {"name": "A", "phone": "1"}}
    take(keys, key_path(Claim, "owner.phone"))
    assert keys == {"owner": {"name": "A"}}


def test_an_item_is_taken():
    keys = {"parts": [{"name": "A"}, {"name": "B"}]}
    take(keys, key_path(Claim, "parts[1]"))
    assert keys == {"parts": [{"name": "B"}]}


def test_taking_what_is_not_there_changes_nothing():
    keys = {"maker": "m"}
    take(keys, key_path(Claim, "approval.number"))
    assert keys == {"maker": "m"}


def test_an_item_that_is_not_there_cannot_be_taken():
    with pytest.raises(BadInput, match="no item 2"):
        take({"parts": [{"name": "A"}]}, key_path(Claim, "parts[2]"))


def test_a_changed_claim_reads_back():
    keys = a_claim().model_dump(mode="json", exclude_unset=True)
    put(keys, key_path(Claim, "unit.serials[2].value"), "E70-9")
    assert Claim.model_validate(keys).unit.serial("engine") == "E70-9"
