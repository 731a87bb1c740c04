from datetime import date
from decimal import Decimal

import pytest
from new_events import accepted_in_part, happened, paid

from claimpack.core.events.fold import stand
from claimpack.core.payment.late_answers import charged_back_late, contested
from claimpack.core.payment.payment_dates import payment_dates
from claimpack.core.plans.terms import Terms

TERMS = Terms(id="x", name="X", cites="Code 57.253", answer_within="P45D", silence="accepted", pay_within="P30D")
FILED = happened("filed", date(2026, 1, 2), claimed="150.00", currency="USD", received="2026-01-02", revision="1")
IN_TIME, LATE = date(2026, 2, 16), date(2026, 2, 17)


def answer(kind, on=LATE, why=""):
    return happened("answered", on, why, answer=kind)


def held_against(*since, terms=TERMS):
    standing = stand([FILED, *since])
    return contested(standing, payment_dates(standing, terms))


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


AUDITED = Terms(id="x", name="X", cites="Code 19.98", resubmit_within="P30D", audit_reach="P1Y")
PAID = [FILED, answer("accepted", IN_TIME), paid("150.00", date(2026, 3, 1))]


@pytest.mark.parametrize(("month", "late"), [(2, 0), (3, 0), (4, 40)], ids=["before", "the last day", "after"])
def test_money_taken_back_after_an_audit_could_reach_is_held_against_the_maker(month, late):
    day = date(2027, 3, 1) if month == 3 else date(2027, month, 2)
    taken = happened("charged back", day, "Audit.", amount="40.00")
    assert charged_back_late(stand([*PAID, taken]), AUDITED) == late


def test_a_late_charge_back_is_held_against_the_maker_though_a_later_payment_was_entered_before_it():
    short = [FILED, answer("accepted", IN_TIME), paid("100.00", date(2026, 3, 1)), paid("50.00", date(2027, 4, 1))]
    taken = happened("charged back", date(2027, 3, 2), "Audit.", amount="40.00")
    assert charged_back_late(stand([*short, taken]), AUDITED) == 40


def test_without_terms_no_charge_back_is_late():
    standing = stand([*PAID, happened("charged back", date(2029, 1, 1), "Audit.", amount="40.00")])
    assert charged_back_late(standing, None) == 0
