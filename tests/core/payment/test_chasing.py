from datetime import date
from decimal import Decimal

import pytest
from chased_claims import (
    ACCEPTED,
    LATE,
    LATER,
    PAID_AND_TAKEN,
    REACHING,
    REFUSED_ON,
    SILENT,
    TAKEN_LATE,
    TERMS,
    answered_late,
    chased,
    contesting,
    written,
)

from claimpack.core.events.standing import Answer, Payment
from claimpack.core.payment.chasing import Matter, is_late, matter, why_not
from claimpack.core.plans.terms import NOT_KNOWN


@pytest.mark.parametrize(("today", "asks"), [(date(2026, 2, 15), None), (date(2026, 2, 16), None), (SILENT, "payment")])
def test_silence_turns_into_a_claim_for_payment_after_the_last_day(today, asks):
    found = matter(chased(), today)
    assert (found.asks if found else None) == asks


PAY_BY = date(2026, 3, 18)


@pytest.mark.parametrize("today", [SILENT, PAY_BY], ids=["before", "the day itself"])
def test_a_payment_not_yet_late_is_asked_for_by_its_own_day(today):
    assert matter(chased(), today).by == PAY_BY


def test_a_late_payment_is_asked_for_within_two_weeks():
    assert matter(chased(), LATE).by == date(2026, 4, 2)


@pytest.mark.parametrize(("today", "asks"), [(date(2026, 2, 9), False), (date(2026, 2, 10), True)])
def test_an_accepted_claim_is_chased_from_the_day_after_the_last_day_to_pay(today, asks):
    assert bool(matter(chased(**ACCEPTED), today)) is asks


def test_without_the_day_of_receipt_an_answer_is_asked_for():
    assert matter(chased(received=None), SILENT).asks == "answer"


@pytest.mark.parametrize(
    ("facts", "today", "why"),
    [
        ({}, date(2026, 2, 1), "the maker has until 2026-02-16 to answer, 15 days more"),
        (ACCEPTED, date(2026, 2, 8), "the maker has until 2026-02-09 to pay, 1 day more"),
        ({"state": "questioned"}, LATE, "the claim is questioned: it is the shop's turn"),
        ({"state": "draft", "filed": None}, LATE, "the claim is a draft: it is the shop's turn"),
        ({"state": "paid"}, LATE, "the claim is paid: nothing is waited for"),
    ],
)
def test_when_there_is_nothing_to_ask_for_it_says_why(facts, today, why):
    assert (matter(chased(**facts), today), why_not(chased(**facts), today)) == (None, why)


def test_nothing_is_asked_for_where_nothing_is_outstanding():
    nothing = chased(claimed=Decimal(0))
    assert (matter(nothing, LATE), why_not(nothing, LATE)) == (None, "nothing is outstanding")


def test_without_terms_nothing_is_late():
    assert "no payment terms" in why_not(chased(None), LATE)


def test_a_claim_paid_as_far_as_it_was_accepted_is_not_chased():
    paid = {**ACCEPTED, "state": "paid", "payments": (Payment(on=date(2026, 2, 1), amount="120.00"),)}
    answers = (Answer(on=date(2026, 1, 10), answer="part", amount="120.00"),)
    about = chased(**paid, answers=answers)
    assert (matter(about, LATE), "late answers and payments only" in why_not(about, LATE)) == (None, True)


def test_money_taken_back_is_asked_for_or_the_reason():
    said = " ".join(written(chased(**PAID_AND_TAKEN), LATE).split())
    assert "Please pay 20.00 USD by 2 April 2026, naming our claim number 26-0001, or let us know why" in said


def test_money_taken_back_of_a_claim_never_paid_in_full_keeps_its_day_to_pay_by():
    payments = (Payment(on=date(2026, 2, 1), amount="90.00"), Payment(on=date(2026, 3, 1), amount="-20.00"))
    said = " ".join(written(chased(**{**ACCEPTED, "payments": payments}), LATE).split())
    assert ("charged 20.00 USD back on 1 March" in said, "last day to pay was 9 February" in said) == (True, True)


def test_a_refusal_after_silence_is_contested_at_once():
    found = matter(answered_late("refused"), REFUSED_ON)
    assert (found.asks, found.by, found.contests) == ("payment", date(2026, 3, 18), True)


def test_a_refusal_in_time_is_the_shops_turn():
    in_time = (Answer(on=date(2026, 2, 16), answer="refused"),)
    about = chased(state="refused", answers=in_time, answered=date(2026, 2, 16))
    assert (matter(about, LATE), why_not(about, LATE)) == (None, "the claim is refused: it is the shop's turn")


def test_a_refusal_without_a_reason_says_that_none_is_on_record():
    assert "You refused it on 1 March 2026; we have no reason on record." in contesting("refused")


