"""A letter about a claim that silence accepted, and whose maker paid afterwards without ever answering."""

from datetime import date

from chased_claims import SENDER, TERMS
from new_events import happened, paid

from claimpack.core.events.fold import stand
from claimpack.core.payment.chasing import Chased, matter
from claimpack.core.payment.letters.chase_letter import letter

TODAY = date(2026, 4, 1)
FILED = happened("filed", date(2026, 1, 2), claimed="150.00", currency="USD", received="2026-01-02", revision="1")
# entered last, and taken back before all of it had been paid
TAKEN_BACK = happened("charged back", date(2026, 2, 18), amount="100.00")


def test_no_answer_of_a_maker_that_paid_without_a_word_is_said_to_have_come_late():
    standing = stand([FILED, paid("100.00", date(2026, 1, 10)), paid("50.00", date(2026, 2, 20)), TAKEN_BACK])
    about = Chased("26-0001", "Halden", "CS-70 cut-off saw", "HC70-1", standing, TERMS)
    (_, grounds) = letter(about, matter(about, TODAY), SENDER, TODAY).paragraphs
    assert grounds.endswith("The last day to answer was 16 February 2026, so the last day to pay was 18 March 2026.")
