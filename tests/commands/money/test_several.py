import pytest
from running import claimpack
from shop_builders import a_shop, happen, the_desk

THREE = ("26-0001", "26-0002", "26-0003")


@pytest.fixture
def shop(tmp_path):
    """A shop with three claims of 150.00 filed, and a draft."""
    shop = a_shop(tmp_path, *THREE, "26-0004")
    for number in THREE:
        happen(shop, number, "filed", claimed="150.00", currency="USD")
    return shop


def states(shop):
    return [the_desk(shop).book.get(number).standing.state for number in THREE]


def test_several_claims_are_received_answered_and_paid_in_one_go(shop):
    claimpack("received", *THREE, folder=shop)
    claimpack("answer", *THREE, "accepted", folder=shop)
    ran = claimpack("pay", "26-0001", "150", "26-0002", "150", "26-0003", "100.00", folder=shop)
    assert ran.out.splitlines()[-1] == "3 claims: 400.00 USD recorded, outstanding 50.00 USD"


def test_one_that_cannot_be_leaves_all_as_they_were_and_is_named(shop):
    ran = claimpack("answer", "26-0001", "26-0004", "accepted", folder=shop)
    assert (ran.code, "26-0004: " in ran.err, states(shop)) == (2, True, ["filed"] * 3)


def test_of_one_claim_it_is_not_said_that_nothing_was_recorded_of_any(shop):
    err = claimpack("answer", "26-0004", "accepted", folder=shop).err
    assert ("26-0004: " in err, "of any claim" in err) == (False, False)


def test_several_are_one_document_with_totals(shop):
    told = claimpack("answer", "26-0001", "26-0002", "accepted", "--json", folder=shop).json
    assert ([each["claim"] for each in told["claims"]], told["totals"]["outstanding"]) == (
        ["26-0001", "26-0002"],
        {"USD": "300.00"},
    )


@pytest.mark.parametrize(
    "words",
    ["pay 26-0001 10 26-0001 10", "received 26-0001 26-0001", "answer 26-0001 26-0002 part --amount 9"],
)
def test_a_claim_named_twice_or_one_amount_for_two_is_refused(shop, words):
    assert (claimpack(*words.split(), folder=shop).code, states(shop)) == (2, ["filed"] * 3)


def test_the_claim_at_hand_is_paid_by_the_amount_alone(shop):
    claimpack("at-hand", "26-0002", folder=shop)
    claimpack("answer", "accepted", folder=shop)
    claimpack("pay", "150.00", folder=shop)
    assert states(shop) == ["filed", "paid", "filed"]


def test_answers_to_several_claims_are_undone_in_one_go(shop):
    claimpack("answer", *THREE, "accepted", folder=shop)
    claimpack("answer", "26-0001", "26-0003", "--undo", "--because", "slip", folder=shop)
    assert states(shop) == ["filed", "accepted", "filed"]
