"""A year from the registration, at the latest from two years after the sale; and a battery from the later of two days.

Bought on 2022-01-10, so cover starts on 2024-01-10 at the latest.
"""

from __future__ import annotations

import pytest
from written_terms import assessed

BOOKLET = """
start = {earliest = ["registered", {of = "purchased", plus = "P2Y"}]}

[[window]]
id = "unit"
covers = ["*"]
period = "P1Y"

[[window]]
id = "battery"
covers = ["battery"]
start = {latest = ["delivered", "purchased"]}
period = "P2Y"

[words]
engine = []
"""


def judged(days: str, presented: str, component: str = "engine") -> tuple[str, str, str, tuple[str, ...]]:
    """The verdict, first and last day of the window cited, and what is asked for."""
    claim = f'dates = {{{days}, presented = {presented}}}\nfailure = {{component = "{component}"}}'
    found = assessed(BOOKLET, claim)
    cited = found.window
    return found.verdict, str(cited and cited.starts), str(cited and cited.ends), found.asks


@pytest.mark.parametrize(
    ("registered", "starts", "ends"),
    [
        ("registered = 2024-01-09", "2024-01-09", "2025-01-09"),
        ("registered = 2024-01-10", "2024-01-10", "2025-01-10"),
        ("registered = 2024-01-11", "2024-01-10", "2025-01-10"),
        ("never_registered = true", "2024-01-10", "2025-01-10"),
    ],
)
def test_cover_starts_on_the_earlier_of_the_two_days(registered, starts, ends):
    assert judged(f"purchased = 2022-01-10, {registered}", "2024-06-01") == ("covered", starts, ends, ())


@pytest.mark.parametrize(
    ("presented", "verdict", "asks"),
    [
        ("2022-06-01", "undecided", ("dates.registered",)),
        ("2025-01-10", "undecided", ("dates.registered",)),
        ("2025-01-11", "not covered", ()),
    ],
    ids=["it may have started", "the last day if never registered", "over in any case"],
)
def test_a_registration_that_is_not_given_is_asked_for_while_it_may_decide(presented, verdict, asks):
    found = judged("purchased = 2022-01-10", presented)
    assert (found[0], found[3]) == (verdict, asks)


def test_a_sale_that_is_not_given_is_asked_for():
    assert judged("registered = 2024-01-09", "2025-01-09")[3] == ("dates.purchased",)


@pytest.mark.parametrize(
    ("days", "starts"),
    [
        ("purchased = 2023-01-10, delivered = 2023-01-20", "2023-01-20"),
        ("purchased = 2023-01-20, delivered = 2023-01-10", "2023-01-20"),
    ],
)
def test_the_later_of_two_days_may_count(days, starts):
    assert judged(days, "2025-01-20", "battery")[:2] == ("covered", starts)


def test_of_two_days_the_later_one_is_asked_for_while_it_may_decide():
    assert judged("purchased = 2023-01-10, never_registered = true", "2026-01-20", "battery")[3] == ("dates.delivered",)


def test_an_offset_may_stand_in_a_plain_list():
    earliest = '{earliest = ["registered", {of = "purchased", plus = "P2Y"}]}'
    plan = BOOKLET.replace(earliest, '[{of = "built", plus = "P6M"}]')
    found = assessed(plan, "unit = {built = 2023-07-31}\ndates = {presented = 2024-01-31}")
    assert (found.verdict, str(found.starts)) == ("covered", "2024-01-31")


def test_first_use_that_is_not_given_did_not_differ_from_the_sale():
    plan = BOOKLET.replace('["registered", {of = "purchased", plus = "P2Y"}]', '["delivered", "in_service"]')
    found = assessed(plan, "dates = {delivered = 2024-01-10, presented = 2025-01-10}")
    assert (found.verdict, str(found.starts)) == ("covered", "2024-01-10")


@pytest.mark.parametrize(("used", "verdict"), [("2024-01-09", "not covered"), ("2024-01-10", "covered")])
def test_a_demonstrator_is_covered_from_its_first_use(used, verdict):
    plan = BOOKLET.replace('["registered", {of = "purchased", plus = "P2Y"}]', '["delivered", "in_service"]')
    days = f"delivered = 2024-02-01, in_service = {used}, presented = 2025-01-10"
    assert assessed(plan, f"dates = {{{days}}}\nfailure = {{component = 'engine'}}").verdict == verdict
