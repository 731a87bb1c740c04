"""A claim as a whole: 600.00 at most, 25.00 of it the owner's, none below 10.00, and 8.1 % tax."""

from __future__ import annotations

from decimal import Decimal

import pytest
from booklets import notes, told, totals, under
from builders import a_plan

from claimpack.core.pricing.lines import PricedLine
from claimpack.core.pricing.whole_claim import StepFacts, up_to_the_cap_of_the_unit

CAP = '[pays]\nclaim_cap = "600.00"\n'
DEDUCTIBLE = '[pays]\ndeductible = {amount = "25.00", payer = "owner"}\n'
LEAST = '[pays]\nclaim_least = "10.00"\n'
TAX = '[pays]\nparts_handling = "0.20"\ntax = "0.081"\n'


def parts(*costs: str) -> str:
    used = (f'{{name = "part {cost}", unit_cost = "{cost}"}}' for cost in costs)
    return f"parts = [{', '.join(used)}]"


@pytest.mark.parametrize(
    ("cost", "claimed", "shop"),
    [("599.99", "599.99", "0.00"), ("600.00", "600.00", "0.00"), ("600.01", "600.00", "0.01")],
)
def test_a_claim_is_paid_up_to_its_cap(cost, claimed, shop):
    assert totals(under(CAP, parts(cost)), "claimed", "shop") == (claimed, shop)


def test_the_cap_is_reached_line_by_line():
    # 400.00, then 200.00 of 300.00, then nothing of 50.00
    assert told(under(CAP, parts("400.00", "300.00", "50.00"))) == [
        ("part 400.00", "400.00", "0.00", "maker"),
        ("part 300.00", "200.00", "0.00", "maker"),
        ("part 300.00", "100.00", "0.00", "shop"),
        ("part 50.00", "50.00", "0.00", "shop"),
    ]


@pytest.mark.parametrize(
    ("cost", "claimed", "owner"),
    [("24.99", "0.00", "24.99"), ("25.00", "0.00", "25.00"), ("25.01", "0.01", "25.00"), ("99.00", "74.00", "25.00")],
)
def test_a_deductible_is_the_owner_s(cost, claimed, owner):
    assert totals(under(DEDUCTIBLE, parts(cost)), "claimed", "owner", "deductible") == (claimed, owner, owner)


def test_a_deductible_may_be_the_shop_s():
    assert totals(under(DEDUCTIBLE.replace("owner", "shop"), parts("99.00")), "owner", "shop") == ("0.00", "25.00")


@pytest.mark.parametrize(("cost", "claimed", "shop"), [("9.99", "0.00", "9.99"), ("10.00", "10.00", "0.00")])
def test_a_claim_below_the_least_is_the_shop_s(cost, claimed, shop):
    assert totals(under(LEAST, parts(cost)), "claimed", "shop") == (claimed, shop)


def test_tax_is_on_every_line_of_the_maker_and_rounded_on_each():
    # 10.00 + 2.00 = 12.00 x 0.081 = 0.972; 10.40 + 2.08 = 12.48 x 0.081 = 1.01088
    found = under(TAX, parts("10.00", "10.40"))
    assert totals(found, "parts", "handling", "tax", "claimed") == ("20.40", "4.08", "1.98", "26.46")


def test_what_the_owner_pays_has_none_of_the_maker_s_tax():
    found = under(TAX, 'parts = [ {name = "blade", unit_cost = "10.00", payer = "owner"} ]')
    assert totals(found, "owner", "tax", "claimed") == ("10.00", "0.00", "0.00")


def test_the_steps_follow_each_other():
    # 700.00, of which 600.00; less 25.00: 575.00; x 0.081 = 46.575
    plan = CAP + DEDUCTIBLE.replace("[pays]\n", "") + LEAST.replace("[pays]\n", "") + 'tax = "0.081"'
    found = under(plan, parts("700.00"))
    assert totals(found, "claimed", "owner", "shop", "tax", "deductible") == (
        "621.58",
        "25.00",
        "100.00",
        "46.58",
        "25.00",
    )


