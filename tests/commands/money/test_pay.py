import pytest
from manager_shop import a_managed_shop, filed_in, on, took_place
from running import claimpack
from shop_builders import the_desk
from shops_with_claims import a_copy, walked


@pytest.fixture
def shop(filed_shop, tmp_path):
    """A claim of 147.20, accepted."""
    shop = a_copy(filed_shop, tmp_path)
    walked(shop, "answer accepted --on 2026-02-26")
    return shop


def paid(shop, *options):
    return claimpack("pay", "26-0001", *options, folder=shop)


def last_event(shop):
    return the_desk(shop).book.history("26-0001")[-1]


def test_a_payment_in_full_settles_a_claim(shop):
    told = paid(shop, "147.20", "--on", "2026-02-27", "--json").json
    assert (told["state"], told["paid"], told["outstanding"], told["paid_on"]) == (
        "paid",
        "147.20",
        "0.00",
        "2026-02-27",
    )


def test_a_short_payment_says_what_is_outstanding_and_what_to_do(shop):
    ran = paid(shop, "100")
    assert "26-0001 is accepted: claimed 147.20 USD, accepted 147.20, paid 100.00, outstanding 47.20" in ran.out
    assert "47.20 USD is still to come; chase it, or give it up: claimpack write-off 26-0001" in ran.err


@pytest.mark.parametrize(("second", "state"), [("47.19", "accepted"), ("47.20", "paid")])
def test_several_payments_add_up(shop, second, state):
    walked(shop, "pay 100")
    assert paid(shop, second, "--json").json["state"] == state


def test_more_than_is_outstanding_is_refused(shop):
    ran = paid(shop, "147.21")
    assert (ran.code, "more than is outstanding, 147.20 USD" in ran.err) == (2, True)
    assert last_event(shop).what == "answered"


def test_more_than_is_outstanding_is_taken_with_a_reason(shop):
    ran = paid(shop, "150", "--anyway", "They paid the freight too.", "--json")
    assert (ran.json["paid"], last_event(shop).why) == ("150.00", "They paid the freight too.")


def test_a_payment_on_a_paid_claim_is_more_than_is_outstanding(shop):
    walked(shop, "pay 147.20")
    ran = paid(shop, "1")
    assert (ran.code, "more than is outstanding, 0.00 USD" in ran.err) == (2, True)


def test_a_payment_without_an_answer_is_one(filed_shop, tmp_path):
    shop = a_copy(filed_shop, tmp_path)
    assert paid(shop, "147.20", "--json").json["state"] == "paid"


def test_money_taken_back_is_outstanding_again(shop):
    walked(shop, "pay 147.20 --on 2026-02-27")
    told = paid(shop, "47.20", "--charged-back", "--because", "Part could not be produced.", "--json").json
    assert (told["state"], told["paid"], told["outstanding"]) == ("accepted", "100.00", "47.20")
    assert last_event(shop).what == "charged back"


@pytest.mark.parametrize(
    ("options", "said"),
    [
        ([], "AMOUNT is missing"),
        (["ten"], "'ten'"),
        (["10.005"], "more decimals than USD"),
        (["10", "--on", "2026-02-24"], "2026-02-25"),
        (["10", "--on", "2026-03-02"], "2026-03-02"),
        (["10", "--charged-back", "--because", "Audit."], "more than was paid"),
        (["--undo", "--because", "slip"], "no payment"),
    ],
)
def test_what_cannot_be_is_refused_and_changes_nothing(shop, options, said):
    ran = paid(shop, *options)
    assert (ran.code, said in ran.err, last_event(shop).what) == (2, True, "answered")


def test_a_charge_back_needs_a_reason(shop):
    walked(shop, "pay 100")
    ran = paid(shop, "50", "--charged-back")
    assert (ran.code, "--because is missing" in ran.err) == (2, True)


