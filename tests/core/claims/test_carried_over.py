from builders import a_claim

from claimpack.core.claims.carried_over import carried_over


def test_owner_unit_papers_and_dates_are_carried_over():
    claim = a_claim(papers=["papers/letter.pdf"])
    carried = carried_over(claim)
    for key in ("owner", "unit", "dates", "proof", "papers"):
        assert getattr(carried, key) == getattr(claim, key)


def test_nothing_else_is():
    claim = a_claim(plan="p", terms="us-tx", findings=[{"what": "a", "value": "1"}], labour=[{"operation": "b"}])
    told = carried_over(claim).model_dump(exclude_defaults=True).keys()
    assert told == {"number", "maker", "owner", "unit", "dates", "proof"}


def test_a_unit_in_stock_stays_one():
    claim = a_claim(case="stock", dates__purchased="2026-03-01", dates__delivered=None)
    assert carried_over(claim).is_stock
