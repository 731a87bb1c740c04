from decimal import Decimal

import pytest
from audits import FILED, REFUSED, an_audited, found_by
from builders import a_plan

from claimpack.core.auditing.house import House, PriceList

LIMITED = a_plan(requires={"approval_above": "400.00"}, excluded={"components": ["air filter", "blade"]})


def claims_of(who, *amounts):
    for place, amount in enumerate(amounts):
        number = f"{who}-{place}"
        claim = an_audited(number, number, labour=[{"operation": "x", "technician": who}])
        yield claim._replace(plan=LIMITED, standing=FILED.model_copy(update={"claimed": Decimal(amount)}))


SPREAD = (322, 331, 344, 350, 358, 362, 371, 380, 390)


def test_claims_again_and_again_just_below_what_needs_approval_are_found():
    found = found_by("just-below-limit", *claims_of("Ben", *range(388, 400)), *claims_of("Ida", *SPREAD))
    assert [len(each.claims) for each in found] == [12]


def test_a_busy_technician_has_some_claims_below_the_limit():
    assert not found_by("just-below-limit", *claims_of("Ben", *SPREAD * 5), *claims_of("Ida", *SPREAD))


def visit(number, presented, repaired, component):
    dates = {"purchased": "2025-03-14", "presented": presented, "repaired": repaired}
    return an_audited(number, dates=dates, failure__component=component)


@pytest.mark.parametrize(("day", "count"), [("2026-02-15", 1), ("2026-02-16", 0)], ids=["five days", "six"])
def test_two_claims_for_one_stay_are_found(day, count):
    claims = [visit("26-0001", "2026-02-05", "2026-02-10", "coil"), visit("26-0002", day, "2026-02-20", "clutch")]
    assert len(found_by("job-split", *claims)) == count


@pytest.mark.parametrize(("day", "said"), [("2026-02-10", "one stay"), ("2026-02-11", "two stays a few days apart")])
def test_a_split_job_says_whether_it_was_one_stay(day, said):
    claims = visit("26-0001", "2026-02-03", "2026-02-10", "a"), visit("26-0002", day, "2026-02-24", "b")
    assert f"two claims for {said}:" in found_by("job-split", *claims)[0].what


def test_a_claim_that_does_not_say_what_failed_is_no_split_job():
    claims = visit("26-0001", "2026-02-03", "2026-02-10", "a"), visit("26-0002", "2026-02-04", "2026-02-24", "")
    assert not found_by("job-split", *claims)


@pytest.mark.parametrize(("cost", "count"), [("125.00", 0), ("125.01", 1)], ids=["a quarter more", "beyond"])
def test_a_part_far_over_the_list_is_found(cost, count):
    house = House(price_list=lambda _maker: PriceList({"p1": Decimal(100)}))
    claim = an_audited(parts=[{"number": "P-1", "name": "coil", "unit_cost": cost}])
    assert len(found_by("part-over-list", claim._replace(house=house))) == count


@pytest.mark.parametrize(("currency", "count"), [("USD", 1), ("CAD", 0)], ids=["the claim's own", "another"])
def test_a_list_in_another_currency_says_nothing_of_what_a_part_costs(currency, count):
    house = House(price_list=lambda _maker: PriceList({"p1": Decimal(10)}, currency=currency))
    claim = an_audited(parts=[{"number": "P-1", "name": "coil", "unit_cost": "100.00"}])
    assert len(found_by("part-over-list", claim._replace(house=house))) == count


def test_a_part_far_dearer_than_in_most_claims_is_found():
    costs = ["40.00"] * 5 + ["80.00"]
    claims = [
        an_audited(f"26-000{place}", f"HC-{place}", parts=[{"number": "P-1", "name": "coil", "unit_cost": cost}])
        for place, cost in enumerate(costs)
    ]
    assert [each.claims for each in found_by("part-dearer-than-usual", *claims)] == [("26-0005",)]


def test_a_part_on_two_lines_of_a_claim_is_one_claim_with_it():
    part = {"number": "P-1", "name": "coil", "unit_cost": "40.00"}
    claims = [an_audited(f"26-000{place}", f"HC-{place}", parts=[part, part]) for place in range(4)]
    dear = an_audited("26-0009", "HC-9", parts=[part | {"unit_cost": "80.00"}])
    (found,) = found_by("part-dearer-than-usual", *claims, dear)
    assert found.evidence["claims with it"] == "5"


def test_what_a_part_costs_in_another_currency_is_another_price():
    part = {"number": "P-1", "name": "coil", "unit_cost": "40.00"}
    claims = [an_audited(f"26-000{place}", f"HC-{place}", parts=[part]) for place in range(5)]
    dear = an_audited("26-0009", "HC-9", parts=[part | {"unit_cost": "6000"}])
    yen = dear._replace(standing=dear.standing.model_copy(update={"currency": "JPY"}))
    assert not found_by("part-dearer-than-usual", *claims, yen)


@pytest.mark.parametrize(("paid", "count"), [("100.00", 0), ("100.01", 1)], ids=["what was claimed", "more"])
def test_more_than_was_claimed_is_found(paid, count):
    standing = FILED.model_copy(update={"payments": ()}).model_validate(
        {**FILED.model_dump(), "state": "paid", "payments": [{"on": "2026-03-01", "amount": paid}]}
    )
    assert len(found_by("paid-beyond", an_audited()._replace(standing=standing))) == count


@pytest.mark.parametrize(
    ("name", "count"),
    [("air filter", 1), ("Filter, air, felt", 1), ("Blades", 1), ("blade spindle", 0), ("filter housing", 0)],
)
def test_what_the_plan_leaves_to_the_owner_is_not_the_makers(name, count):
    claim = an_audited(parts=[{"name": name, "unit_cost": "9.00"}])._replace(plan=LIMITED)
    assert len(found_by("owner-pays-this", claim)) == count


@pytest.mark.parametrize(("what", "count"), [("Waybill 77313", 1), ("Freight", 0)])
def test_one_bill_is_in_one_claim(what, count):
    extras = [{"what": what, "kind": "freight", "amount": "41.27"}]
    claims = [an_audited(number, number, extras=extras) for number in ("26-0001", "26-0002")]
    assert len(found_by("bill-twice", *claims)) == count


def test_a_refused_claim_asks_for_nothing():
    claim = an_audited(parts=[{"name": "blade", "unit_cost": "9.00"}])._replace(plan=LIMITED, standing=REFUSED)
    assert not found_by("owner-pays-this", claim)
