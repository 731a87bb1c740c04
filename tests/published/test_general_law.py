"""General warranty law: proof of purchase, what may be refused, which of several warranties counts."""

from datetime import date

import pytest
from builders import TODAY, a_claim, a_plan, a_window

from claimpack.core.judging.assessment import assess
from claimpack.core.judging.conditions.conditions import missing
from claimpack.core.judging.conditions.missing_items import ClaimFacts
from claimpack.core.pricing.pricing import price
from claimpack.core.verdict.coverage import judge

PROOF = {"requires": {"proof": True}}


def lacking(**changes):
    """The keys of what a claim lacks under a plan that asks for proof of purchase."""
    claim, plan = a_claim(**changes), a_plan(**PROOF)
    return [item.what.key for item in missing(ClaimFacts(claim, plan, price(claim, plan).amounts, TODAY, {}))]


@pytest.mark.source("16 CFR 700.7(b)-(c): a registration card may be only one proof of the purchase date: L1")
@pytest.mark.parametrize("kind", ["receipt", "registration", "dealer-record"])
def test_every_kind_of_proof_is_proof(kind):
    assert lacking(proof={"kind": kind, "file": "papers/proof.pdf"}) == []


@pytest.mark.source("16 CFR 700.7(b)-(c): no card returned is no ground to refuse where a receipt is present: L1")
def test_a_unit_never_registered_is_covered_by_its_receipt():
    claim = a_claim(dates__never_registered=True)
    assert judge(claim, a_plan(**PROOF)).verdict == "covered"


@pytest.mark.source("16 CFR 701.4: registration may be a condition where the warranty says so: L2")
def test_registration_is_a_condition_where_the_plan_says_so():
    claim = a_claim(dates__never_registered=True)
    assert judge(claim, a_plan(window=[a_window(registered_within="P30D")])).verdict == "not covered"


@pytest.mark.source("15 USC 2304(c); 40 CFR 1037.120(d) on 1068.115: improper use or maintenance: L4, P12")
@pytest.mark.parametrize("defect", ["misuse", "maintenance", "accident"])
@pytest.mark.parametrize("statutory", [False, True])
def test_improper_use_or_maintenance_may_be_refused(defect, statutory):
    plan = a_plan(
        excluded={"defects": ["misuse", "maintenance", "accident"]}, window=[a_window(despite_exclusions=statutory)]
    )
    assert judge(a_claim(failure__defect=defect), plan).verdict == "not covered"


@pytest.mark.source("15 USC 2304(c): the warrantor has to show it: L4")
@pytest.mark.parametrize("defect", ["material", "workmanship", "unknown"])
def test_a_failure_not_shown_to_be_the_owners_doing_is_not_refused(defect):
    plan = a_plan(excluded={"defects": ["misuse", "maintenance", "accident"]})
    assert judge(a_claim(failure__defect=defect), plan).verdict == "covered"


@pytest.mark.source("15 USC 2301(3), 2304(b)(4): a consumer may be a later owner: P5")
def test_a_later_owner_is_covered_where_the_window_does_not_say_otherwise():
    assert judge(a_claim(owner__first_owner=False), a_plan()).verdict == "covered"


@pytest.mark.source("40 CFR 1039.120(b): 24 months of emission cover beside 36 months of free basic cover: W17")
@pytest.mark.parametrize(
    ("presented", "verdict"), [("2028-03-13", "covered"), ("2028-03-14", "covered"), ("2028-03-15", "not covered")]
)
def test_the_longer_of_two_warranties_counts(presented, verdict):
    windows = [a_window(id="emission", period="P24M", despite_exclusions=True), a_window(id="basic", period="P36M")]
    claim = a_claim(dates__failed=None, dates__presented=presented, dates__repaired=None)
    assert judge(claim, a_plan(window=windows)).verdict == verdict


@pytest.mark.source("40 CFR 1039.120(b): the one that ends last is cited: W17")
def test_the_longer_of_two_warranties_is_cited():
    windows = [a_window(id="basic", period="P36M"), a_window(id="emission", period="P24M")]
    judgement = judge(a_claim(), a_plan(window=windows))
    assert (judgement.window.id, judgement.window.ends) == ("basic", date(2028, 3, 14))


@pytest.mark.practice
@pytest.mark.parametrize(
    ("hours", "verdict"), [("1499.9", "covered"), ("1500.0", "covered"), ("1500.1", "not covered")]
)
def test_a_reading_equal_to_the_limit_is_inside(hours, verdict):
    """X7: no source read settles it; the choice here is that the limit itself is covered, and the reason says so."""
    assert judge(a_claim(unit__hours=hours), a_plan(window=[a_window(hours=1500)])).verdict == verdict


@pytest.mark.practice
def test_the_choice_at_the_limit_is_told():
    """X7: whoever reads the answer can see that it was a choice."""
    found = assess(a_claim(unit__hours="1500.0"), [a_plan(window=[a_window(hours=1500)])], TODAY)
    assert "a reading equal to the limit is inside" in " ".join(reason.because for reason in found.reasons)
