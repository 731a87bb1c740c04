import pytest
from builders import a_claim

from claimpack.core.judging.goodwill import asked_alone

LINES = {
    "parts": [{"name": "Block"}, {"name": "Blade", "payer": "shop"}],
    "labour": [{"operation": "x", "hours": "1"}],
    "extras": [{"what": "freight", "amount": "5"}],
}


@pytest.mark.parametrize(
    ("asks", "payers"),
    [
        ("", ["maker", "shop", "maker", "maker"]),
        ("help with the bill", ["maker", "shop", "maker", "maker"]),
        ("parts", ["maker", "shop", "owner", "owner"]),
        ("the part alone", ["maker", "shop", "owner", "owner"]),
        ("Parts, labor", ["maker", "shop", "maker", "owner"]),
        ("freight", ["owner", "shop", "owner", "maker"]),
    ],
)
def test_a_kind_of_line_that_is_not_asked_for_is_left_to_the_owner(asks, payers):
    claim = asked_alone(a_claim(goodwill={"asks": asks}, **LINES))
    assert [line.payer for line in (*claim.parts, *claim.labour, *claim.extras)] == payers
