import pytest
from manager_shop import a_managed_shop, on, open_in
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
    assert (ran.code, "the claim is a draft, so it cannot be written off now" in ran.err) == (2, True)


@pytest.fixture
def in_part(filed_shop, tmp_path):
    """A claim of 147.20 of which 100.00 is accepted."""
    shop = a_copy(filed_shop, tmp_path)
    walked(shop, "answer part --amount 100 --on 2026-02-26")
    return shop


def test_what_was_refused_of_a_paid_claim_is_let_go_and_the_claim_stays_paid(in_part):
    walked(in_part, "pay 100 --on 2026-02-27")
    told = written_off(in_part, "--because", "Their rate, our mistake.", "--json").json
    assert (told["state"], told["written_off"], told["refused_rest"]) == ("paid", "47.20", "0.00")


def test_the_rest_alone_is_let_go_while_the_accepted_part_is_waited_for(in_part):
    told = written_off(in_part, "--rest", "--because", "Their rate, our mistake.", "--json").json
    assert (told["state"], told["written_off"], told["outstanding"]) == ("accepted", "47.20", "100.00")


def test_without_a_refused_rest_there_is_none_to_let_go(shop):
    ran = written_off(shop, "--rest", "--because", "No.")
    assert (ran.code, "--rest" in ran.err) == (2, True)


def test_the_book_stays_whole_over_letting_go(in_part):
    walked(in_part, "write-off --rest --because rate", "pay 100", "reopen --because slip", "answer accepted")
    assert claimpack("shop", "verify", folder=in_part).out.startswith("WHOLE")


def test_a_claim_is_not_given_up_before_it_was_answered(filed_shop, tmp_path):
    shop = a_copy(filed_shop, tmp_path)
    walked(shop, "answer accepted --on 2026-02-27")
    ran = claimpack("write-off", "26-0001", "--on", "2026-02-26", "--because", "Small.", folder=shop)
    assert (ran.code, "is before 2026-02-27, the day it was accepted" in ran.err) == (2, True)


@pytest.fixture
def drafted(draft_shop, tmp_path):
    return a_copy(draft_shop, tmp_path)


def withdrawn(drafted, *options):
    return claimpack("withdraw", "26-0001", *options, folder=drafted)


def test_a_draft_is_withdrawn_with_its_reason(drafted):
    ran = withdrawn(drafted, "--because", "The owner pays.")
    event = the_desk(drafted).book.history("26-0001")[-1]
    assert (ran.out, event.what, event.why) == ("26-0001 is withdrawn\n", "withdrawn", "The owner pays.")


def test_a_filed_claim_is_withdrawn_and_owes_nothing(drafted):
    walked(drafted, "file --on 2026-02-25")
    told = withdrawn(drafted, "--because", "Filed twice.", "--json").json
    assert (told["state"], told["outstanding"]) == ("withdrawn", "0.00")


def test_a_paid_claim_is_not_withdrawn(drafted):
    walked(drafted, "file --on 2026-02-25", "pay 147.20")
    ran = withdrawn(drafted, "--because", "Too late.")
    assert (ran.code, "the claim is paid, so it cannot be withdrawn now" in ran.err) == (2, True)


def test_a_claim_is_not_withdrawn_without_a_reason(drafted):
    ran = withdrawn(drafted)
    assert (ran.code, "--because is missing" in ran.err) == (2, True)


def test_a_paid_claim_names_how_money_is_taken_back(drafted):
    walked(drafted, "file --on 2026-02-25", "pay 147.20")
    ran = withdrawn(drafted, "--because", "Too late.")
    assert "claimpack pay 26-0001 --undo --because TEXT" in ran.err
    assert "claimpack pay 26-0001 AMOUNT --charged-back" in ran.err


def test_a_claim_is_not_withdrawn_before_it_went_out(drafted):
    walked(drafted, "file --on 2026-02-25")
    ran = withdrawn(drafted, "--on", "2026-02-24", "--because", "Filed twice.")
    assert (ran.code, "went out" in ran.err) == (2, True)


def test_a_draft_may_have_been_withdrawn_any_day_before(drafted):
    assert withdrawn(drafted, "--on", "2026-02-24", "--because", "The owner pays.").code == 0


def reopened(drafted, *options):
    return claimpack("reopen", "26-0001", "--because", "The maker changed its mind.", *options, folder=drafted)


def test_a_withdrawn_claim_is_a_draft_again_and_can_be_filed(drafted):
    walked(drafted, "file --on 2026-02-25", "withdraw --because slip")
    ran = reopened(drafted)
    assert (ran.out, "claimpack file 26-0001" in ran.err) == ("26-0001 is a draft\n", True)
    assert "frozen as version 2" in walked(drafted, "file --on 2026-02-26")[0].out


def test_a_claim_written_off_stands_where_it_stood(drafted):
    walked(drafted, "file --on 2026-02-25", "answer part --amount 100", "pay 60", "write-off --because tired")
    told = reopened(drafted, "--json").json
    assert (told["state"], told["outstanding"], told["written_off"]) == ("accepted", "40.00", "0.00")


def test_a_draft_is_not_reopened(drafted):
    ran = reopened(drafted)
    assert (ran.code, "the claim is a draft, so it cannot be reopened now" in ran.err) == (2, True)


def test_a_rest_let_go_by_mistake_is_taken_up_again(drafted):
    walked(drafted, "file --on 2026-02-25", "answer part --amount 100", "pay 100", "write-off --because slip")
    told = reopened(drafted, "--json").json
    assert (told["state"], told["refused_rest"], told["written_off"]) == ("paid", "47.20", "0.00")


def test_a_rest_let_go_before_the_last_write_off_stays_let_go(drafted):
    steps = ("answer part --amount 100", "pay 50", "write-off --rest --because rate", "write-off --because tired")
    walked(drafted, "file --on 2026-02-25", *steps)
    told = reopened(drafted, "--json").json
    assert (told["state"], told["written_off"], told["outstanding"]) == ("accepted", "47.20", "50.00")
    assert claimpack("shop", "verify", folder=drafted).out.startswith("WHOLE")


def test_finding_the_fault_of_a_declined_repair_is_billed_at_the_rate_of_the_shop_that_day(tmp_path):
    shop = a_managed_shop(tmp_path)
    settings = shop / "shop.toml"
    settings.write_text(f"labour_rates = [{{since = 2026-01-01, rate = '98.00'}}]\n{settings.read_text()}")
    open_in(shop, dates__repaired=None, labour=[{"operation": "find-fault", "hours": "1.0"}])
    ran = on("2026-03-20", "withdraw", "26-0001", "--declined", shop=shop)
    assert (ran.code, "at the shop's rate of 98.00" in " ".join(ran.err.split())) == (0, True)