def test_a_payment_entered_by_mistake_is_undone(shop):
    walked(shop, "pay 147.20")
    told = paid(shop, "--undo", "--because", "Meant for 26-0002.", "--json").json
    assert (told["state"], told["paid"], told["outstanding"]) == ("accepted", "0.00", "147.20")
    assert last_event(shop).facts == {"amount": "147.20", "paid": "2026-03-01"}


def test_the_book_stays_whole_over_payments(shop):
    walked(shop, "pay 100", "pay 47.20", "pay 20 --charged-back --because Audit", "pay --undo --because slip")
    assert claimpack("shop", "verify", folder=shop).out.startswith("WHOLE")


def test_the_payment_of_a_part_says_what_was_not_accepted_and_the_ways_on(filed_shop, tmp_path):
    shop = a_copy(filed_shop, tmp_path)
    walked(shop, "answer part --amount 100")
    ran = paid(shop, "100")
    assert "26-0001 is paid" in ran.out
    assert ran.err.startswith("47.20 USD was not accepted. If the maker reverses: claimpack answer 26-0001 accepted")


def test_pending_does_not_count_what_was_refused(filed_shop, tmp_path):
    shop = a_copy(filed_shop, tmp_path)
    walked(shop, "answer part --amount 100", "pay 60")
    assert claimpack("pending", "--json", folder=shop).json["totals"]["outstanding"] == "40.00"


def test_a_payment_undone_is_named(shop):
    walked(shop, "pay 100 --on 2026-02-27")
    assert "Undone: the payment of 100.00 USD of 2026-02-27." in walked(shop, "pay --undo --because slip")[0].err


def test_the_same_payment_of_the_same_day_is_refused(shop):
    walked(shop, "pay 50 --on 2026-02-27")
    ran = paid(shop, "50.00", "--on", "2026-02-27")
    assert (ran.code, "a payment of 50.00 USD on 2026-02-27 is already recorded" in ran.err) == (2, True)


def test_the_same_payment_of_the_same_day_is_taken_with_a_reason(shop):
    walked(shop, "pay 50 --on 2026-02-27")
    ran = paid(shop, "50.00", "--on", "2026-02-27", "--anyway", "Two cheques.", "--json")
    assert (ran.json["paid"], last_event(shop).why) == ("100.00", "Two cheques.")


def test_money_is_not_taken_back_before_it_came(shop):
    walked(shop, "pay 147.20 --on 2026-02-28")
    ran = paid(shop, "20", "--charged-back", "--because", "Audit.", "--on", "2026-02-27")
    assert (ran.code, "is before 2026-02-28, the day it was paid" in ran.err) == (2, True)


def test_a_part_paid_after_silence_had_accepted_the_whole_says_what_filing_again_would_give_up(tmp_path):
    shop = a_managed_shop(tmp_path)
    filed_in(shop, received="2026-01-02")
    took_place(shop, "26-0001", "answered", "2026-03-01", answer="part", amount="100.00")
    ran = on("2026-03-10", "pay", "26-0001", "100", shop=shop)
    assert ("2026-02-16" in ran.err, "claimpack chase 26-0001" in ran.err) == (True, True)


def test_a_payment_in_full_says_nothing_of_terms_that_cannot_be_read(tmp_path):
    shop = a_managed_shop(tmp_path)
    filed_in(shop, terms="us-zz")
    assert on("2026-03-10", "pay", "26-0001", "150", shop=shop).err == ""


def test_money_taken_back_after_an_audit_could_reach_names_the_day_and_the_letter(tmp_path):
    shop = a_managed_shop(tmp_path)
    filed_in(shop, received="2026-01-02")
    took_place(shop, "26-0001", "paid", "2026-02-20", amount="150.00")
    back = ("pay", "26-0001", "20", "--charged-back", "--because", "Audit.")
    said = {day: on(day, *back, shop=shop).err for day in ("2027-02-20", "2027-02-21")}
    assert {day: "2027-02-20" in told for day, told in said.items()} == {"2027-02-20": False, "2027-02-21": True}
    assert "claimpack chase 26-0001" in said["2027-02-21"]
