import pytest
from builders import a_claim

from claimpack.core.claims.recalled import facts_in_words, owner_facts, owners_by_phone, unit_facts


def test_no_reading_and_no_failure_of_a_unit_is_recalled():
    told = unit_facts(a_claim(unit__hours="112"))
    assert not [key for key in told if key.startswith(("failure", "unit.hours", "dates.presented"))]


def test_of_an_owner_alone_it_is_not_recalled_how_a_purchase_was_shown():
    claim = a_claim(proof={"kind": "receipt"}, owner__name="Ada Quarry")
    assert "proof.kind" in owner_facts(claim, of_the_unit=True)
    assert "proof.kind" not in owner_facts(claim)


def test_one_owner_of_several_claims_is_found_once_by_phone():
    claims = [a_claim(number=number, owner={"name": "Ada", "phone": "555-0142"}) for number in ("26-0001", "26-0002")]
    assert [claim.number for claim in owners_by_phone(claims, "5550142")] == ["26-0001"]


def test_owners_without_a_name_are_not_found_by_phone():
    assert owners_by_phone([a_claim(owner={"phone": "555-0142"})], "555-0142") == []


def test_an_owner_of_another_phone_is_not_found():
    assert owners_by_phone([a_claim(owner={"name": "Ada", "phone": "555-0142"})], "555-0143") == []


@pytest.mark.parametrize(
    ("facts", "words"),
    [
        ({"unit.meter": False, "owner.first_owner": True}, "no hour meter, first owner"),
        ({"owner.first_owner": False, "dates.never_registered": True}, "not the first owner, never registered"),
    ],
)
def test_what_holds_or_does_not_is_said_in_words(facts, words):
    assert facts_in_words(facts) == words


def test_how_a_purchase_is_shown_is_said_and_not_where_the_paper_lies():
    assert facts_in_words({"proof.kind": "receipt", "proof.file": "papers/receipt.pdf"}) == "receipt"


@pytest.mark.parametrize(("meter", "recalled"), [(False, {False}), (True, set()), (None, set())])
def test_that_a_unit_has_no_hour_meter_is_recalled(meter, recalled):
    told = unit_facts(a_claim(unit__meter=meter, unit__hours=None))
    assert {value for key, value in told.items() if key == "unit.meter"} == recalled


def test_the_days_of_the_sale_are_recalled_and_that_nobody_registered_it():
    told = unit_facts(a_claim(dates__never_registered=True))
    days = {key: str(value) for key, value in told.items() if key.startswith("dates.")}
    assert days == {
        "dates.purchased": "2025-03-14",
        "dates.delivered": "2025-03-14",
        "dates.never_registered": "True",
    }


def test_of_a_unit_that_may_have_been_registered_nothing_is_recalled():
    assert "dates.never_registered" not in unit_facts(a_claim())


def test_of_a_unit_what_is_known_is_recalled_and_nothing_else():
    told = unit_facts(a_claim())
    assert (told["unit.serials.@engine"], {"None", ""} & set(map(str, told.values()))) == ("E70-1", set())
