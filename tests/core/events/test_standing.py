from datetime import date
from decimal import Decimal

import pytest
from folded_claims import IN_PART, PAID_IN_PART
from new_events import (
    ACCEPTED,
    DAY,
    FILED,
    LATER,
    OPENED,
    PART_WAY_TO,
    REFUSED,
    UNDONE,
    WAY_TO,
    accepted_in_part,
    happened,
    paid,
    written_off,
)

from claimpack.core.events.fold import stand
from claimpack.core.events.standing import Answer, Standing


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


@pytest.mark.parametrize(
    "before",
    [
        [*WAY_TO["filed"], paid("50.00")],
        [*IN_PART, happened("written off", amount="50.00", rest="50.00"), paid("90.00")],
    ],
    ids=["without an answer", "accepted in part, its rest let go"],
)
def test_money_taken_back_of_a_claim_never_paid_in_full_was_owed_all_along(before):
    assert stand([*before, CHARGED]).owed_again is None


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


@pytest.mark.parametrize("state", [state for state in WAY_TO if state != "refused"])
def test_a_claim_that_is_not_refused_lacks_no_grounds(state):
    assert not stand(WAY_TO[state]).gave_no_grounds


SILENCE = happened("answered", answer="refused", silence="yes")


@pytest.mark.parametrize(
    ("events", "decided"),
    [
        ([happened("answered", answer="questioned")], None),
        ([SILENCE], None),
        ([REFUSED], DAY),
        ([happened("answered", answer="questioned"), accepted_in_part("100.00", LATER)], LATER),
        ([paid("149.99", LATER)], None),
        ([paid("150.00", LATER)], LATER),
        ([REFUSED, happened("answered", LATER, answer="accepted")], DAY),
    ],
    ids=["asked", "silent", "refused", "accepted later", "paid in part", "paid", "refused first"],
)
def test_the_maker_decided_on_the_day_it_first_said_what_it_pays(events, decided):
    assert stand([OPENED, FILED, *events]).decided == decided


def test_of_a_silent_maker_nothing_was_heard():
    assert stand([OPENED, FILED, SILENCE]).heard is None


@pytest.mark.parametrize(
    ("state", "gone"), [("held", ()), ("called back", ()), ("sent", (1,)), ("released", (1,)), ("scrapped", (1,))]
)
def test_a_part_is_gone_once_it_is_sent_or_let_go(state, gone):
    assert stand([OPENED, *PART_WAY_TO[state]]).parts_gone == gone


def test_what_is_accepted_short_of_the_claim_without_being_called_a_part_leaves_no_refused_rest():
    assert stand([OPENED, FILED, happened("answered", answer="accepted", amount="100.00")]).refused_rest == 0


def test_of_a_claim_written_off_nothing_is_a_refused_rest():
    assert stand([*IN_PART, written_off("100.00")]).refused_rest == 0


def test_the_last_day_money_was_taken_back_and_the_last_it_came_in_are_told_apart():
    standing = stand([*WAY_TO["paid"], happened("charged back", LATER, amount="20.00")])
    assert (standing.paid_on, standing.charged_back_on, standing.charged_from) == (DAY, LATER, DAY)


def march(day):
    return date(2026, 3, day)


@pytest.mark.parametrize(
    ("entered", "since"),
    [
        ([paid("60.00", march(2)), paid("90.00", march(25)), ("charged back", 20)], 2),
        ([("charged back", 20), paid("90.00", march(20))], 1),
        ([paid("90.00", march(20)), ("charged back", 20)], 20),
        ([("charged back", 20), paid("90.00", march(19))], 19),
    ],
    ids=["a later payment entered first", "paid again that day", "paid that day", "an earlier payment entered last"],
)
def test_a_charge_back_is_counted_from_the_payment_that_had_come_in_by_its_day(entered, since):
    events = [
        each if not isinstance(each, tuple) else happened(each[0], march(each[1]), amount="5") for each in entered
    ]
    assert stand([OPENED, FILED, ACCEPTED, paid("10.00", march(1)), *events]).charged_from == march(since)


def test_of_charge_backs_entered_out_of_order_the_latest_is_the_last():
    taken = [happened("charged back", march(day), amount="5.00") for day in (20, 10)]
    assert stand([*WAY_TO["paid"], *taken]).charged_back_on == march(20)


def test_money_is_owed_again_since_the_first_charge_back_by_its_day_in_whatever_order_they_were_entered():
    taken = [happened("charged back", march(day), amount="5.00") for day in (20, 10)]
    assert stand([*WAY_TO["paid"], *taken]).owed_again == march(10)


def test_of_a_claim_of_which_nothing_was_taken_back_there_is_no_such_day():
    standing = stand(WAY_TO["paid"])
    assert (standing.charged_back_on, standing.charged_from) == (None, None)


def test_what_was_paid_too_much_is_taken_back_before_anything_is_owed_again():
    taken = [happened("charged back", date(2026, 3, day), amount="20.00") for day in (10, 11)]
    assert stand([OPENED, FILED, ACCEPTED, paid("170.00"), *taken]).owed_again == date(2026, 3, 11)


def test_a_refusal_of_which_no_more_is_said_gave_no_grounds():
    assert Standing(state="refused", answers=(Answer(on=DAY, answer="refused"),)).gave_no_grounds


def test_a_claim_is_refused_for_its_form_only_where_that_is_said():
    assert not Standing(state="refused").refused_for_form


CHASED = happened("chased", LATER, again="2026-04-01")


@pytest.mark.parametrize(
    ("events", "again"), [([], date(2026, 4, 1)), ([ACCEPTED], None), ([ACCEPTED, UNDONE], date(2026, 4, 1))]
)
def test_a_letter_stands_until_something_comes_of_it(events, again):
    assert stand([OPENED, FILED, CHASED, *events]).ask_again == again
