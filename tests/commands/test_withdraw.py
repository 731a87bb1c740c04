import pytest
from running import claimpack
from shop_builders import the_desk
from shops_with_claims import a_copy, walked


@pytest.fixture
def shop(draft_shop, tmp_path):
    return a_copy(draft_shop, tmp_path)


def withdrawn(shop, *options):
    return claimpack("withdraw", "26-0001", *options, folder=shop)


def test_a_draft_is_withdrawn_with_its_reason(shop):
    ran = withdrawn(shop, "--because", "The owner pays.")
    event = the_desk(shop).book.history("26-0001")[-1]
    assert (ran.out, event.what, event.why) == ("26-0001 is withdrawn\n", "withdrawn", "The owner pays.")


def test_a_filed_claim_is_withdrawn_and_owes_nothing(shop):
    walked(shop, "file --on 2026-02-25")
    told = withdrawn(shop, "--because", "Filed twice.", "--json").json
    assert (told["state"], told["outstanding"]) == ("withdrawn", "0.00")


def test_a_paid_claim_is_not_withdrawn(shop):
    walked(shop, "file --on 2026-02-25", "pay 147.20")
    ran = withdrawn(shop, "--because", "Too late.")
    assert (ran.code, "the claim is paid, so it cannot be withdrawn now" in ran.err) == (2, True)


def test_a_claim_is_not_withdrawn_without_a_reason(shop):
    ran = withdrawn(shop)
    assert (ran.code, "--because is missing" in ran.err) == (2, True)


def test_a_paid_claim_names_how_money_is_taken_back(shop):
    walked(shop, "file --on 2026-02-25", "pay 147.20")
    ran = withdrawn(shop, "--because", "Too late.")
    assert "claimpack pay 26-0001 --undo --because TEXT" in ran.err
    assert "claimpack pay 26-0001 AMOUNT --charged-back" in ran.err


def test_a_claim_is_not_withdrawn_before_it_went_out(shop):
    walked(shop, "file --on 2026-02-25")
    ran = withdrawn(shop, "--on", "2026-02-24", "--because", "Filed twice.")
    assert (ran.code, "taken back after it went out, not before" in ran.err) == (2, True)


def test_a_draft_may_have_been_withdrawn_any_day_before(shop):
    assert withdrawn(shop, "--on", "2026-02-24", "--because", "The owner pays.").code == 0
