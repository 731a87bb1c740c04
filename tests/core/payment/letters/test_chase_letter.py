from datetime import date
from decimal import Decimal

import pytest
from chased_claims import (
    ACCEPTED,
    FILED,
    LATE,
    LATER,
    PAID_AND_TAKEN,
    REACHING,
    REFUSED_ON,
    SENDER,
    SILENT,
    TAKEN_LATE,
    TERMS,
    chased,
    contesting,
    written,
)

from claimpack.core.events.standing import Answer, Payment
from claimpack.core.payment.chasing import matter, why_not
from claimpack.core.payment.letters.chase_letter import NO_ADVICE, NO_SECTION, letter


def test_the_letter_states_dates_amounts_reference_and_section():
    said = written(chased(), LATE)
    expected = ("2 January 2026", "16 February 2026", "18 March 2026", "150.00 USD", "R-77", "Code 57.253", "26-0001")
    assert [word for word in expected if word not in said] == []


@pytest.mark.parametrize(
    ("about", "row"),
    [
        ({}, ("Last day to answer", "16 February 2026")),
        ({"received": None}, ("Answer due, from filing", "16 February 2026")),
    ],
    ids=["from receipt", "from filing"],
)
def test_the_letter_names_the_last_day_to_answer_and_what_it_is_counted_from(about, row):
    told = letter(chased(**about), matter(chased(**about), LATE), SENDER, LATE)
    assert row in told.facts


def test_the_letter_says_in_plain_words_what_the_terms_say():
    said = " ".join(written(chased(), LATE).split())
    assert "not answered within 45 days of being received counts as accepted" in said
    assert "paid within 30 days of being accepted" in said


def test_the_letter_asks_for_one_thing_by_one_day():
    assert "Please pay 150.00 USD by 2 April 2026" in written(chased(), LATE)


def test_a_letter_about_a_short_payment_asks_for_the_rest():
    about = chased(**ACCEPTED, payments=(Payment(on=date(2026, 2, 1), amount="20.00"),))
    assert "Please pay 100.00 USD" in written(about, LATE)


def test_a_letter_without_the_day_of_receipt_asks_for_it():
    said = " ".join(written(chased(received=None), SILENT).split())
    assert "no note of the day you received it" in said
    assert "on which day you received the claim" in said


def test_the_letter_is_no_legal_advice_and_is_to_be_checked_and_signed():
    said = " ".join(written(chased(), LATE).split())
    assert "not legal advice" in said
    assert "check the current text" in said
    assert "Signature: ___" in said


def test_money_taken_back_is_named_with_both_days_and_no_day_to_pay_by_is_claimed():
    said = " ".join(written(chased(**PAID_AND_TAKEN), LATE).split())
    assert "paid 120.00 USD on 1 February 2026, and charged 20.00 USD back on 1 March 2026" in said
    assert "since 1 March 2026, 20.00 USD of it is owed again" in said
    assert ("last day to pay" in said.casefold(), "Code 57.253" in said) == (False, False)


def test_money_taken_back_today_is_no_matter_for_a_letter_yet():
    about = chased(**PAID_AND_TAKEN)
    assert matter(about, date(2026, 3, 1)) is None
    assert "was charged back on 2026-03-01" in why_not(about, date(2026, 3, 1))


@pytest.mark.parametrize(
    ("accepted", "told"),
    [(None, None), ("120.00", "120.00 USD"), ("150.00", None)],
    ids=["without a word", "in part", "whole"],
)
def test_what_was_accepted_is_told_where_it_is_not_all_that_was_claimed(accepted, told):
    facts = {**ACCEPTED, "accepted": Decimal(accepted) if accepted else None}
    about = chased(**facts)
    assert dict(letter(about, matter(about, LATE), SENDER, LATE).amounts).get("Accepted") == told


@pytest.mark.parametrize(
    ("facts", "asks", "crossed"),
    [({"received": None}, "an answer", "your answer is"), (ACCEPTED, "payment", "the payment is")],
    ids=["answer", "money"],
)
def test_a_letter_is_headed_by_what_it_asks_for_and_may_cross_with_it(facts, asks, crossed):
    about = chased(**facts)
    told = letter(about, matter(about, LATE), SENDER, LATE)
    assert (told.subject.endswith(f"request for {asks}"), f"If {crossed} on its way" in told.closing) == (True, True)


def test_a_claim_accepted_in_part_is_said_to_be():
    assert "You accepted 120.00 USD of it on 10 January 2026." in " ".join(written(chased(**ACCEPTED), LATE).split())


def test_a_reason_that_is_known_is_named_and_not_asked_for():
    about = chased(**PAID_AND_TAKEN)._replace(taken_back_because="Serial not found.")
    said = " ".join(written(about, LATE).split())
    assert ("as we noted it: Serial not found. " in said, "let us know why" in said) == (True, False)


