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
    PAYMENT_UNDONE,
    REFUSED,
    REOPENED,
    UNDONE,
    WAY_TO,
    accepted_in_part,
    happened,
    paid,
    part,
    written_off,
)

from claimpack.core.events.fold import Folding, stand


@pytest.mark.parametrize("state", WAY_TO)
def test_a_claim_stands_where_its_events_took_it(state):
    assert stand(WAY_TO[state]).state == state


def test_filing_keeps_what_was_claimed_and_when():
    standing = stand(WAY_TO["filed"])
    assert (standing.filed, standing.received, standing.reference) == (DAY, date(2026, 3, 3), "R-7")
    assert (standing.claimed, standing.currency, standing.filed_revision) == (Decimal("150.00"), "USD", 2)


def test_a_claim_filed_again_waits_for_a_new_answer():
    standing = stand([*WAY_TO["refused"], happened("filed", LATER, claimed="140")])
    assert (standing.answered, standing.because, standing.refused_for_form) == (None, "", False)
    assert (standing.filed, standing.outstanding) == (LATER, Decimal(140))


def test_a_claim_filed_again_keeps_its_reference():
    assert stand([*WAY_TO["questioned"], happened("filed", LATER, claimed="1")]).reference == "R-7"


def test_a_refusal_for_form_is_told_from_one_for_substance():
    substance = happened("answered", answer="refused", why="misuse")
    assert stand(WAY_TO["refused"]).refused_for_form
    assert not stand([*WAY_TO["filed"], substance]).refused_for_form


def test_an_answer_in_part_is_what_is_owed():
    standing = stand([*WAY_TO["filed"], happened("answered", answer="part", amount="90.00")])
    assert (standing.owed, standing.outstanding) == (Decimal("90.00"), Decimal("90.00"))


def test_a_claim_accepted_without_an_amount_is_accepted_whole():
    assert stand(WAY_TO["accepted"]).accepted == Decimal("150.00")


def test_a_short_payment_leaves_the_difference_to_chase():
    standing = stand([*WAY_TO["accepted"], paid("100.00")])
    assert (standing.state, standing.outstanding) == ("accepted", Decimal("50.00"))


def test_several_payments_settle_a_claim():
    standing = stand([*WAY_TO["accepted"], paid("100.00"), paid("20.00"), paid("30.00", LATER)])
    assert (standing.state, standing.paid, standing.paid_on) == ("paid", Decimal("150.00"), LATER)


def test_a_payment_above_what_is_owed_settles_it_and_is_kept():
    standing = stand([*WAY_TO["accepted"], paid("151.00")])
    assert (standing.state, standing.paid, standing.outstanding) == ("paid", Decimal("151.00"), Decimal(0))


def test_a_payment_of_the_accepted_part_settles_a_claim():
    standing = stand([*WAY_TO["filed"], happened("answered", answer="part", amount="90"), paid("90.00")])
    assert standing.state == "paid"


@pytest.mark.parametrize("state", ["filed", "questioned"])
@pytest.mark.parametrize(("amount", "paid_whole"), [("149.99", False), ("150.00", True), ("150.01", True)])
def test_money_before_an_answer_accepts_a_claim_only_when_it_pays_all_of_it(state, amount, paid_whole):
    standing = stand([*WAY_TO[state], paid(amount, LATER)])
    expected = ("paid", LATER) if paid_whole else (state, None)
    assert (standing.state, standing.accepted_on) == expected


def test_a_part_paid_before_an_answer_leaves_the_rest_outstanding():
    standing = stand([*WAY_TO["filed"], paid("100.00", LATER)])
    assert (standing.outstanding, standing.accepted, standing.refused_rest) == (Decimal("50.00"), None, 0)


def test_what_is_refused_after_a_part_was_paid_is_refused():
    standing = stand([*WAY_TO["filed"], paid("100.00"), happened("answered", LATER, answer="refused")])
    assert (standing.state, standing.outstanding) == ("refused", Decimal("50.00"))


def test_a_part_paid_before_an_answer_and_taken_back_leaves_the_claim_filed():
    standing = stand([*WAY_TO["filed"], paid("100.00"), happened("charged back", amount="40.00")])
    assert (standing.state, standing.paid, standing.outstanding) == ("filed", Decimal("60.00"), Decimal("90.00"))


