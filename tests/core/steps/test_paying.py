from decimal import Decimal

import pytest
from settled_claims import ACCEPTED, FILED, PAID, SILENT, STEP, happened, standing

from claimpack.core.events.standing import Standing
from claimpack.core.steps import paying
from claimpack.core.steps.paying import answer_undone, payment_undone, reopened, what_was_undone, withdrawn, written_off
from claimpack.core.steps.settling import Step
from claimpack.errors import BadInput, WrongState


def test_a_payment_is_recorded_in_whole_coins():
    assert paying.paid(standing(ACCEPTED), STEP, "100").facts == {"amount": "100.00"}


@pytest.mark.parametrize("amount", ["59.69", "59.70"])
def test_a_second_payment_up_to_what_is_outstanding_is_taken(amount):
    assert paying.paid(standing(ACCEPTED, PAID), STEP, amount).facts == {"amount": amount}


def test_more_than_is_outstanding_is_refused():
    with pytest.raises(BadInput, match=r"59\.71 USD is more than is outstanding, 59\.70 USD"):
        paying.paid(standing(ACCEPTED, PAID), STEP, "59.71")


def test_more_than_is_outstanding_is_taken_with_a_reason():
    assert paying.paid(standing(ACCEPTED, PAID), STEP, "59.71", anyway=True).facts == {"amount": "59.71"}


ON_FILING = Step(on=FILED, why="As agreed.")


@pytest.mark.parametrize(
    ("step", "amount"), [(STEP, "50"), (ON_FILING, "49.99")], ids=["another day", "another amount"]
)
def test_a_payment_like_another_in_one_thing_alone_is_another(step, amount):
    before = standing(ACCEPTED, happened("paid", amount="50.00"))
    assert paying.paid(before, step, amount).what == "paid"


def test_the_same_payment_on_the_same_day_is_refused_as_entered_twice():
    before = standing(ACCEPTED, happened("paid", amount="50.00"))
    with pytest.raises(BadInput, match=r"a payment of 50\.00 USD on 2026-03-02 is already recorded"):
        paying.paid(before, ON_FILING, "50")


def test_the_same_payment_that_settled_the_claim_is_said_to_be_recorded_already():
    with pytest.raises(BadInput, match="is already recorded"):
        paying.paid(standing(ACCEPTED, happened("paid", amount="159.70")), ON_FILING, "159.70")


def test_the_same_payment_is_taken_twice_with_a_reason():
    before = standing(ACCEPTED, happened("paid", amount="50.00"))
    assert paying.paid(before, ON_FILING, "50", anyway=True).facts == {"amount": "50.00"}


TAKEN = happened("charged back", amount="20.00")


def test_the_same_charge_back_on_the_same_day_is_refused_as_entered_twice():
    with pytest.raises(BadInput, match=r"a charge-back of 20\.00 USD on 2026-03-02 is already recorded"):
        paying.charged_back(standing(ACCEPTED, PAID, TAKEN), ON_FILING, "20")


def test_the_same_charge_back_is_taken_twice_with_a_reason():
    told = paying.charged_back(standing(ACCEPTED, PAID, TAKEN), ON_FILING, "20", anyway=True)
    assert told.facts == {"amount": "20.00"}


def test_nothing_is_paid_on_a_draft():
    with pytest.raises(WrongState, match="the claim is a draft"):
        paying.paid(Standing(), STEP, "1.00")


def test_a_charge_back_takes_at_most_what_was_paid():
    with pytest.raises(BadInput, match=r"100\.01 USD is more than was paid, 100\.00 USD"):
        paying.charged_back(standing(ACCEPTED, PAID), STEP, "100.01")


def test_a_charge_back_is_recorded_with_its_reason():
    told = paying.charged_back(standing(ACCEPTED, PAID), STEP, "100.00")
    assert (told.what, told.why, told.facts) == ("charged back", "As agreed.", {"amount": "100.00"})


def test_a_charge_back_needs_a_reason():
    with pytest.raises(BadInput, match="--because is missing"):
        paying.charged_back(standing(ACCEPTED, PAID), SILENT, "1")


