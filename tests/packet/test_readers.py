from __future__ import annotations

import pytest
from builders import a_claim, a_plan
from drawn_packets import a_layout, draw, text_of

PRICED = {
    "parts": [
        {"number": "70-1", "name": "piston", "unit_cost": "77.31"},
        {"number": "70-2", "name": "air filter", "unit_cost": "18.40", "payer": "owner"},
    ],
    "approval": {"number": "HA-9", "up_to": "612.00"},
    "questions": [{"asked": "2026-03-02", "text": "Which fuel?"}],
}


@pytest.fixture(scope="module")
def owners() -> str:
    return text_of(draw(a_claim(**PRICED), a_plan(), a_layout().written_for("owner")))


@pytest.mark.parametrize("price", ["77.31", "612.00", "Amount claimed", "Unit price"])
def test_the_owner_is_told_no_price_of_the_shop(owners, price):
    assert price not in owners


@pytest.mark.parametrize("said", ["Owner pays 18.40 USD", "piston 1 maker", "air filter 1 18.40 owner 18.40"])
def test_the_owner_is_told_what_was_done_who_pays_and_their_own_amount(owners, said):
    assert said in owners


@pytest.mark.parametrize("said", ["Which fuel?", "Declaration", "Dates to keep", "HA-9"])
def test_what_shop_and_maker_have_between_them_is_not_told_to_the_owner(owners, said):
    assert said not in owners


def test_the_same_layout_for_the_maker_is_the_layout():
    assert a_layout().written_for("maker") == a_layout()


def test_a_unit_in_stock_has_pages_for_an_owner_too():
    stock = a_claim(case="stock", owner=None, dates__purchased=None, dates__delivered=None)
    assert "unit in dealer's stock" in text_of(draw(stock, layout=a_layout().written_for("owner")))
