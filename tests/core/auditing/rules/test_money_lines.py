from decimal import Decimal

import pytest
from audits import FILED, REFUSED, WITHDRAWN, an_audited, found_by
from builders import a_plan

from claimpack.core.auditing.house import House, PriceList

LIMITED = a_plan(requires={"approval_above": "400.00"}, excluded={"components": ["air filter", "blade"]})


def claims_of(who, *amounts):
    for place, amount in enumerate(amounts):
        number = f"{who or 'nobody'}-{place}"
        claim = an_audited(number, number, labour=[{"operation": "x", "technician": who}])
        yield claim._replace(plan=LIMITED, standing=FILED.model_copy(update={"claimed": Decimal(amount)}))


SPREAD = (322, 331, 344, 350, 358, 362, 371, 380, 390)


def test_claims_again_and_again_just_below_what_needs_approval_are_found():
    found = found_by("just-below-limit", *claims_of("Ben", *range(388, 400)), *claims_of("Ida", *SPREAD))
    assert [len(each.claims) for each in found] == [12]


def test_a_busy_technician_has_some_claims_below_the_limit():
    assert not found_by("just-below-limit", *claims_of("Ben", *SPREAD * 5), *claims_of("Ida", *SPREAD))


@pytest.mark.parametrize(
    ("near", "others", "count"),
    [(4, [], 0), (5, [], 1), (5, [383] * 5, 0), (6, [383] * 4, 1), (5, [320] * 5, 0), (5, [319] * 5, 1)],
    ids=["four", "five", "half", "six of ten", "half, of those from four fifths", "less is not counted"],
)
def test_of_claims_from_four_fifths_of_the_limit_one_in_five_may_be_just_below_it(near, others, count):
    found = found_by("just-below-limit", *claims_of("Ben", *[384] * near, *others))
    assert [len(each.claims) for each in found] == [near] * count


@pytest.mark.parametrize(("near", "count"), [(10, 1), (11, 0)])
def test_claims_just_below_the_limit_are_told_where_those_of_others_are_fewer(near, count):
    others = claims_of("Ida", *[390] * near, *[330] * (15 - near))
    assert len(found_by("just-below-limit", *claims_of("Ben", *[390] * 10), *others)) == count


@pytest.mark.parametrize(("who", "told"), [("Ben", "Ben"), ("", "Nobody named")])
def test_claims_just_below_the_limit_are_told_with_whoever_worked(who, told):
    (found,) = found_by("just-below-limit", *claims_of(who, *[390] * 6))
    assert found.says[0].facts["who"] == told


@pytest.mark.parametrize("change", ["approved", "withdrawn", "no plan", "no limit"])
def test_claims_that_no_limit_holds_back_are_not_just_below_it(change):
    changes = {"withdrawn": {"standing": WITHDRAWN}, "no plan": {"plan": None}, "no limit": {"plan": a_plan()}}
    approved = {"claim": an_audited(approval={"number": "A-1"}).claim}
    claims = [each._replace(**changes.get(change, approved)) for each in claims_of("Ben", *[390] * 6)]
    assert not found_by("just-below-limit", *claims)


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


@pytest.mark.parametrize(
    "changes",
    [{"payer": "owner"}, {"source": "maker"}, {"number": ""}, {"number": "P-2"}],
    ids=["the owner pays", "the maker sent it", "no number", "not in the list"],
)
def test_a_part_that_the_maker_does_not_pay_by_its_list_is_not_beside_it(changes):
    house = House(price_list=lambda _maker: PriceList({"p1": Decimal(10), "": Decimal(10)}))
    claim = an_audited(parts=[{"number": "P-1", "name": "coil", "unit_cost": "100.00", **changes}])
    assert not found_by("part-over-list", claim._replace(house=house))


@pytest.mark.parametrize(("currency", "count"), [("USD", 1), ("CAD", 0)], ids=["the claim's own", "another"])
def test_a_list_in_another_currency_says_nothing_of_what_a_part_costs(currency, count):
    house = House(price_list=lambda _maker: PriceList({"p1": Decimal(10)}, currency=currency))
    claim = an_audited(parts=[{"number": "P-1", "name": "coil", "unit_cost": "100.00"}])
    assert len(found_by("part-over-list", claim._replace(house=house))) == count


