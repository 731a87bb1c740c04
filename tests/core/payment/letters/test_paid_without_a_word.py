"""Letters about a claim whose maker paid without ever answering, after silence, and whose money was entered late."""

from datetime import date

from chased_claims import SENDER, TERMS
from new_events import happened, paid

from claimpack.core.events.fold import stand
from claimpack.core.payment.chasing import Chased, matter
from claimpack.core.payment.letters.chase_letter import letter
from claimpack.core.payment.letters.told_in_letters import filed_and_paid

TODAY = date(2026, 4, 1)
FILED = happened("filed", date(2026, 1, 2), claimed="150.00", currency="USD", received="2026-01-02", revision="1")
FIRST, REST = paid("100.00", date(2026, 1, 10)), paid("50.00", date(2026, 2, 20))
# entered last, and taken back before all of it had been paid
TAKEN_BACK = happened("charged back", date(2026, 2, 18), amount="100.00")


def told(*since):
    """What the letter tells of the claim, and the grounds it gives."""
    about = Chased("26-0001", "Halden", "CS-70 cut-off saw", "HC70-1", stand([FILED, *since]), TERMS)
    return letter(about, matter(about, TODAY), SENDER, TODAY).paragraphs


def test_no_answer_of_a_maker_that_paid_without_a_word_is_said_to_have_come_late():
    (_, grounds) = told(FIRST, REST, TAKEN_BACK)
    assert grounds.endswith("The last day to answer was 16 February 2026, so the last day to pay was 18 March 2026.")


def test_money_is_told_in_the_order_of_its_days_whenever_it_was_entered():
    assert told(FIRST, REST, TAKEN_BACK) == told(FIRST, TAKEN_BACK, REST)


def test_an_answer_between_two_payments_is_told_after_them_whichever_was_entered_first():
    answer = happened("answered", date(2026, 2, 1), "Misuse.", answer="refused")
    orders = (FIRST, REST), (REST, FIRST)
    said = {filed_and_paid(stand([FILED, *money, answer]), "You refused it.") for money in orders}
    assert len(said) == 1