def test_an_answer_undone_leaves_the_one_before():
    standing = stand([*WAY_TO["questioned"], REFUSED, UNDONE])
    assert (standing.state, standing.refused_for_form) == ("questioned", False)


def test_an_answer_undone_and_another_given_owes_the_other_amount():
    standing = stand([*WAY_TO["accepted"], UNDONE, happened("answered", answer="part", amount="120")])
    assert (standing.state, standing.outstanding) == ("accepted", Decimal(120))


def test_a_payment_undone_is_owed_again():
    standing = stand([*WAY_TO["accepted"], paid("100.00"), paid("50.00"), PAYMENT_UNDONE])
    assert (standing.state, standing.paid, standing.outstanding) == ("accepted", Decimal("100.00"), Decimal("50.00"))


def test_the_rest_of_a_short_payment_can_be_written_off():
    standing = stand([*WAY_TO["accepted"], paid("100.00"), written_off("50.00")])
    assert (standing.state, standing.written_off, standing.outstanding) == ("written off", Decimal("50.00"), Decimal(0))


def test_a_charge_back_is_outstanding_again():
    standing = stand([*WAY_TO["paid"], happened("charged back", why="part not produced", amount="60.00")])
    assert (standing.paid, standing.outstanding) == (Decimal("90.00"), Decimal("60.00"))
    assert standing.because == "part not produced"


def test_a_claim_written_off_and_reopened_is_owed_again():
    standing = stand([*WAY_TO["written off"], REOPENED])
    assert (standing.state, standing.outstanding) == ("refused", Decimal("150.00"))


def test_a_claim_withdrawn_and_reopened_was_never_filed():
    standing = stand([*WAY_TO["withdrawn"], REOPENED])
    assert (standing.state, standing.filed, standing.claimed, standing.packet) == ("draft", None, Decimal(0), "")


def test_the_parts_of_a_claim_stand_each_for_itself():
    standing = stand([part("released", "2"), part("called back", "1")])
    assert [(held.index, held.state) for held in standing.parts] == [(1, "called back"), (2, "released")]
    assert standing.part(3).state == "held"


def test_events_in_two_goes_lead_where_they_lead_in_one():
    events = [*WAY_TO["paid"], part("released"), happened("charged back", amount="1"), PAYMENT_UNDONE]
    folding = Folding(events[:4])
    for event in events[4:]:
        folding.take(event)
    assert folding.standing == stand(events)


@pytest.mark.parametrize(
    ("answer", "state", "outstanding"),
    [(ACCEPTED, "accepted", "50.00"), (accepted_in_part("120.00"), "accepted", "20.00")],
)
def test_a_maker_that_gives_in_after_paying_owes_what_it_accepts_more(answer, state, outstanding):
    standing = stand([*PAID_IN_PART, answer])
    assert (standing.state, standing.outstanding) == (state, Decimal(outstanding))


def test_the_payment_of_what_the_maker_gave_in_to_can_be_undone():
    standing = stand([*PAID_IN_PART, ACCEPTED, paid("50.00", LATER), PAYMENT_UNDONE])
    assert (standing.state, standing.outstanding) == ("accepted", Decimal("50.00"))


def test_what_was_paid_too_much_and_taken_back_leaves_the_claim_paid():
    standing = stand([OPENED, FILED, ACCEPTED, paid("170.00"), happened("charged back", LATER, amount="20.00")])
    assert (standing.state, standing.paid, standing.outstanding) == ("paid", Decimal("150.00"), 0)


def test_a_rest_that_was_let_go_and_is_paid_all_the_same_is_not_lost():
    standing = stand([*PAID_IN_PART, happened("written off", amount="50.00", rest="50.00"), paid("30.00", LATER)])
    assert (standing.paid, standing.written_off, standing.rest_written_off) == (Decimal("130.00"), 20, 20)


def test_the_payment_of_a_rest_undone_leaves_the_rest_let_go():
    let_go = happened("written off", amount="50.00", rest="50.00")
    standing = stand([*PAID_IN_PART, let_go, paid("30.00", LATER), PAYMENT_UNDONE])
    assert (standing.paid, standing.written_off, standing.rest_written_off) == (Decimal("100.00"), 50, 50)


