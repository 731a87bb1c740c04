import pytest
from settled_claims import ACCEPTED, PAID, SILENT, STEP, happened, standing

from claimpack.core.undoing import answer_undone, payment_undone, what_was_undone
from claimpack.errors import BadInput, WrongState

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
