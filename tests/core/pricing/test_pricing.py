from __future__ import annotations

from decimal import Decimal

import pytest
from builders import a_claim, a_plan
from hypothesis import given, settings
from hypothesis import strategies as st
from pydantic import ValidationError

from claimpack.core.pricing.pricing import price
from claimpack.core.pricing.retail import NO_RETAIL, Retail
from claimpack.errors import BadInput

RING = {"name": "piston ring", "unit_cost": "10.00"}


def amounts(plan=None, **claim):
    """The totals as text."""
    return {key: str(said) for key, said in price(a_claim(**claim), plan or a_plan()).amounts.model_dump().items()}


def lines(plan=None, **claim):
    return price(a_claim(**claim), plan or a_plan()).lines


@pytest.mark.parametrize(
    ("payer", "totals"),
    [("maker", ("10.00", "0.00", "0.00")), ("owner", ("0.00", "10.00", "0.00")), ("shop", ("0.00", "0.00", "10.00"))],
)
def test_each_payer_has_a_total(payer, totals):
    found = amounts(parts=[{**RING, "payer": payer}])
    assert (found["claimed"], found["owner"], found["shop"]) == totals


def test_handling_is_added_to_parts_the_maker_pays():
    found = amounts(a_plan(pays__parts_handling="0.20"), parts=[RING, {**RING, "payer": "owner"}])
    assert (found["parts"], found["handling"], found["claimed"], found["owner"]) == ("10.00", "2.00", "12.00", "10.00")


def test_a_part_the_maker_sent_is_listed_at_nothing():
    line = lines(a_plan(pays__parts_handling="0.20"), parts=[{**RING, "source": "maker"}])[0]
    assert (line.amount, line.handling, line.notes[0].key) == (0, 0, "price.from-maker")


@pytest.mark.parametrize(
    ("quantity", "cost", "amount"),
    [("3", "0.335", "1.01"), ("0.5", "12.35", "6.18"), ("1", "1.005", "1.01"), ("1", "1.00499", "1.00")],
)
def test_a_line_is_rounded_half_away_from_zero(quantity, cost, amount):
    assert str(lines(parts=[{**RING, "quantity": quantity, "unit_cost": cost}])[0].amount) == amount


def test_totals_are_sums_of_rounded_lines():
    assert amounts(parts=[{**RING, "unit_cost": "0.005"}] * 3)["parts"] == "0.03"


def test_labour_is_priced_by_the_hour():
    assert amounts(labour=[{"operation": "clean", "hours": "0.5"}])["labour"] == "46.00"


def test_a_line_names_no_technician_that_nobody_knows():
    assert lines(labour=[{"operation": "clean", "hours": "1", "technician": "somebody"}])[0].technician == ""


def test_a_known_operation_is_priced_with_its_code_and_name():
    plan = a_plan(operation=[{"code": "sb", "name": "Replace short block", "hours": "1.6"}])
    line = lines(plan, labour=[{"operation": "sb", "technician": "T"}])[0]
    assert (line.what, line.code, line.technician, str(line.amount)) == ("Replace short block", "sb", "T", "147.20")


def test_free_text_has_no_code():
    assert lines(labour=[{"operation": "clean", "hours": "0.5"}])[0].code == ""


FREIGHT = {"what": "freight", "amount": "30.00"}


@pytest.mark.parametrize(
    ("cap", "extras", "shop"), [("30.01", "30.00", "0.00"), ("30.00", "30.00", "0.00"), ("29.99", "29.99", "0.01")]
)
def test_extras_are_claimed_up_to_the_cap(cap, extras, shop):
    found = amounts(a_plan(pays__extras_cap=cap), extras=[FREIGHT])
    assert (found["extras"], found["shop"]) == (extras, shop)


def test_the_cap_is_for_all_extras_together():
    found = amounts(a_plan(pays__extras_cap="50"), extras=[FREIGHT, FREIGHT, {**FREIGHT, "payer": "owner"}])
    assert (found["extras"], found["shop"], found["owner"]) == ("50.00", "10.00", "30.00")


def test_a_cap_no_coin_can_pay_loses_no_money():
    found = amounts(a_plan(pays__extras_cap="20.005"), extras=[FREIGHT])
    assert Decimal(found["extras"]) + Decimal(found["shop"]) == Decimal("30.00")


def test_what_is_above_the_cap_says_so():
    over = lines(a_plan(pays__extras_cap="20.00"), extras=[FREIGHT])[1]
    assert (over.payer, str(over.amount), str(over.notes[0])) == (
        "shop",
        "10.00",
        "The plan pays extras up to 20.00; this part of freight is above it.",
    )


def test_a_claim_in_another_currency_is_refused():
    with pytest.raises(BadInput, match="EUR, but plan halden-test pays in USD"):
        price(a_claim(currency="EUR"), a_plan())


@pytest.mark.parametrize("currency", ["USD", None])
def test_a_claim_in_the_currency_of_its_plan_or_in_none_of_its_own_is_priced(currency):
    assert amounts(currency=currency)["currency"] == "USD"


EARLIER = {"component": "short block", "repaired": "2025-09-01"}