def test_what_was_given_up_and_is_paid_all_the_same_is_not_lost():
    standing = stand([OPENED, FILED, ACCEPTED, paid("100.00"), written_off("50.00"), paid("50.00", LATER)])
    assert (standing.state, standing.written_off) == ("paid", 0)


def test_of_an_accepted_part_and_its_rest_given_up_together_what_is_paid_after_all_is_not_lost():
    given_up = happened("written off", amount="150.00", rest="50.00")
    standing = stand([OPENED, FILED, accepted_in_part("100.00"), given_up, paid("30.00", LATER)])
    assert (standing.written_off, standing.rest_written_off) == (120, 50)


@pytest.mark.parametrize("on", [DAY, LATER], ids=["the same day", "later"])
def test_a_payment_undone_leaves_the_question_that_came_after_the_one_before(on):
    asked = happened("answered", on, answer="questioned")
    standing = stand([OPENED, FILED, paid("60.00", DAY), asked, paid("20.00", LATER), PAYMENT_UNDONE])
    assert (standing.state, standing.paid) == ("questioned", Decimal("60.00"))


def test_a_part_paid_after_another_payment_was_undone_leaves_what_had_been_questioned():
    asked = happened("answered", answer="questioned")
    events = [OPENED, FILED, paid("10.00"), asked, PAYMENT_UNDONE, paid("60.00"), paid("20.00", LATER), PAYMENT_UNDONE]
    assert (stand(events).state, stand(events).paid) == ("questioned", Decimal("60.00"))


def test_undoing_a_payment_leaves_the_day_the_one_before_accepted_on():
    asked = happened("answered", DAY, answer="questioned")
    events = [OPENED, FILED, paid("20.00", date(2026, 2, 20)), asked, paid("130.00", LATER)]
    assert stand([*events, paid("30.00", date(2026, 4, 9)), PAYMENT_UNDONE]).accepted_on == LATER


def test_what_was_written_off_is_lost_no_more_when_the_maker_accepts_it():
    events = [OPENED, FILED, accepted_in_part("20.00"), happened("written off", amount="130.00", rest="130.00")]
    standing = stand([*events, accepted_in_part("120.00")])
    assert (standing.outstanding, standing.written_off) == (Decimal("120.00"), Decimal("30.00"))


def test_a_charge_back_undone_takes_the_write_off_of_it_along():
    events = [OPENED, FILED, ACCEPTED, paid("150.00"), happened("charged back", LATER, amount="20.00")]
    let_go = happened("written off", LATER, amount="20.00", rest="20.00")
    standing = stand([*events, accepted_in_part("130.00", LATER), let_go, PAYMENT_UNDONE])
    assert (standing.paid, standing.written_off) == (Decimal("150.00"), 0)


CHARGED_BACK = [*WAY_TO["paid"], happened("charged back", LATER, amount="20.00")]


def test_a_charge_back_undone_takes_along_the_write_off_that_ended_the_claim():
    assert stand([*CHARGED_BACK, written_off("20.00"), PAYMENT_UNDONE]) == stand(WAY_TO["paid"])


def test_a_write_off_of_more_than_the_charge_back_that_is_undone_stays_for_the_rest():
    events = [*WAY_TO["accepted"], paid("100.00"), happened("charged back", LATER, amount="20.00")]
    standing = stand([*events, written_off("70.00"), PAYMENT_UNDONE])
    assert (standing.state, standing.paid, standing.written_off) == ("written off", 100, 50)


def test_a_refused_rest_let_go_after_a_charge_back_stays_let_go_when_that_is_undone():
    let_go = happened("written off", LATER, amount="50.00", rest="50.00")
    standing = stand([*PAID_IN_PART, happened("charged back", LATER, amount="20.00"), let_go, PAYMENT_UNDONE])
    assert (standing.state, standing.outstanding, standing.refused_rest, standing.written_off) == ("paid", 0, 0, 50)


