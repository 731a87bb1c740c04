import pytest
from running import claimpack
from shops_with_claims import a_copy, walked


@pytest.fixture
def shop(draft_shop, tmp_path):
    return a_copy(draft_shop, tmp_path)


def reopened(shop, *options):
    return claimpack("reopen", "26-0001", "--because", "The maker changed its mind.", *options, folder=shop)


def test_a_withdrawn_claim_is_a_draft_again_and_can_be_filed(shop):
    walked(shop, "file --on 2026-02-25", "withdraw --because slip")
    ran = reopened(shop)
    assert (ran.out, "claimpack file 26-0001" in ran.err) == ("26-0001 is draft\n", True)
    assert "frozen as version 2" in walked(shop, "file --on 2026-02-26")[0].out


def test_a_claim_written_off_stands_where_it_stood(shop):
    walked(shop, "file --on 2026-02-25", "answer part --amount 100", "pay 60", "write-off --because tired")
    told = reopened(shop, "--json").json
    assert (told["state"], told["outstanding"], told["written_off"]) == ("accepted", "40.00", "0.00")


def test_a_draft_is_not_reopened(shop):
    ran = reopened(shop)
    assert (ran.code, "the claim is draft, so it cannot be reopened now" in ran.err) == (2, True)


def test_a_rest_let_go_by_mistake_is_taken_up_again(shop):
    walked(shop, "file --on 2026-02-25", "answer part --amount 100", "pay 100", "write-off --because slip")
    told = reopened(shop, "--json").json
    assert (told["state"], told["refused_rest"], told["written_off"]) == ("paid", "47.20", "0.00")


def test_a_rest_let_go_before_the_last_write_off_stays_let_go(shop):
    steps = ("answer part --amount 100", "pay 50", "write-off --rest --because rate", "write-off --because tired")
    walked(shop, "file --on 2026-02-25", *steps)
    told = reopened(shop, "--json").json
    assert (told["state"], told["written_off"], told["outstanding"]) == ("accepted", "47.20", "50.00")
    assert claimpack("shop", "verify", folder=shop).out.startswith("WHOLE")