def test_a_letter_that_contests_a_refusal_says_the_days_soberly():
    said = contesting("refused", because="Misuse.")
    assert "You refused it on 1 March 2026; the reason, as we noted it: Misuse." in said
    assert "The last day to answer was 16 February 2026; your refusal came on 1 March 2026." in said
    assert "We therefore count the claim as accepted on 16 February 2026, and the last day to pay is 18 March" in said


def test_a_letter_that_contests_a_refusal_asks_for_the_money_or_why_it_stands():
    said = contesting("refused")
    assert "Please pay 150.00 USD by 18 March 2026" in said
    assert "or let us know why you hold that the refusal stands." in said


def test_a_question_after_silence_is_said_to_be_one():
    assert "You came back to us with a question on 1 March 2026." in contesting("questioned")


UNANSWERED = FILED
SHORT = (Payment(on=date(2026, 1, 12), amount="50.00"),)


def test_money_without_an_answer_is_no_acceptance_in_a_letter():
    said = " ".join(written(chased(**UNANSWERED, payments=SHORT), LATE).split())
    assert "You paid 50.00 USD on 12 January 2026; no answer to the rest is on record with us." in said
    assert "The last day to answer was 16 February 2026, so the last day to pay was 18 March 2026." in said
    assert ("You accepted" in said, "Accepted on" in said) == (False, False)


def test_money_taken_back_of_a_claim_nobody_answered_is_not_said_to_have_been_accepted():
    payments = (Payment(on=date(2026, 2, 1), amount="150.00"), Payment(on=date(2026, 3, 1), amount="-20.00"))
    said = " ".join(
        written(
            chased(**{**UNANSWERED, "state": "accepted", "accepted_on": date(2026, 2, 1), "payments": payments}), LATE
        ).split()
    )
    assert "charged 20.00 USD back on 1 March 2026; no answer is on record with us." in said
    assert ("All of it had been paid by then" in said, "accepted" in said) == (True, False)


AGAIN = {"first_filed": date(2025, 12, 1)}
PAID_BEFORE = {"payments": (Payment(on=date(2025, 12, 20), amount="100.00"),), "paid_before": 1}


def history(**facts):
    return " ".join(written(chased(**facts), SILENT).split())


def test_a_claim_sent_in_again_is_said_to_be_and_only_that_filing_is_said_to_be_unanswered():
    said = history(**AGAIN)
    filed = "We first filed this claim with you on 1 December 2025 and sent it in again on 2 January 2026; you received"
    assert f"{filed} that on 2 January 2026. No answer to what we sent in on 2 January 2026 is on record" in said
    assert "We have no answer from you on record" not in said


def test_a_claim_sent_in_again_names_both_days():
    facts = dict(letter(chased(**AGAIN), matter(chased(**AGAIN), SILENT), SENDER, SILENT).facts)
    assert (facts["First filed on"], facts["Sent in again on"]) == ("1 December 2025", "2 January 2026")
    assert "Filed on" not in facts


@pytest.mark.parametrize("again", [AGAIN, {}], ids=["sent in again", "on the same day"])
def test_money_that_came_before_a_claim_was_sent_in_again_is_named_with_its_day(again):
    said = history(**again, **PAID_BEFORE)
    assert "You paid 100.00 USD on 20 December 2025; no answer to what we sent in on 2 January 2026 is on" in said


def test_money_on_a_claim_sent_in_again_is_no_answer_to_that_and_earlier_answers_are_not_denied():
    payments = (*PAID_BEFORE["payments"], Payment(on=date(2026, 1, 12), amount="20.00"))
    again = {**AGAIN, "state": "accepted", "accepted_on": date(2026, 1, 12), "payments": payments, "paid_before": 1}
    said = " ".join(written(chased(**again), LATE).split())
    assert "and paid 20.00 USD on 12 January 2026; no answer to what we sent in on 2 January 2026 is on record" in said


def test_a_claim_filed_once_is_said_to_have_no_answer():
    said = history(first_filed=FILED["filed"])
    assert "and you received it on 2 January 2026. We have no answer from you on record." in said


@pytest.mark.parametrize(
    ("today", "by", "said"), [(18, "18 March 2026", "day to pay is 18"), (19, "2 April 2026", "day to pay was 18")]
)
def test_a_rest_keeps_the_last_day_to_pay_of_silence_when_the_accepted_part_is_paid(today, by, said):
    paid = {"state": "paid", "accepted": Decimal(120), "payments": (Payment(on=REFUSED_ON, amount="120.00"),)}
    letter_said = contesting("part", date(2026, 3, today), accepted_on=REFUSED_ON, **paid)
    assert (f"Please pay 30.00 USD by {by}" in letter_said, said in letter_said) == (True, True)


