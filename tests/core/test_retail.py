from __future__ import annotations

from decimal import Decimal

import pytest
from builders import a_claim, a_plan
from pydantic import ValidationError

from claimpack.core.pricing import price
from claimpack.core.retail import NO_RETAIL, Retail

OWNERS = {"labour": [{"operation": "clean", "hours": "2", "payer": "owner"}]}


def owner_pays(retail):
    return price(a_claim(**OWNERS), a_plan(), retail).amounts.owner


def test_a_shop_that_has_said_nothing_charges_the_plans_rate_without_tax():
    assert owner_pays(NO_RETAIL) == Decimal("184.00")


def test_a_rate_of_nothing_is_a_rate():
    assert owner_pays(Retail(labour_rate="0")) == Decimal(0)


def test_tax_is_a_fraction_of_the_owners_lines():
    assert owner_pays(Retail(labour_rate="100", tax="0.0825")) == Decimal("216.50")


@pytest.mark.parametrize("keys", [{"tax": "-0.01"}, {"labour_rate": "-1"}, {"tax": 0.05}, {"tax": "NaN"}])
def test_what_no_shop_charges_is_refused(keys):
    with pytest.raises(ValidationError):
        Retail.model_validate(keys)
