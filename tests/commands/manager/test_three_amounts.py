"""The three amounts at the top of `pending`, as a screen shows them."""

from __future__ import annotations

import pytest
from manager_shop import a_managed_shop, filed_in, on, took_place
from screen_columns import ending_under
from several_shops import two_shops

DAY = "2026-03-20"


@pytest.fixture(scope="module")
def shop(tmp_path_factory):
    """Claims of 150.00 that makers are late with: five on Halden, and one more; of the last, 100.00 was paid."""
    shop = a_managed_shop(tmp_path_factory.mktemp("amounts"))
    for count in range(1, 6):
        filed_in(shop, f"26-000{count}", received="2026-01-02")
    filed_in(shop, "26-0006", received="2026-01-02", maker="Tessaly Pumps", unit__model="TP-20")
    took_place(shop, "26-0005", "answered", "2026-02-01", answer="accepted")
    took_place(shop, "26-0005", "paid", "2026-02-10", amount="100.00")
    return shop


def amounts_told(shop, *options):
    """What stands above the list, an amount each: its lines."""
    above = on(DAY, "pending", *options, shop=shop).out.partition("\nPending on")[0]
    return [part.splitlines() for part in above.strip().split("\n\n")]


def test_five_claims_of_an_amount_are_listed_and_the_rest_is_summed(shop):
    late = amounts_told(shop)[1]
    listed = [line.split()[0] for line in late if line.startswith(" 26-")]
    assert (late[0].endswith(": 800.00 USD on 6 claims"), len(listed), late[-1].endswith("50.00 USD")) == (
        True,
        5,
        True,
    )


def test_nothing_is_left_to_sum_up_where_all_claims_of_an_amount_are_listed(shop):
    late = amounts_told(shop, "--maker", "halden")[1]
    listed = [line for line in late if line.startswith(" 26-")]
    assert len(listed) == 5
    assert len(late) == len(["its heading", "titles"]) + 2 * len(listed)


def test_amounts_of_any_size_end_under_each_other(shop):
    late = amounts_told(shop, "--maker", "halden")[1]
    assert [line.split()[-3] for line in late if line.startswith(" 26-")][-1] == "50.00"
    assert ending_under("\n".join(late), "Amount") == ["USD"] * 5


def test_only_what_can_be_lost_has_a_day_up_to_which_it_looks(tmp_path):
    told = amounts_told(a_managed_shop(tmp_path))
    assert [("2026-03-27" in heading) for (heading,) in told] == [True, False, False]


def test_an_amount_of_nothing_is_told_in_the_shops_currency(tmp_path):
    told = amounts_told(a_managed_shop(tmp_path))
    assert [heading.partition(": ")[2] for (heading,) in told] == ["0.00 USD"] * 3


def test_a_claim_without_a_day_shows_none_of_it(tmp_path):
    shop = a_managed_shop(tmp_path)
    filed_in(shop)
    took_place(shop, "26-0001", "answered", "2026-03-01", answer="questioned")
    filed_in(shop, "26-0002", received="2026-01-02")
    late, ours = amounts_told(shop)[1:]
    assert ("2026-03-18" in late[2], ours[1].split()) == (True, ["Claim", "Maker", "Amount"])


@pytest.fixture
def by_shop(tmp_path):
    """The amounts of each shop, as the one tells them that does not know the terms of the other."""
    told = amounts_told(two_shops(tmp_path) / "hollis", "--all-shops")[-1]
    assert told[0] == "By shop"
    return told[1:]


def test_by_shop_what_makers_are_late_with_is_told_of_shops_alone_whose_terms_are_known(by_shop):
    late = by_shop[0].index("Makers"), by_shop[0].index("  Only")
    assert {row.split()[0]: row[slice(*late)].split() for row in by_shop[1:]} == {
        "ashby": ["not", "known"],
        "hollis": ["150.00", "USD"],
        "all": ["not", "known"],
    }


def test_by_shop_all_amounts_end_under_their_titles(by_shop):
    assert len({len(line) for line in by_shop}) == 1
