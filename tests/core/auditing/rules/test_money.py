from decimal import Decimal

import pytest
from audits import DRAFT, FILED, WITHDRAWN, an_audited, found_by
from builders import a_plan

from claimpack.core.plans.terms import Terms
from claimpack.core.pricing.retail import Retail


def approved(up_to, claimed="100.00"):
    standing = FILED.model_copy(update={"claimed": FILED.model_validate({"claimed": claimed}).claimed})
    return an_audited(approval={"number": "A-1", "up_to": up_to})._replace(standing=standing)


@pytest.mark.parametrize(("claimed", "count"), [("99.99", 0), ("100.00", 0), ("100.01", 1)])
def test_more_than_the_approval_reaches_to_is_serious(claimed, count):
    assert [each.weight for each in found_by("over-approval", approved("100.00", claimed))] == ["serious"] * count


def test_it_says_what_was_claimed_and_what_approved():
    found = found_by("over-approval", approved("80.00"))[0]
    assert found.what == "100.00 is claimed, and approval A-1 reaches to 80.00."
    assert found.evidence == {"claimed": "100.00", "approved": "80.00", "approval": "A-1"}


def test_a_draft_over_its_approval_claims_nothing_yet():
    draft = an_audited(approval={"number": "A-1", "up_to": "80.00"})
    draft = draft._replace(standing=DRAFT, summary=draft.summary.model_copy(update={"claimed": Decimal(100)}))
    found = found_by("over-approval", draft)
    assert [(each.says[0].key, each.weight) for each in found] == [("over-approval.draft", "look")]


def test_an_approval_without_an_amount_has_no_limit():
    assert not found_by("over-approval", an_audited(approval={"number": "A-1"}))


def test_a_withdrawn_claim_asks_for_nothing():
    assert not found_by("over-approval", approved("80.00")._replace(standing=WITHDRAWN))


PLAN = a_plan(pays={"parts_handling": "0.20", "labour_rate": "80.00"})
TERMS = Terms(id="us-test", name="Test law", cites="Test Code 1", parts_floor="0.30", labour_floor="retail")
PART = {"name": "Coil", "number": "P-1", "unit_cost": "40.00"}


def paid_low(number="26-0001", retail="80.00", **changes):
    claim = an_audited(number, number, parts=[PART], **changes)
    return claim._replace(plan=PLAN, terms=TERMS, retail=Retail(labour_rate=retail))


def test_a_plan_below_the_floor_for_parts_says_by_how_much():
    found = found_by("below-floor", paid_low())[0]
    assert found.evidence["short on parts"] == "4.00"
    assert "Plan halden-test pays 4.00 USD less than Test Code 1 asks for, on 26-0001." in found.what


def test_a_plan_below_the_floor_is_told_once_for_all_its_claims():
    found = found_by("below-floor", paid_low("26-0001"), paid_low("26-0002"))
    assert [(each.claims, each.evidence["short on parts"]) for each in found] == [(("26-0001", "26-0002"), "8.00")]


def test_it_tells_to_check_the_text_and_is_no_legal_advice():
    what = found_by("below-floor", paid_low())[0].what
    assert ("Check" in what, "no legal advice" in what) == (True, True)


def test_labour_below_the_shop_s_retail_rate_is_short_by_the_hours_claimed():
    low = paid_low(retail="98.00", labour=[{"operation": "diagnose", "hours": "1.5"}])
    (found,) = found_by("below-floor", low)
    assert (found.evidence["short on labour"], found.says[0].facts["short"]) == ("27.00", "31.00")


@pytest.mark.parametrize("payer", [{"payer": "owner"}, {"source": "maker"}], ids=["the owner pays", "the maker's own"])
def test_parts_the_maker_does_not_pay_have_no_floor(payer):
    free = paid_low()
    claim = an_audited(parts=[PART | payer]).claim
    assert not found_by("below-floor", free._replace(claim=claim))


@pytest.mark.parametrize("without", ["plan", "terms"])
def test_without_plan_or_terms_there_is_no_floor(without):
    assert not found_by("below-floor", paid_low()._replace(**{without: None}))


def test_a_claim_in_another_currency_is_not_compared():
    assert not found_by("below-floor", paid_low(currency="EUR"))