def test_a_letter_that_contests_a_charge_back_names_section_days_and_grounds():
    said = " ".join(written(chased(REACHING, **TAKEN_LATE), LATER).split())
    assert "As we read Code 57.253, an audit of a claim reaches back 1 year from its payment." in said
    assert "on 1 February 2026, so an audit of it reached to 1 February 2027; it was charged back on 1 March" in said
    assert "Please pay 20.00 USD by 15 March 2027" in said
    assert "or let us know on what grounds" in said


RUNS_ON = TERMS.model_copy(update={"question": "runs on", "question_cites": "Code 57.254"})
REPLIED = {**AGAIN, "asked_filed": date(2025, 12, 1), "asked_received": date(2025, 12, 3)}


def test_a_letter_says_that_a_question_does_not_stop_the_time_to_answer_and_where_that_is_read():
    said = " ".join(written(chased(RUNS_ON, **REPLIED), date(2026, 1, 18)).split())
    assert "As we read Code 57.254, a question does not stop the time to answer" in said
    assert "counted from what we filed on 1 December 2025. The last day to answer was 17 January 2026" in said


def test_a_question_that_is_open_is_told_in_the_letter():
    asked = {"state": "questioned", "answered": date(2026, 1, 9)}
    said = " ".join(written(chased(RUNS_ON, **asked), SILENT).split())
    assert "You came back to us with a question on 9 January 2026." in said
    assert "We have no answer" not in said


def test_without_a_question_nothing_is_said_of_one():
    assert "question" not in " ".join(written(chased(RUNS_ON), SILENT).split())


@pytest.mark.parametrize(("facts", "told"), [({}, True), ({"received": None}, False)])
def test_the_day_silence_accepted_is_named_where_payment_is_asked_for(facts, told):
    about = chased(**facts)
    labels = [label for label, _ in letter(about, matter(about, LATE), SENDER, LATE).facts]
    assert ("Accepted by silence on" in labels) is told


def test_the_day_the_maker_accepted_in_writing_is_named():
    about = chased(**ACCEPTED)
    assert ("Accepted on", "10 January 2026") in letter(about, matter(about, LATE), SENDER, LATE).facts


@pytest.mark.parametrize("held", [True, False])
def test_a_part_is_offered_only_while_the_shop_has_it(held):
    assert ("held part" in written(chased()._replace(part_held=held), LATE)) == held


def test_no_part_is_offered_that_nobody_said_the_shop_has():
    assert "held part" not in written(chased(), LATE)


def test_where_a_refusal_without_grounds_accepts_all_of_the_claim_is_asked_for():
    bare = TERMS.model_copy(update={"without_grounds": "accepted"})
    about = chased(
        bare, state="refused", answers=(Answer(on=FILED["filed"], answer="refused"),), answered=FILED["filed"]
    )
    told = letter(about, matter(about, SILENT), SENDER, SILENT)
    assert ("Asked for", "150.00 USD") in told.amounts


def test_a_question_is_told_with_its_own_mark_at_the_end():
    assert "as we noted it: Which hours? As we read" in contesting("questioned", because="Which hours?")


def test_a_refused_rest_is_told_with_its_reason():
    said = contesting("part", accepted=Decimal("100.00"), state="accepted", because="Above the schedule")
    assert "refused the rest; the reason, as we noted it: Above the schedule." in said


@pytest.mark.parametrize(
    ("about", "today", "small_print"),
    [
        (chased(), LATE, NO_ADVICE),
        (chased(**PAID_AND_TAKEN), LATE, NO_SECTION),
        (chased(REACHING, **TAKEN_LATE), LATER, NO_ADVICE),
    ],
    ids=["late", "taken back", "taken back too late"],
)
def test_a_letter_that_names_a_section_is_said_to_be_no_advice(about, today, small_print):
    assert letter(about, matter(about, today), SENDER, today).small_print == small_print


def test_money_taken_back_is_not_said_to_have_been_accepted_by_silence():
    paid = (Payment(on=REFUSED_ON, amount="150.00"), Payment(on=date(2026, 3, 5), amount="-20.00"))
    about = chased(**{**ACCEPTED, "accepted": Decimal(150), "accepted_on": REFUSED_ON, "payments": paid})
    assert "silence" not in written(about, LATE)


def test_what_follows_from_silence_through_a_question_is_told_as_from_any_silence():
    asked = {"state": "questioned", "answered": date(2026, 1, 9)}
    asked["answers"] = (Answer(on=asked["answered"], answer="questioned"),)
    said = " ".join(written(chased(RUNS_ON, **asked), SILENT).split())
    assert "The last day to answer was 16 February 2026, so the last day to pay is" in said