@pytest.mark.parametrize(
    "claim",
    [
        {"extras": [{**FREIGHT, "amount": "0.001"}]},
        {"approval": {"up_to": "0.001"}},
        {"earlier": [{**EARLIER, "paid": "0.001"}]},
        {"parts": [{**RING, "core": "0.001"}]},
    ],
)
def test_an_amount_no_coin_can_pay_is_refused(claim):
    with pytest.raises(BadInput, match="more decimals than USD"):
        price(a_claim(**claim), a_plan())


@pytest.mark.parametrize(
    "claim",
    [
        {"approval": {"number": "A-7"}},
        {"approval": {"up_to": "0.01"}},
        {"earlier": [EARLIER, {**EARLIER, "paid": "0.01"}]},
        {"parts": [{**RING, "core": "0.01"}]},
    ],
)
def test_an_amount_that_coins_can_pay_is_priced(claim):
    assert price(a_claim(**claim), a_plan())


def test_yen_are_whole():
    found = amounts(a_plan(currency="JPY", pays__labour_rate="6500"), labour=[{"operation": "x", "hours": "0.33"}])
    assert found["labour"] == "1950"


def test_an_empty_claim_is_priced_at_nothing():
    assert amounts()["claimed"] == "0.00"


def test_an_amount_beyond_belief_is_refused():
    parts = [{**RING, "quantity": "9999999999999", "unit_cost": "9999999999999"}]
    with pytest.raises(BadInput, match="nobody could owe"):
        price(a_claim(parts=parts), a_plan())


MONEY = st.integers(0, 10_000_000).map(lambda units: str(Decimal(units).scaleb(-4)))
QUANTITY = st.integers(1, 10_000).map(lambda units: str(Decimal(units).scaleb(-2)))
PAYER = st.sampled_from(["maker", "owner", "shop"])
PART = st.fixed_dictionaries({"name": st.just("p"), "unit_cost": MONEY, "quantity": QUANTITY, "payer": PAYER})
EXTRA = st.fixed_dictionaries({"what": st.just("x"), "amount": st.integers(0, 99), "payer": PAYER})


@settings(max_examples=50, deadline=None)
@given(
    parts=st.lists(PART, max_size=3),
    extras=st.lists(EXTRA, max_size=3),
    cap=st.none() | st.integers(0, 99),
    currency=st.sampled_from(["USD", "JPY", "KWD"]),
)
def test_every_line_is_paid_by_somebody(parts, extras, cap, currency):
    plan = a_plan(currency=currency, pays__parts_handling="0.15", pays__extras_cap=cap)
    priced = price(a_claim(parts=parts, extras=extras), plan)
    paid = priced.amounts.claimed + priced.amounts.owner + priced.amounts.shop
    assert paid == sum(line.amount + line.handling for line in priced.lines)


OWNERS = {"labour": [{"operation": "clean", "hours": "2", "payer": "owner"}]}


def owner_pays(retail):
    return price(a_claim(**OWNERS), a_plan(), retail).amounts.owner


def test_a_shop_that_has_said_nothing_charges_the_plans_rate_without_tax():
    assert owner_pays(NO_RETAIL) == Decimal("184.00")


def test_a_rate_of_nothing_is_a_rate():
    assert owner_pays(Retail(labour_rate="0")) == Decimal(0)


def test_a_rate_for_owners_is_none_of_the_makers():
    claim = a_claim(labour=[{"operation": "clean", "hours": "2"}])
    assert price(claim, a_plan(), Retail(labour_rate="100")).amounts.labour == Decimal("184.00")


@pytest.mark.parametrize(("retail", "keys"), [(NO_RETAIL, ["price.rate-level"]), (Retail(labour_rate="100"), [])])
def test_the_makers_rate_is_told_to_an_owner_who_pays_it(retail, keys):
    plan = a_plan(pays__labour_rates=[{"level": "gold", "rate": "99"}])
    found = price(a_claim(**OWNERS), plan, retail.model_copy(update={"levels": {"halden": "gold"}}))
    assert [note.key for note in found.lines[0].notes if note.key.startswith("price.rate")] == keys


def test_the_deposit_on_a_core_that_the_shop_bears_is_none_of_what_is_claimed():
    found = amounts(parts=[{**RING, "core": "4.00"}])
    assert (found["parts"], found["core"], found["shop"]) == ("10.00", "0.00", "4.00")


def test_the_deposit_on_a_core_that_the_maker_pays_is_told_apart():
    found = amounts(a_plan(pays__core="claimed"), parts=[{**RING, "core": "4.00"}])
    assert (found["parts"], found["core"], found["shop"]) == ("14.00", "4.00", "0.00")


def test_tax_is_a_fraction_of_the_owners_lines():
    assert owner_pays(Retail(labour_rate="100", tax="0.0825")) == Decimal("216.50")


@pytest.mark.parametrize("keys", [{"tax": "-0.01"}, {"labour_rate": "-1"}, {"tax": 0.05}, {"tax": "NaN"}])
def test_what_no_shop_charges_is_refused(keys):
    with pytest.raises(ValidationError):
        Retail.model_validate(keys)
