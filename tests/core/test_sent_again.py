from decimal import Decimal

import pytest
from builders import TODAY, a_claim, a_plan

from claimpack.core.assessment import Circumstances, as_json, assess


@pytest.mark.parametrize(
    ("paid", "said"),
    [
        ("60.00", "Sent again; 60.00 USD was paid before, 40.00 USD is asked for."),
        ("120.00", "Sent again; 120.00 USD was paid before, 0.00 USD is asked for."),
        ("0", "Sent again; nothing was paid before."),
    ],
)
def test_a_claim_sent_again_says_what_was_paid_and_what_is_asked_for(paid, said):
    claim = a_claim(parts=[{"name": "Block", "unit_cost": "100.00"}])
    found = assess(claim, [a_plan()], TODAY, Circumstances(paid_before=Decimal(paid)))
    assert as_json(found)["sent_again"] == said


def test_a_claim_sent_for_the_first_time_says_nothing_of_it():
    assert "sent_again" not in as_json(assess(a_claim(), [a_plan()], TODAY))
