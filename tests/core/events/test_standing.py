from datetime import date
from decimal import Decimal

import pytest
from folded_claims import IN_PART, PAID_IN_PART
from new_events import (
    ACCEPTED,
    FILED,
    LATER,
    OPENED,
    UNDONE,
    WAY_TO,
    accepted_in_part,
    happened,
    paid,
    written_off,
)

from claimpack.core.events.fold import stand


@pytest.mark.parametrize("state", ["draft", "paid", "written off", "withdrawn"])
def test_nothing_is_outstanding_on_a_claim_that_is_not_pending(state):
    assert stand(WAY_TO[state]).outstanding == 0


@pytest.mark.parametrize("events", [IN_PART, PAID_IN_PART], ids=["waited for", "paid"])
def test_what_was_not_accepted_is_the_refused_rest(events):
    assert stand(events).refused_rest == Decimal("50.00")


@pytest.mark.parametrize("state", WAY_TO)
def test_without_an_answer_in_part_nothing_is_a_refused_rest(state):
    assert stand(WAY_TO[state]).refused_rest == 0


@pytest.mark.parametrize(("accepted", "rest"), [("149.99", "0.01"), ("150.00", "0")])
def test_a_part_that_is_the_whole_leaves_no_rest(accepted, rest):
    assert stand([OPENED, FILED, accepted_in_part(accepted)]).refused_rest == Decimal(rest)


@pytest.mark.parametrize(("more", "rest"), [("49.99", "0.01"), ("50.00", "0"), ("50.01", "0")])
def test_what_the_maker_pays_beyond_its_part_is_no_longer_refused(more, rest):
    assert stand([*PAID_IN_PART, paid(more, LATER)]).refused_rest == Decimal(rest)


def test_a_refused_rest_is_not_outstanding():
    standing = stand(PAID_IN_PART)
    assert (standing.state, standing.outstanding) == ("paid", 0)


def test_giving_in_undone_leaves_the_claim_paid_with_its_refused_rest():
    standing = stand([*PAID_IN_PART, ACCEPTED, UNDONE])
    assert (standing.state, standing.accepted, standing.refused_rest) == ("paid", Decimal("100.00"), Decimal("50.00"))


CHARGED = happened("charged back", amount="20.00")


def test_money_taken_back_of_a_paid_claim_is_owed_again_since_that_day():
    assert stand([*WAY_TO["paid"], CHARGED]).owed_again == CHARGED.on


@pytest.mark.parametrize(
    "before",
    [
        [ACCEPTED, paid("100.00"), written_off("50.00")],
        [accepted_in_part("100.00"), paid("100.00"), happened("written off", amount="50.00", rest="50.00")],
    ],
    ids=["of what was accepted", "of what was refused"],
)
def test_money_taken_back_is_owed_again_where_the_rest_was_given_up(before):
    assert stand([OPENED, FILED, *before, CHARGED]).owed_again == CHARGED.on


def test_a_charge_back_is_counted_from_the_latest_payment_there_was_in_whatever_order_they_were_entered():
    entered = [paid("60.00", date(2026, 3, 9)), paid("90.00", date(2026, 3, 5))]
    taken = [happened("charged back", date(2026, 3, 20), amount="20.00"), paid("5.00", date(2026, 3, 25))]
    assert stand([OPENED, FILED, ACCEPTED, *entered, *taken]).charged_from == date(2026, 3, 9)


def test_money_taken_back_and_paid_again_is_not_owed():
    assert stand([*WAY_TO["paid"], CHARGED, happened("paid", amount="20.00")]).owed_again is None


def test_money_taken_back_of_a_claim_never_paid_in_full_was_owed_all_along():
    short = happened("paid", amount="50.00")
    assert stand([*WAY_TO["filed"], short, CHARGED]).owed_again is None


QUESTION_LATER = happened("answered", LATER, answer="refused")


def test_the_maker_was_heard_of_on_the_day_of_its_first_answer():
    assert stand([*WAY_TO["questioned"], QUESTION_LATER]).heard == WAY_TO["questioned"][-1].on


@pytest.mark.parametrize(("amount", "heard"), [("20.00", None), ("150.00", LATER)], ids=["a part", "all of it"])
def test_paying_all_of_a_claim_is_heard_of_and_a_part_is_no_answer(amount, heard):
    assert stand([*WAY_TO["filed"], paid(amount, LATER)]).heard == heard


def test_an_answer_that_was_undone_was_not_heard():
    assert stand([*WAY_TO["refused"], UNDONE]).heard is None


@pytest.mark.parametrize(
    ("facts", "is_bare"),
    [({}, True), ({"why": "Wear."}, False), ({"form": "yes"}, False), ({"silence": "yes"}, False)],
)
def test_a_refusal_gives_no_grounds_where_neither_a_reason_nor_form_is_named_and_somebody_wrote_it(facts, is_bare):
    assert stand([OPENED, FILED, happened("answered", answer="refused", **facts)]).gave_no_grounds is is_bare


CHASED = happened("chased", LATER, again="2026-04-01")


@pytest.mark.parametrize(
    ("events", "again"), [([], date(2026, 4, 1)), ([ACCEPTED], None), ([ACCEPTED, UNDONE], date(2026, 4, 1))]
)
def test_a_letter_stands_until_something_comes_of_it(events, again):
    assert stand([OPENED, FILED, CHASED, *events]).ask_again == again
