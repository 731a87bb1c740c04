from datetime import date

import pytest
from new_events import ACCEPTED, FILED, OPENED, accepted_in_part, happened, paid

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


def a_letter(*claims, today=date(2026, 8, 1), terms=TERMS, because=""):
    found = []
    for number, events in enumerate(claims):
        chased = Chased(f"26-{number}", "Halden", "CS-70", "HC70-1", stand(events), terms, because)
        found.append(LateClaim(chased, matter(chased, today)))
    return maker_letter(found, Sender(name="Q"), today)


def text(*claims, **how):
    return " ".join(as_text(a_letter(*claims, **how)).split())


@pytest.mark.parametrize(
    ("because", "said"), [("Part not returned.", "as we noted it: Part not returned"), ("", "no reason on record")]
)
def test_money_taken_back_is_named_as_such_with_its_reason_and_the_section_of_its_terms(because, said):
    told = text(TAKEN_BACK, because=because)
    assert [word in told for word in (said, "Code 1", "and so accepted")] == [True, True, False]
    amounts = a_letter(TAKEN_BACK, LATE).amounts
    assert amounts == (
        ("To be paid", "150.00 USD"),
        ("Charged back, to be paid again", "9.00 USD"),
        ("To be paid in all", "159.00 USD"),
    )


def test_money_taken_back_where_no_terms_are_known_names_no_section():
    assert "section named" not in text(TAKEN_BACK, terms=None)


def test_a_letter_about_several_claims_offers_the_part_of_none():
    assert "held part" not in text(LATE, TAKEN_BACK)


def test_every_payment_is_asked_for_by_its_own_day():
    early = FILED.model_copy(update={"on": date(2026, 1, 2), "facts": {**FILED.facts, "received": "2026-01-02"}})
    ask = a_letter([OPENED, early], LATE, today=date(2026, 4, 10)).ask
    assert "150.00 USD by 24 April 2026 (26-0), and 150.00 USD by 2 May 2026 (26-1)" in ask


def test_a_letter_about_a_late_payment_names_the_section_it_reads():
    said = text(LATE, TAKEN_BACK)
    assert ["Code 1" in said, "the section we read them in" in said, said.count("and so accepted")] == [True, True, 1]


UNNOTED = FILED.model_copy(update={"facts": {**FILED.facts, "received": ""}})


def test_a_day_of_receipt_that_is_not_noted_is_asked_for():
    asked = "on which day you received"
    assert [asked in text([OPENED, filed], terms=NO_SILENCE) for filed in (FILED, UNNOTED)] == [False, True]


def test_a_line_that_asks_for_less_than_was_claimed_says_what_was_accepted_and_paid():
    said = text([*LATE, accepted_in_part("100.00"), paid("60.00", date(2026, 5, 1))])
    assert "100.00 USD of 150.00 USD accepted on" in said
    assert "60.00 USD of 150.00 USD paid so far" in said


@pytest.mark.parametrize("events", [LATE, TAKEN_BACK], ids=["silent", "taken back"])
def test_a_line_about_what_was_not_paid_in_part_says_nothing_of_a_part(events):
    assert "paid so far" not in text(events)


def test_what_was_accepted_whole_is_not_said_to_be_a_part():
    said = text([*LATE, ACCEPTED])
    assert ("; accepted on 1 March 2026" in said, "150.00 USD of 150.00 USD" in said) == (True, False)


@pytest.mark.parametrize(("events", "label"), [(LATE, "To be paid"), (TAKEN_BACK, "Charged back, to be paid again")])
def test_one_kind_of_money_has_one_sum(events, label):
    assert [told for told, _ in a_letter(events).amounts] == [label]


@pytest.mark.parametrize(
    ("filed", "terms", "day"),
    [
        (FILED, TERMS, "last day to pay 2 May 2026 (Code 1)"),
        (FILED, NO_SILENCE, "last day to answer 2 April 2026 (Code 1)"),
        (UNNOTED, NO_SILENCE, "last day to answer 31 March 2026, counted from filing (Code 1)"),
        (FILED, TERMS.model_copy(update={"pay_within": None}), ""),
    ],
    ids=["to pay", "to answer", "from filing", "no time to pay"],
)
def test_a_line_names_the_last_day_of_what_it_asks_for(filed, terms, day):
    assert a_letter([OPENED, filed], terms=terms).rows[0][1] == day


@pytest.mark.parametrize(("claims", "named"), [([LATE], "number."), ([LATE, LATE], "numbers.")])
def test_payments_of_one_day_are_asked_for_in_one_sum(claims, named):
    ask = a_letter(*claims).ask
    assert (ask.endswith(f"naming our claim {named}"), "(26-0" in ask) == (True, False)