def test_what_was_undone_does_not_count():
    folding = Folding([*WAY_TO["accepted"], paid("150.00"), PAYMENT_UNDONE, UNDONE])
    assert folding.counting == WAY_TO["filed"]


def test_nothing_is_lost_again_of_a_claim_filed_again():
    let_go = happened("written off", amount="50.00", rest="50.00")
    again = happened("filed", LATER, claimed="150.00", currency="USD")
    standing = stand([*PAID_IN_PART, let_go, paid("20.00", LATER), REOPENED, again, PAYMENT_UNDONE])
    assert (standing.outstanding, standing.written_off) == (Decimal("50.00"), 0)


def test_a_payment_undone_leaves_what_came_in_after_the_question():
    asked = happened("answered", answer="questioned")
    standing = stand([OPENED, FILED, asked, paid("60.00", DAY), paid("20.00", LATER), PAYMENT_UNDONE])
    assert (standing.state, standing.paid) == ("questioned", Decimal("60.00"))


LET_GO = happened("written off", amount="50.00", rest="50.00")


@pytest.mark.parametrize(("events", "state"), [(IN_PART, "accepted"), (PAID_IN_PART, "paid")])
def test_a_refused_rest_let_go_leaves_the_claim_where_it_stood(events, state):
    standing = stand([*events, LET_GO])
    assert (standing.state, standing.refused_rest, standing.written_off) == (state, 0, Decimal("50.00"))


def test_a_refused_rest_let_go_leaves_the_accepted_part_outstanding():
    assert stand([*IN_PART, LET_GO]).outstanding == Decimal("100.00")


def test_a_refused_rest_let_go_by_mistake_is_taken_up_again():
    standing = stand([*PAID_IN_PART, LET_GO, REOPENED])
    assert (standing.state, standing.refused_rest, standing.written_off) == ("paid", Decimal("50.00"), 0)


def test_an_answer_undone_takes_back_what_was_let_go_because_of_it():
    standing = stand([*IN_PART, LET_GO, UNDONE])
    assert (standing.state, standing.outstanding, standing.written_off) == ("filed", Decimal("150.00"), 0)


def test_all_given_up_at_once_ends_the_claim():
    standing = stand([*IN_PART, happened("written off", amount="150.00", rest="50.00")])
    assert (standing.state, standing.outstanding, standing.refused_rest) == ("written off", 0, 0)


@pytest.mark.parametrize("new_event", [happened("answered", answer="accepted"), happened("answered", answer="refused")])
def test_a_claim_for_nothing_stands_the_same_when_it_is_kept_and_read_again(new_event):
    standing = stand([happened("filed", claimed="0.00", currency="USD"), new_event])
    read = type(standing).model_validate_json(standing.model_dump_json(exclude_defaults=True))
    assert read.model_dump_json() == standing.model_dump_json()


def test_reopening_takes_back_the_last_write_off_alone():
    rest_let_go = [OPENED, FILED, accepted_in_part("100.00"), happened("written off", amount="50.00", rest="50.00")]
    once = [*rest_let_go, written_off("100.00"), REOPENED]
    standing = stand(once)
    assert (standing.state, standing.outstanding, standing.written_off) == ("accepted", Decimal(100), Decimal(50))
    assert stand([*once, REOPENED]).refused_rest == Decimal(50)


@pytest.mark.parametrize("answer", [accepted_in_part("100.00"), ACCEPTED], ids=["part", "whole"])
def test_an_answer_undone_after_a_short_payment_leaves_the_claim_as_paid_short_without_an_answer(answer):
    way = [OPENED, FILED, answer, paid("40.00"), UNDONE]
    assert stand(way) == stand([OPENED, FILED, paid("40.00")])


@pytest.mark.parametrize("last", ["refused", "questioned"])
def test_what_the_maker_said_after_its_money_came_stands_again(last):
    way = [
        OPENED,
        FILED,
        paid("40.00"),
        happened("answered", LATER, answer=last),
        happened("answered", LATER, answer="accepted"),
    ]
    assert stand([*way, UNDONE]).state == last


def test_a_claim_filed_again_waits_to_hear_of_the_maker_anew():
    assert stand([*WAY_TO["filed"], accepted_in_part("20.00"), paid("20.00"), FILED]).heard is None
