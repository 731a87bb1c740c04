"""One line of a claim, and what of it goes to somebody else."""

from __future__ import annotations

from decimal import Decimal

import pytest

from claimpack.core.pricing.lines import PricedLine
from claimpack.core.values.wording.sentence import say

LINE = PricedLine(
    "part",
    "short block",
    Decimal("100.00"),
    "maker",
    quantity=Decimal(2),
    unit_price=Decimal("50.00"),
    handling=Decimal("20.00"),
)
WHY = say("price.over-claim", cap="600.00")


def test_the_whole_of_a_line_is_its_amount_and_its_handling():
    assert LINE.whole == Decimal("120.00")


@pytest.mark.parametrize(
    ("paid", "own", "rest"),
    [
        ("119.99", ("100.00", "19.99"), "0.01"),
        ("100.01", ("100.00", "0.01"), "19.99"),
        ("100.00", ("100.00", "0.00"), "20.00"),
        ("99.99", ("99.99", "0.00"), "20.01"),
        ("0", ("0", "0"), "120.00"),
    ],
)
def test_what_is_paid_of_a_line_is_its_amount_before_its_handling(paid, own, rest):
    stays, over = LINE.split(Decimal(paid), "shop", WHY)
    assert (stays.amount, stays.handling, over.amount) == (Decimal(own[0]), Decimal(own[1]), Decimal(rest))


def test_a_line_that_is_paid_whole_stays_as_it_is():
    assert LINE.split(Decimal("120.00"), "shop", WHY) == [LINE]


def test_what_another_pays_of_a_line_counts_no_pieces_of_its_own():
    over = LINE.split(Decimal("90.00"), "shop", WHY)[1]
    assert (over.is_rest, over.quantity, over.unit_price, over.handling) == (True, 1, Decimal("30.00"), 0)


def test_what_another_pays_of_a_line_says_why_and_that_handling_is_in_it():
    over = LINE.split(Decimal("90.00"), "shop", WHY)[1]
    assert [note.key for note in over.notes] == ["price.over-claim", "price.handling-in"]


def test_what_stays_of_a_line_counts_its_pieces():
    stays = LINE.split(Decimal("90.00"), "shop", WHY)[0]
    assert (stays.is_rest, stays.quantity, stays.unit_price) == (False, 2, Decimal("50.00"))


def test_the_handling_in_what_another_pays_is_what_does_not_stay():
    over = LINE.split(Decimal("105.00"), "shop", WHY)[1]
    assert over.notes[-1].facts["amount"] == "15.00"


def test_of_a_line_without_handling_another_pays_none():
    over = LINE._replace(handling=Decimal(0)).split(Decimal("90.00"), "shop", WHY)[1]
    assert [note.key for note in over.notes] == ["price.over-claim"]


def test_what_stays_of_a_line_says_how_much_is_left_out_of_it():
    stays = LINE.split(Decimal("90.00"), "shop", WHY)[0]
    assert [(note.key, note.facts["amount"]) for note in stays.notes] == [("price.less", "30.00")]
