import pytest
from running import claimpack
from shop_builders import the_desk
from shops_with_claims import a_copy, walked


@pytest.fixture
def shop(filed_shop, tmp_path):
    shop = a_copy(filed_shop, tmp_path)
    walked(shop, "answer accepted --on 2026-02-26", "pay 100 --on 2026-02-27")
    return shop


def written_off(shop, *options):
    return claimpack("write-off", "26-0001", *options, folder=shop)


def test_the_rest_of_a_short_payment_is_written_off(shop):
    told = written_off(shop, "--because", "Not worth the telephone.", "--json").json
    assert (told["state"], told["paid"], told["written_off"], told["outstanding"]) == (
        "written off",
        "100.00",
        "47.20",
        "0.00",
    )


def test_a_write_off_is_in_the_history_with_amount_and_reason(shop):
    written_off(shop, "--because", "Not worth the telephone.")
    event = the_desk(shop).book.history("26-0001")[-1]
    assert (event.what, event.why, event.facts) == ("written off", "Not worth the telephone.", {"amount": "47.20"})


def test_a_write_off_needs_a_reason(shop):
    ran = written_off(shop)
    assert (ran.code, "--because is missing" in ran.err) == (2, True)


def test_a_draft_has_nothing_to_write_off(draft_shop, tmp_path):
    ran = written_off(a_copy(draft_shop, tmp_path), "--because", "No.")
    assert (ran.code, "the claim is draft, so it cannot be written off now" in ran.err) == (2, True)