@pytest.mark.parametrize("state", ["accepted", "paid"])
def test_the_rest_of_a_part_accepted_after_silence_is_contested(state):
    paid = {"accepted": (), "paid": (Payment(on=REFUSED_ON, amount="120.00"),)}[state]
    said = contesting("part", state=state, accepted=Decimal(120), accepted_on=REFUSED_ON, payments=paid)
    asked = {"accepted": "Please pay 150.00 USD", "paid": "Please pay 30.00 USD"}[state]
    assert "You accepted 120.00 USD of it on 1 March 2026" in said
    assert (asked in said, "why you hold that the refusal of the rest stands" in said) == (True, True)


def test_an_acceptance_after_silence_is_to_be_paid_from_the_day_of_silence():
    said = contesting("accepted", LATE, accepted=Decimal(150), accepted_on=REFUSED_ON)
    assert "We therefore count the claim as accepted on 16 February 2026, and the last day to pay was 18 March" in said
    assert "You accepted it on 1 March 2026." in said


def test_a_claim_accepted_that_nothing_is_owed_for_is_not_chased():
    about = chased(**{**ACCEPTED, "claimed": Decimal(0), "accepted": Decimal(0)})
    assert (matter(about, LATE), why_not(about, LATE)) == (None, "nothing is outstanding")


@pytest.mark.parametrize(("day", "contests"), [(1, False), (2, True)], ids=["the last day", "the day after"])
def test_a_charge_back_is_contested_from_the_day_after_an_audit_could_reach(day, contests):
    payments = (TAKEN_LATE["payments"][0], Payment(on=date(2027, 2, day), amount="-20.00"))
    assert matter(chased(REACHING, **{**TAKEN_LATE, "payments": payments}), date(2027, 4, 1)).contests is contests


def test_only_what_was_taken_back_late_is_contested():
    first, taken = TAKEN_LATE["payments"]
    in_time = Payment(on=date(2026, 9, 1), amount="-30.00")
    said = " ".join(written(chased(REACHING, **{**TAKEN_LATE, "payments": (first, in_time, taken)}), LATER).split())
    assert ("Please pay 20.00 USD" in said, "Please pay 50.00 USD" in said) == (True, False)


def test_a_payment_made_in_between_is_the_one_an_audit_counts_from():
    first, taken = TAKEN_LATE["payments"]
    again = Payment(on=date(2026, 6, 1), amount="10.00")
    about = chased(REACHING, **{**TAKEN_LATE, "payments": (first, again, taken)})
    assert not matter(about, date(2027, 4, 1)).contests


REFUSING = TERMS.model_copy(update={"silence": "refused"})


def test_a_claim_that_silence_refused_is_the_shops_turn():
    refused = {"state": "refused", "answers": (Answer(on=date(2026, 2, 16), answer="refused", silent=True),)}
    about = chased(REFUSING, **refused, answered=date(2026, 2, 16))
    assert (matter(about, LATE), "silence refused" in why_not(about, LATE)) == (None, True)


def test_while_the_maker_has_time_silence_is_not_said_to_have_refused():
    assert "the maker has until" in why_not(chased(REFUSING), date(2026, 2, 1))


@pytest.mark.parametrize(("today", "late"), [(SILENT, False), (PAY_BY, False), (LATE, True)])
def test_a_claim_that_silence_accepted_is_late_from_the_day_after_the_last_one_to_pay(today, late):
    assert is_late(chased(), Matter("payment", LATE), today) is late


def test_an_answer_that_is_asked_for_is_late_though_there_is_time_to_pay():
    assert is_late(chased(), Matter("answer", LATE), SILENT)


def test_money_taken_back_that_has_no_day_to_pay_by_is_late():
    assert is_late(chased(**PAID_AND_TAKEN), Matter("payment", LATE), LATE)


@pytest.mark.parametrize("facts", [{}, ACCEPTED], ids=["accepted by silence", "accepted in writing"])
def test_a_maker_that_pays_on_the_part_is_not_asked_for_money_before_it_is_sent(facts):
    about = chased(**facts)._replace(part_awaited=True)
    assert (matter(about, LATE), "hold send" in why_not(about, LATE)) == (None, True)


def test_a_maker_that_pays_on_the_part_is_asked_for_its_answer_before_it_is_sent():
    about = chased(received=None)._replace(part_awaited=True)
    assert matter(about, LATE).asks == "answer"


NO_DAY = "its shop's terms are not known here: no day can be told"
SETTLED = {**ACCEPTED, "accepted": Decimal(0)}


@pytest.mark.parametrize(
    ("facts", "why"),
    [
        ({}, NO_DAY),
        ({"state": "questioned"}, NO_DAY),
        ({"state": "refused"}, NO_DAY),
        (ACCEPTED, NO_DAY),
        (SETTLED, "nothing is outstanding"),
        ({"state": "paid"}, "the claim is paid: nothing is waited for"),
    ],
    ids=["filed", "questioned", "refused", "accepted", "nothing owed", "paid"],
)
def test_where_the_terms_are_not_known_here_that_is_why_of_what_has_a_day_by_them(facts, why):
    assert why_not(chased(NOT_KNOWN, **facts), LATE) == why
