from new_events import FILED, LATER, PAYMENT_UNDONE, REOPENED, UNDONE, accepted_in_part, happened, paid

from claimpack.core.payment.lost_money import LostMoney, lost_money

TAKEN_BACK = happened("charged back", LATER, "serial not found", amount="20.00")
RATE = happened("written off", LATER, "their rate", amount="50.00", rest="50.00")
TIRED = happened("written off", LATER, "tired", amount="20.00")
PAID = [FILED, accepted_in_part("100.00"), paid("80.00")]


def test_the_last_of_each_is_told_with_its_reason():
    assert lost_money([*PAID, TAKEN_BACK, RATE, TIRED]) == LostMoney(TAKEN_BACK, TIRED)


def test_what_was_undone_is_left_out():
    assert lost_money([*PAID, TAKEN_BACK, PAYMENT_UNDONE, RATE, TIRED, REOPENED]) == (None, RATE)


def test_a_charge_back_stands_when_money_came_in_after_it():
    assert lost_money([*PAID, TAKEN_BACK, paid("20.00")]).taken_back == TAKEN_BACK


def test_an_answer_undone_takes_back_what_was_given_up_because_of_it():
    assert lost_money([FILED, accepted_in_part("100.00"), RATE, UNDONE]).given_up is None


def test_what_was_given_up_is_asked_for_once_more_where_it_is_filed_again():
    assert lost_money([*PAID, TAKEN_BACK, RATE, FILED]) == (TAKEN_BACK, None)
