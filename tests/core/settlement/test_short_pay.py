from decimal import Decimal

import pytest

from claimpack.core.pricing.lines import PricedLine
from claimpack.core.settlement.short_pay import likely_reasons

LINES = (
    PricedLine("part", "Short block", Decimal("200.00"), "maker", handling=Decimal("40.00"), unit_price=Decimal(200)),
    PricedLine("part", "Gasket", Decimal("10.00"), "maker", handling=Decimal("2.00"), unit_price=Decimal(10)),
    PricedLine("part", "Blade", Decimal("33.00"), "owner"),
    PricedLine("labour", "Replace", Decimal("147.20"), "maker", quantity=Decimal("1.6"), unit_price=Decimal("92.00")),
    PricedLine("extra", "Freight", Decimal("12.50"), "maker"),
)


@pytest.mark.parametrize(
    ("difference", "reason"),
    [
        ("12.50", "the line Freight"),
        ("147.20", "the line Replace"),
        ("240.00", "the line Short block"),
        ("200.00", "the line Short block without its handling"),
        ("252.00", "all of the parts"),
        ("42.00", "the handling of the parts"),
        ("21.00", "handling at 10 % of the parts"),
        ("16.00", "labour at 82.00 an hour instead of 92.00"),
    ],
)
def test_a_difference_is_told_by_what_comes_to_it_exactly(difference, reason):
    assert reason in likely_reasons(LINES, Decimal(difference), "USD")


@pytest.mark.parametrize("difference", ["33.00", "12.49", "0.01", "399.00"])
def test_what_comes_to_nothing_is_not_explained(difference):
    assert likely_reasons(LINES, Decimal(difference), "USD") == ()


@pytest.mark.parametrize("part", [{"amount": Decimal(0)}, {"handling": Decimal(0)}], ids=["at no cost", "without"])
def test_where_no_handling_was_added_to_a_cost_none_is_missing(part):
    lines = [LINES[0]._replace(**part), LINES[4]]
    assert not [said for said in likely_reasons(lines, Decimal("20.00"), "USD") if "handling" in said]


def test_a_line_that_is_one_of_its_kind_is_not_said_to_be_all_of_it():
    assert likely_reasons(LINES, Decimal("147.20"), "USD") == ("the line Replace",)
    assert likely_reasons((LINES[0], LINES[4]), Decimal("240.00"), "USD") == ("the line Short block",)


DIAGNOSE = LINES[3]._replace(what="Diagnose", amount=Decimal("46.00"), quantity=Decimal("0.5"))


@pytest.mark.parametrize(("difference", "is_all"), [("193.20", True), ("147.20", False), ("46.00", False)])
def test_all_of_the_labour_is_the_sum_of_its_lines(difference, is_all):
    assert ("all of the labour" in likely_reasons((*LINES, DIAGNOSE), Decimal(difference), "USD")) is is_all


@pytest.mark.parametrize(("difference", "is_told"), [("12.50", True), ("13.75", True), ("11.25", False)])
def test_a_line_may_be_left_out_with_its_tax_or_without(difference, is_told):
    freight = LINES[4]._replace(tax=Decimal("1.25"))
    assert ("the line Freight" in likely_reasons([freight], Decimal(difference), "USD")) is is_told


def test_hours_at_two_rates_are_not_explained_by_a_third():
    dearer = DIAGNOSE._replace(unit_price=Decimal("100.00"), amount=Decimal("50.00"))
    assert likely_reasons((LINES[3], dearer), Decimal("21.00"), "USD") == ()


def test_more_than_all_of_the_handling_is_not_explained_by_another_rate_of_it():
    # what handling at -4 % would come to
    assert likely_reasons(LINES[:2], Decimal("50.40"), "USD") == ()
