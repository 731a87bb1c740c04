from datetime import date

from new_events import FILED, OPENED, happened, paid

from claimpack.core.events.fold import stand
from claimpack.core.payment.chasing import Chased, matter
from claimpack.core.payment.letters.letter import Sender, as_text
from claimpack.core.payment.letters.maker_letter import LateClaim, maker_letter
from claimpack.core.plans.terms import Terms

TERMS = Terms(id="x", name="x", cites="Code 1", answer_within="P30D", silence="accepted", pay_within="P30D")
NO_SILENCE = TERMS.model_copy(update={"silence": "nothing"})
LATE = [OPENED, FILED]
TAKEN_BACK = [
    OPENED,
    FILED,
    paid("150.00", date(2026, 5, 1)),
    happened("charged back", date(2026, 6, 1), amount="9.00"),
]


def text(*claims, today=date(2026, 8, 1), terms=TERMS):
    found = []
    for number, events in enumerate(claims):
        chased = Chased(f"26-{number}", "Halden", "CS-70", "HC70-1", stand(events), terms)
        found.append(LateClaim(chased, matter(chased, today)))
    return " ".join(as_text(maker_letter(found, Sender(name="Q"), today)).split())


def test_a_letter_about_money_taken_back_alone_names_no_section_and_reads_none():
    said = text(TAKEN_BACK)
    assert [word in said for word in ("Code 1", "the section", "and so accepted")] == [False, False, False]


def test_a_letter_about_a_late_payment_names_the_section_it_reads():
    said = text(LATE, TAKEN_BACK)
    assert ["Code 1" in said, "the section we read them in" in said, said.count("and so accepted")] == [True, True, 1]


def test_a_day_of_receipt_that_is_not_noted_is_asked_for():
    unnoted = FILED.model_copy(update={"facts": {**FILED.facts, "received": ""}})
    asked = "on which day you received"
    assert [asked in text([OPENED, filed], terms=NO_SILENCE) for filed in (FILED, unnoted)] == [False, True]
