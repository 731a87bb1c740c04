from __future__ import annotations

import datetime as dt
from decimal import Decimal

import pytest
from audits import DRAFT, FILED, REFUSED, WITHDRAWN

from claimpack.core.auditing.audited import Irregularity
from claimpack.core.auditing.report.at_risk import AtRisk, at_risk, on_claim
from claimpack.core.events.standing import Payment
from claimpack.core.values.wording.sentence import say

MONEY = {"A": AtRisk("USD", Decimal(10)), "B": AtRisk("USD", Decimal(5)), "C": AtRisk("CAD", Decimal(2))}


def about(*claims, rule="same-picture"):
    return Irregularity((say(rule),), claims, "look")


@pytest.mark.parametrize(("standing", "amount"), [(FILED, 100), (DRAFT, 0), (WITHDRAWN, 0), (REFUSED, 0)])
def test_a_claim_puts_at_risk_what_its_maker_is_asked_for(standing, amount):
    assert on_claim(standing.model_copy(update={"claimed": Decimal(100)})).amount == amount


def test_what_was_paid_may_be_charged_back():
    paid = (Payment(on=dt.date(2026, 2, 26), amount="80.00"),)
    standing = FILED.model_copy(update={"state": "paid", "payments": paid})
    assert on_claim(standing).amount == Decimal("80.00")


def test_the_money_of_each_claim_counts_once_and_no_currency_with_another():
    assert at_risk([about("A", "B"), about("B", "C")], MONEY) == {"CAD": Decimal(2), "USD": Decimal(15)}


@pytest.mark.parametrize("key", ["below-floor", "evidence-missing.elsewhere"], ids=["owed", "not known"])
def test_what_the_maker_owes_the_shop_or_is_not_known_here_puts_nothing_at_risk(key):
    assert at_risk([about("A", rule=key)], MONEY) == {}
