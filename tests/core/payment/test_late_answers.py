from datetime import date
from decimal import Decimal

import pytest
from new_events import accepted_in_part, happened, paid

from claimpack.core.payment.late_answers import charged_back_late, contested
from claimpack.core.payment.payment_dates import payment_dates
from claimpack.core.payment.remarks import of_the_charge_back, remarks, too_late_again
from claimpack.core.plans.terms import Terms
from claimpack.core.steps.claim_state import stand

TERMS = Terms(id="x", name="X", cites="Code 57.253", answer_within="P45D", silence="accepted", pay_within="P30D")
FILED = happened("filed", date(2026, 1, 2), claimed="150.00", currency="USD", received="2026-01-02", revision="1")
IN_TIME, LATE = date(2026, 2, 16), date(2026, 2, 17)


def answer(kind, on=LATE, why=""):
    return happened("answered", on, why, answer=kind)


def held_against(*since, terms=TERMS):
    standing = stand([FILED, *since])
    return contested(standing, payment_dates(standing, terms))


def said(*since, terms=TERMS):
    return remarks("26-0001", stand([FILED, *since]), terms)


@pytest.mark.parametrize("kind", ["refused", "questioned"])
def test_all_of_a_claim_refused_or_asked_about_after_silence_is_contested(kind):
    assert held_against(answer(kind)) == Decimal("150.00")


@pytest.mark.parametrize("since", [(), (paid("100.00", LATE),)], ids=["waited for", "paid"])
def test_of_a_claim_accepted_in_part_after_silence_what_is_not_paid_is_contested(since):
    assert held_against(accepted_in_part("100.00", LATE), *since) == Decimal("150.00") - (100 if since else 0)


@pytest.mark.parametrize(
    "since",
    [
        [answer("refused", IN_TIME)],
        [answer("questioned", IN_TIME), answer("refused")],
        [answer("accepted")],
        [accepted_in_part("100.00", LATE), paid("100.00", LATE), happened("written off", LATE, amount="50", rest="50")],
    ],
    ids=["in time", "a question in time", "accepted", "the rest let go"],
)
def test_otherwise_nothing_is_contested(since):
    assert held_against(*since) == 0


def test_without_terms_nothing_is_contested():
    assert held_against(answer("refused"), terms=None) == 0


def test_a_late_answer_is_remarked_on_with_the_days_the_section_and_a_caution():
    assert " ".join(said(answer("accepted"))) == (
        "Silence accepted it on 2026-02-16, before the answer of 2026-02-17, and the last day to pay stays 2026-03-18: "
        "Code 57.253 (check the current text; not legal advice)."
    )


@pytest.mark.parametrize(
    ("late", "letter"),
    [
        (answer("refused", why="Misuse."), "A letter that contests the refusal: claimpack chase 26-0001."),
        (accepted_in_part("100.00", LATE), "A letter that contests the refusal of the rest: claimpack chase 26-0001."),
        (answer("questioned"), "A letter that says so: claimpack chase 26-0001."),
    ],
    ids=["refused", "part", "questioned"],
)
def test_a_late_answer_that_can_be_contested_names_the_letter(late, letter):
    assert said(late)[1].startswith(letter)


@pytest.mark.parametrize("answer_", [answer("refused"), answer("questioned"), accepted_in_part("100.00", LATE)])
def test_what_can_be_contested_is_given_up_by_filing_it_again(answer_):
    assert said(answer_)[1].endswith("Filing it again would start its time to answer anew.")


def test_a_late_answer_that_accepts_no_more_than_was_paid_names_the_letter_too():
    assert "refusal of the rest" in said(paid("100.00", LATE), accepted_in_part("100.00", LATE))[1]


def test_a_late_answer_to_a_claim_paid_in_full_is_not_remarked_on():
    assert said(paid("150.00", LATE), answer("accepted")) == ()


def test_an_answer_in_time_is_not_remarked_on():
    assert said(answer("refused", IN_TIME, "Misuse.")) == ()


def test_a_refusal_without_a_reason_says_that_none_is_recorded_and_how_to_give_it():
    assert " ".join(said(answer("refused", IN_TIME))) == (
        "No reason is recorded. Where the maker gave one: claimpack answer 26-0001 --undo --because TEXT, then the "
        "answer again with --because."
    )


def test_where_the_terms_say_so_a_refusal_without_grounds_counts_as_acceptance():
    terms = TERMS.model_copy(update={"without_grounds": "accepted"})
    assert said(answer("refused", IN_TIME), terms=terms)[1] == (
        "A refusal without grounds counts as acceptance: Code 57.253 (check the current text; not legal advice)."
    )


AGAIN = Terms(id="x", name="X", cites="Code 19.98", resubmit_within="P30D", audit_reach="P1Y")
FOR_FORM = happened("answered", date(2026, 1, 10), answer="refused", form="yes")


@pytest.mark.parametrize(("day", "told"), [(8, 0), (9, 0), (10, 1)], ids=["before", "the last day", "after"])
def test_the_day_after_the_last_one_to_send_it_in_again_is_too_late(day, told):
    said = too_late_again(stand([FILED, FOR_FORM]), AGAIN, date(2026, 2, day))
    assert len(said) == told
    assert all("Code 19.98" in each for each in said)


def test_a_refusal_of_substance_has_no_last_day_to_send_it_in_again():
    refused = happened("answered", date(2026, 1, 10), answer="refused")
    assert too_late_again(stand([FILED, refused]), AGAIN, date(2027, 1, 1)) == ()


PAID = [FILED, answer("accepted", IN_TIME), paid("150.00", date(2026, 3, 1))]


@pytest.mark.parametrize(("month", "late"), [(2, 0), (3, 0), (4, 40)], ids=["before", "the last day", "after"])
def test_money_taken_back_after_an_audit_could_reach_is_held_against_the_maker(month, late):
    day = date(2027, 3, 1) if month == 3 else date(2027, month, 2)
    taken = happened("charged back", day, "Audit.", amount="40.00")
    standing = stand([*PAID, taken])
    assert (charged_back_late(standing, AGAIN), bool(of_the_charge_back("26-1", standing, AGAIN))) == (late, bool(late))


@pytest.mark.parametrize(("day", "said"), [(2, "1 day before"), (3, "2 days before")])
def test_how_late_a_charge_back_came_is_told_in_days(day, said):
    standing = stand([*PAID, happened("charged back", date(2027, 3, day), "Audit.", amount="40.00")])
    assert said in of_the_charge_back("26-1", standing, AGAIN)[0]


def test_without_terms_no_charge_back_is_late():
    standing = stand([*PAID, happened("charged back", date(2029, 1, 1), "Audit.", amount="40.00")])
    assert (charged_back_late(standing, None), of_the_charge_back("26-1", standing, None)) == (0, ())