def test_the_least_is_compared_after_the_deductible():
    # 34.99 - 25.00 = 9.99
    plan = DEDUCTIBLE + LEAST.replace("[pays]\n", "")
    assert totals(under(plan, parts("34.99")), "claimed", "owner", "shop") == ("0.00", "25.00", "9.99")


@pytest.mark.parametrize(
    ("plan", "said"),
    [
        (CAP, "The plan pays up to 600.00 a claim; this is above it."),
        (DEDUCTIBLE, "The plan leaves 25.00 USD of each claim to the owner."),
    ],
)
def test_what_is_left_to_others_says_why(plan, said):
    assert notes(under(plan, parts("700.00")), 2) == [said]


def test_a_claim_that_is_not_covered_asks_for_no_tax():
    found = under(TAX, "dates = {presented = 2026-04-14, repaired = 2026-04-15}\n" + parts("10.00"))
    assert totals(found, "claimed", "tax", "would_be") == ("0.00", "0.00", "12.97")


def test_what_stays_with_the_maker_says_how_much_is_left_out_of_it():
    assert notes(under(CAP, parts("700.00"))) == ["100.00 of it is not claimed: above the cap of a claim."]


def test_what_two_steps_leave_out_of_a_line_is_told_with_each_cause():
    both = CAP + 'deductible = {amount = "25.00", payer = "owner"}\n'
    lines = under(both, parts("700.00")).price.lines
    left = [(note.facts["amount"], note.facts["cause_word"]) for note in lines[0].notes if note.key == "price.less"]
    assert left == [("100.00", "less.over-claim"), ("25.00", "less.deductible")]


def test_a_line_of_nothing_is_not_told_a_tax_of_nothing():
    assert notes(under(TAX, parts("0"))) == []


@pytest.mark.parametrize(
    ("costs", "lines"),
    [
        (["20.00", "99.00"], [("maker", False), ("maker", False), ("owner", True)]),
        (["20.00"], [("owner", True)]),
    ],
    ids=["a part of a line", "a whole line"],
)
def test_what_the_owner_pays_by_a_deductible_is_marked_as_such(costs, lines):
    found = under(DEDUCTIBLE, parts(*costs)).price.lines
    assert [(line.payer, line.is_deductible) for line in found] == lines


def test_what_a_cap_leaves_is_no_deductible():
    found = under(CAP, parts("700.00", "50.00")).price.lines
    assert [line.is_deductible for line in found] == [False, False, False]


def test_a_line_of_the_owner_s_uses_up_nothing_of_the_cap():
    owners = '{name = "blade", unit_cost = "600.00", payer = "owner"}'
    found = under(CAP, f'parts = [ {owners}, {{name = "ring", unit_cost = "600.00"}} ]')
    assert totals(found, "claimed", "owner", "shop") == ("600.00", "600.00", "0.00")


def of_a_unit(per, before):
    """The lines of 50.00 under a cap of 100.00 for the unit, of which so much was paid before."""
    plan = a_plan(pays={"unit_cap": {"amount": "100.00", "per": per}})
    line = PricedLine("part", "ring", Decimal("50.00"), "maker")
    return up_to_the_cap_of_the_unit([line], StepFacts(plan, Decimal(before)))


@pytest.mark.parametrize(("before", "paid"), [("0", 50), ("50.00", 50), ("60.00", 40), ("100.00", 0), ("101.00", 0)])
def test_a_unit_is_paid_what_was_left_of_its_cap_before(before, paid):
    assert sum(line.amount for line in of_a_unit("life", before) if line.payer == "maker") == paid


@pytest.mark.parametrize(("per", "key"), [("life", "price.over-unit-life"), ("year", "price.over-unit-year")])
def test_what_is_above_the_cap_of_a_unit_is_told_by_the_time_that_the_cap_is_for(per, key):
    assert of_a_unit(per, "60.00")[1].notes[0].key == key
