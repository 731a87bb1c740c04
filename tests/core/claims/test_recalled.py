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


def test_what_holds_or_does_not_is_said_in_words():
    assert facts_in_words({"unit.meter": False, "owner.first_owner": True}) == "no hour meter, first owner"


def test_of_a_unit_what_is_known_is_recalled_and_nothing_else():
    told = unit_facts(a_claim())
    assert (told["unit.serials.@engine"], {"None", ""} & set(map(str, told.values()))) == ("E70-1", set())