@pytest.mark.parametrize(("cost", "count"), [("50.00", 0), ("50.01", 1)], ids=["a quarter more", "beyond"])
@pytest.mark.parametrize(("others", "enough"), [(3, 0), (4, 1)], ids=["four prices", "five"])
def test_a_part_is_dear_beyond_a_quarter_more_than_the_middle_of_five_prices(cost, count, others, enough):
    costs = ["40.00"] * others + [cost]
    claims = [
        an_audited(f"26-000{place}", f"HC-{place}", parts=[{"number": "P-1", "name": "coil", "unit_cost": each}])
        for place, each in enumerate(costs)
    ]
    assert len(found_by("part-dearer-than-usual", *claims)) == count * enough


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
    ("amounts", "key"),
    [
        (["101.00"], "paid-beyond"),
        (["101.00", "101.00"], "paid-beyond.payments"),
        (["120.00", "-10.00"], "paid-beyond"),
    ],
    ids=["one payment", "two payments", "some was taken back"],
)
def test_several_payments_beyond_what_was_claimed_are_told_as_that(amounts, key):
    payments = [{"on": "2026-03-01", "amount": amount} for amount in amounts]
    standing = type(FILED).model_validate({**FILED.model_dump(), "state": "paid", "payments": payments})
    (found,) = found_by("paid-beyond", an_audited()._replace(standing=standing))
    assert found.says[0].key == key


def test_what_came_in_for_a_claim_whose_amount_is_not_known_is_not_beyond_it():
    paid = {"claimed": "0", "payments": [{"on": "2026-03-01", "amount": "101.00"}]}
    standing = type(FILED).model_validate({**FILED.model_dump(), **paid})
    assert not found_by("paid-beyond", an_audited()._replace(standing=standing))


@pytest.mark.parametrize(
    ("name", "count"),
    [("air filter", 1), ("Filter, air, felt", 1), ("Blades", 1), ("blade spindle", 0), ("filter housing", 0)],
)
def test_what_the_plan_leaves_to_the_owner_is_not_the_makers(name, count):
    claim = an_audited(parts=[{"name": name, "unit_cost": "9.00"}])._replace(plan=LIMITED)
    assert len(found_by("owner-pays-this", claim)) == count


WAYBILL = {"what": "Waybill 7731", "kind": "freight", "amount": "41.27"}


@pytest.mark.parametrize(
    ("extra", "count"),
    [
        (WAYBILL, 1),
        (WAYBILL | {"what": "Waybill 773"}, 0),
        (WAYBILL | {"what": "Freight"}, 0),
        (WAYBILL | {"payer": "owner"}, 0),
        (WAYBILL | {"amount": "0"}, 0),
    ],
    ids=["a bill", "three digits", "no number", "the owner pays", "for nothing"],
)
def test_one_bill_is_in_one_claim(extra, count):
    claims = [an_audited(number, number, extras=[extra]) for number in ("26-0001", "26-0002")]
    assert len(found_by("bill-twice", *claims)) == count


def test_a_bill_on_two_lines_of_a_claim_is_in_one_claim():
    assert not found_by("bill-twice", an_audited(extras=[WAYBILL, WAYBILL]))


@pytest.mark.parametrize(("rule", "kind"), [("bill-twice", "extras"), ("part-dearer-than-usual", "parts")])
def test_what_was_refused_is_in_no_second_claim(rule, kind):
    costs = ["40.00"] * 4 + ["80.00"]
    lines = {
        "extras": [[WAYBILL]] * 5,
        "parts": [[{"number": "P-1", "name": "coil", "unit_cost": cost}] for cost in costs],
    }
    claims = [an_audited(f"26-{place}", f"HC-{place}", **{kind: each}) for place, each in enumerate(lines[kind])]
    assert found_by(rule, *claims)
    assert not found_by(rule, *(each._replace(standing=REFUSED) for each in claims))


@pytest.mark.parametrize(
    "changes",
    [
        {"parts": [{"name": "blade", "unit_cost": "9.00", "payer": "owner"}]},
        {"parts": [{"name": "blade", "unit_cost": "9.00", "source": "maker"}]},
        {"failure__component": "blades"},
    ],
    ids=["the owner pays", "the maker sent it", "it failed itself"],
)
def test_a_part_left_to_the_owner_may_be_on_a_claim_that_asks_no_money_for_it(changes):
    claim = an_audited(**{"parts": [{"name": "blade", "unit_cost": "9.00"}], **changes})
    assert not found_by("owner-pays-this", claim._replace(plan=LIMITED))


def test_a_refused_claim_asks_for_nothing():
    claim = an_audited(parts=[{"name": "blade", "unit_cost": "9.00"}])._replace(plan=LIMITED, standing=REFUSED)
    assert not found_by("owner-pays-this", claim)