IN_PART = happened("answered", answer="part", amount="100.00")


def test_money_beyond_the_accepted_part_asks_whether_the_maker_gave_in():
    with pytest.raises(BadInput) as caught:
        paying.paid(standing(IN_PART, PAID), STEP, "59.70")
    assert "claimpack answer CLAIM part --amount MORE" in caught.value.do


TAKEN_BACK = happened("charged back", amount="40.00")


def test_an_undone_answer_names_the_answer():
    told = answer_undone(standing(ACCEPTED), STEP)
    assert (told.what, told.facts) == ("answer undone", {"answer": "accepted", "answered": "2026-03-02"})


def test_where_money_alone_accepted_there_is_no_answer_to_undo():
    all_of_it = happened("paid", amount="159.70")
    with pytest.raises(WrongState, match="no answer that could be undone"):
        answer_undone(standing(all_of_it, TAKEN_BACK), STEP)


def test_an_undone_payment_names_the_payment():
    told = payment_undone(standing(ACCEPTED, PAID), STEP)
    assert (told.what, told.facts) == ("payment undone", {"amount": "100.00", "paid": "2026-03-02"})


def test_without_a_payment_there_is_none_to_undo():
    with pytest.raises(WrongState, match="no payment that could be undone"):
        payment_undone(standing(ACCEPTED), STEP)


@pytest.mark.parametrize("undone", [answer_undone, payment_undone])
def test_undoing_needs_a_reason(undone):
    with pytest.raises(BadInput, match="--because is missing"):
        undone(standing(ACCEPTED, PAID), SILENT)


@pytest.mark.parametrize(
    ("step", "more", "said"),
    [
        (answer_undone, (ACCEPTED,), "Undone: the answer accepted of 2026-03-02."),
        (payment_undone, (PAID,), "Undone: the payment of 100.00 USD of 2026-03-02."),
        (payment_undone, (PAID, TAKEN_BACK), "Undone: the charge-back of 40.00 USD of 2026-03-02."),
    ],
    ids=["an answer", "a payment", "a charge-back"],
)
def test_what_was_undone_is_named_with_its_day(step, more, said):
    assert what_was_undone(step(standing(*more), STEP), "USD") == said


def test_nothing_is_undone_by_a_payment():
    assert what_was_undone(PAID, "USD") == ""


MORE_IN_PART = happened("answered", answer="part", amount="120.00")


@pytest.mark.parametrize(
    "step",
    [
        lambda: written_off(standing(), SILENT),
        lambda: withdrawn(standing(), SILENT),
        lambda: reopened(standing(happened("withdrawn")), SILENT),
    ],
    ids=["write off", "withdraw", "reopen"],
)
def test_ending_a_claim_needs_a_reason(step):
    with pytest.raises(BadInput, match="--because is missing"):
        step()


def test_all_that_is_outstanding_is_written_off():
    assert written_off(standing(ACCEPTED, PAID), STEP).facts == {"amount": "59.70"}


def test_a_claim_written_off_owes_nothing():
    after = standing(ACCEPTED, PAID, written_off(standing(ACCEPTED, PAID), STEP))
    assert (after.state, after.outstanding, after.written_off) == ("written off", 0, Decimal("59.70"))


def test_what_the_maker_refused_of_a_paid_claim_is_written_off():
    before = standing(MORE_IN_PART, happened("paid", amount="120.00"))
    assert written_off(before, STEP).facts == {"amount": "39.70", "rest": "39.70"}


def test_the_refused_rest_alone_is_written_off_while_the_part_is_waited_for():
    assert written_off(standing(MORE_IN_PART), STEP, rest_only=True).facts == {"amount": "39.70", "rest": "39.70"}


def test_a_claim_given_up_whole_gives_up_the_refused_rest_too():
    assert written_off(standing(MORE_IN_PART, PAID), STEP).facts == {"amount": "59.70", "rest": "39.70"}


def test_without_a_refused_rest_it_cannot_be_written_off_alone():
    with pytest.raises(BadInput, match="--rest: no part of the claim is refused"):
        written_off(standing(ACCEPTED), STEP, rest_only=True)
