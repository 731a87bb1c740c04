import pytest
from builders import a_claim, a_plan

from claimpack.core.near_names import near_names

PLANS = [a_plan(models=["CS-70", "CS-80"], maker_name="Halden Tools")]


@pytest.mark.parametrize(
    ("changes", "near"),
    [
        ({}, []),
        ({"maker": "haldn"}, [("maker", "haldn", "halden")]),
        ({"maker": "halden tool"}, [("maker", "halden tool", "Halden Tools")]),
        ({"unit__model": "CS-770"}, [("unit.model", "CS-770", "CS-70")]),
        ({"maker": "zzz"}, []),
        ({"unit__model": "generator"}, []),
    ],
)
def test_a_mistyped_name_is_told_with_the_nearest(changes, near):
    assert [tuple(name) for name in near_names(a_claim(**changes), PLANS)] == near
