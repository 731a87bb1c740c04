import pytest
from builders import a_claim

from claimpack.core.claims.claim import Claim
from claimpack.core.claims.editing.key_paths import key_path
from claimpack.core.claims.editing.key_values import placed, put, take, value_under, with_values
from claimpack.errors import BadInput


def after(written, value, **keys):
    put(keys, key_path(Claim, written), value)
    return keys


def test_the_first_item_is_number_one():
    with pytest.raises(BadInput, match="parts is a list"):
        key_path(Claim, "parts[0].name")


def test_a_value_is_put_under_its_key():
    assert after("owner.name", "B", owner={"name": "A"}) == {"owner": {"name": "B"}}


def test_tables_above_a_key_are_made():
    assert after("approval.number", "A-1") == {"approval": {"number": "A-1"}}


def test_the_first_item_of_a_list_makes_the_list():
    assert after("parts[1].name", "A") == {"parts": [{"name": "A"}]}


@pytest.mark.parametrize("place", [1, 2])
def test_a_paper_written_as_its_file_alone_becomes_a_table_to_say_more_of_it(place):
    papers = ["papers/a.pdf", "papers/b.pdf"]
    told = [*papers]
    told[place - 1] = {"file": papers[place - 1], "kind": "work order"}
    assert after(f"papers[{place}].kind", "work order", papers=papers) == {"papers": told}


def test_the_next_item_of_a_list_is_added():
    assert after("parts[2].name", "B", parts=[{"name": "A"}]) == {"parts": [{"name": "A"}, {"name": "B"}]}


@pytest.mark.parametrize("written", ["parts[3].name", "parts[3].quantity"])
def test_an_item_beyond_the_next_is_refused(written):
    with pytest.raises(BadInput, match=r"^parts\[3\]: the list has 1 item") as refused:
        after(written, "B", parts=[{"name": "A"}])
    assert refused.value.do == "The next one is number 2."


def test_a_value_beyond_the_next_is_refused():
    with pytest.raises(BadInput, match=r"^papers\[2\]: the list has 0 items") as refused:
        after("papers[2]", "papers/a.pdf", papers=[])
    assert refused.value.do == "The next one is number 1."


@pytest.mark.parametrize("place", [1, 2])
def test_an_item_of_a_list_of_values_is_replaced(place):
    papers = ["papers/a.pdf", "papers/b.pdf"]
    changed = [*papers]
    changed[place - 1] = "papers/c.pdf"
    assert after(f"papers[{place}]", "papers/c.pdf", papers=papers) == {"papers": changed}


def test_what_is_not_said_stays_unsaid_when_something_else_is_changed():
    changed = with_values(a_claim(), [(key_path(Claim, "owner.name"), "B")], "set")
    assert changed.model_dump(exclude_unset=True) == a_claim(owner__name="B").model_dump(exclude_unset=True)


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


def serials(*changes):
    """The serials of a claim after changes of keys, as role and value."""
    claim = a_claim()
    paths = [(key_path(Claim, written), value) for written, value in changes]
    after = with_values(claim, placed(claim, paths), "claim")
    return [(serial.role, serial.value) for serial in after.unit.serials]


UNIT, ENGINE = ("unit", "HC70-1"), ("engine", "E70-1")


@pytest.mark.parametrize("written", ["unit.serials.engine", "unit.serials.ENGINE", "unit.serials.engine.value"])
def test_a_serial_is_named_by_its_role(written):
    assert serials((written, "E70-9")) == [UNIT, ("engine", "E70-9")]


def test_a_role_that_is_new_is_added():
    assert serials(("unit.serials.starter-motor", "S1")) == [UNIT, ENGINE, ("starter-motor", "S1")]


def test_a_role_written_with_a_blank_is_named_with_a_hyphen():
    changes = (("unit.serials[3].role", "starter motor"), ("unit.serials[3].value", "S1"))
    assert serials(*changes, ("unit.serials.starter-motor", "S2")) == [UNIT, ENGINE, ("starter motor", "S2")]


def test_two_new_roles_are_added_one_after_the_other():
    changed = serials(("unit.serials.battery", "B"), ("unit.serials.charger", "C"))
    assert changed == [UNIT, ENGINE, ("battery", "B"), ("charger", "C")]


def test_a_serial_is_taken_away_by_its_role():
    assert serials(("unit.serials.engine", None)) == [UNIT]


def test_serials_taken_away_by_role_and_by_number_are_those_that_were_there():
    assert serials(("unit.serials.unit", None), ("unit.serials[2]", None)) == []


def test_a_role_that_is_not_there_cannot_be_taken_away():
    with pytest.raises(BadInput) as refused:
        serials(("unit.serials.engin", None))
    assert refused.value.do == "Did you mean 'engine'?"


def test_a_role_that_two_serials_have_is_named_by_number():
    battery = [("unit.serials[3].role", "engine"), ("unit.serials[3].value", "E70-2")]
    with pytest.raises(BadInput) as refused:
        serials(*battery, ("unit.serials.engine", "E70-9"))
    assert "unit.serials[2].value, or unit.serials[3].value" in refused.value.do


def test_a_list_of_serials_is_named_by_number_or_by_role():
    with pytest.raises(BadInput) as refused:
        key_path(Claim, "unit.serials.value")
    assert "unit.serials[1].role or unit.serials.engine" in refused.value.do


def test_other_lists_have_no_roles():
    with pytest.raises(BadInput, match="parts is a list"):
        key_path(Claim, "parts.engine")


def test_a_serial_number_without_its_role_suggests_the_units():
    with pytest.raises(BadInput) as refused:
        key_path(Claim, "unit.serial")
    assert refused.value.do == "Did you mean unit.serials.unit?"


def test_a_serial_number_of_nothing_suggests_the_units_first():
    with pytest.raises(BadInput) as refused:
        key_path(Claim, "serial")
    assert (
        refused.value.do
        == "Did you mean unit.serials.unit or failure.part.serial or part_sold.serial or held[1].serial?"
    )


def test_the_class_of_labour_is_set_and_read_by_its_key():
    path = key_path(Claim, "labour[1].class")
    changed = with_values(a_claim(labour=[{"operation": "hone"}]), [(path, "engine")], "set")
    assert value_under(changed, path) == "engine"
