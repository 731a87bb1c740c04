from decimal import Decimal

import pytest

from claimpack.core.claims.parts_list_row import PartsListRow, differs, filled_in
from claimpack.core.facts.lines import Part

LISTED = PartsListRow("prices.csv, row 2", "A-1", "coil", Decimal("12.50"))


def test_what_was_typed_goes_before_the_list():
    assert filled_in({"name": "ignition coil"}, LISTED) == {
        "number": "A-1",
        "name": "ignition coil",
        "unit_cost": Decimal("12.50"),
    }


def test_what_comes_back_to_the_maker_is_taken_from_the_list():
    assert filled_in({}, LISTED._replace(core=Decimal("40.00")))["core"] == Decimal("40.00")


def test_a_part_the_maker_sent_takes_no_cost_from_the_list():
    assert "unit_cost" not in filled_in({"source": "maker"}, LISTED)


@pytest.mark.parametrize(("cost", "told"), [("12.50", False), ("12.49", True)])
def test_another_cost_than_the_lists_is_told(cost, told):
    assert bool(differs(Part(name="Coil", number="A-1", unit_cost=cost), LISTED)) is told
