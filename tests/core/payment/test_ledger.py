from datetime import date
from decimal import Decimal

import pytest
from builders import a_claim

from claimpack.core.events.events import NewEvent
from claimpack.core.events.fold import stand
from claimpack.core.events.standing import Standing
from claimpack.core.judging.claim_summary import ClaimSummary
from claimpack.core.payment.ledger import ledger_line, money_facts, standing_in_words, state_in_words

FILED = NewEvent(what="filed", on=date(2026, 3, 2), facts={"claimed": "159.7", "currency": "USD", "reference": "H-1"})
PART = NewEvent(what="answered", on=date(2026, 3, 9), why="One part only.", facts={"answer": "part", "amount": "100"})
WHOLE = NewEvent(what="answered", on=date(2026, 3, 9), facts={"answer": "accepted"})
PAID_THE_REST = NewEvent(what="paid", on=date(2026, 3, 21), facts={"amount": "40"})
PAID = NewEvent(what="paid", on=date(2026, 3, 20), facts={"amount": "60"})
SUMMARY = ClaimSummary(plan="halden-test", verdict="covered", currency="JPY", claimed=Decimal(20925))


def line(*new_events):
    return ledger_line(a_claim(), stand(new_events), SUMMARY)


def test_a_line_carries_every_serial():
    assert line().serials == "unit HC70-1; engine E70-1"


def test_a_draft_shows_what_it_would_claim():
    assert (str(line().claimed), line().currency, line().filed) == ("20925", "JPY", None)


def test_a_filed_claim_shows_what_was_claimed():
    assert (str(line(FILED).claimed), line(FILED).currency, line(FILED).reference) == ("159.70", "USD", "H-1")


def test_a_line_follows_the_money():
    told = line(FILED, PART, PAID)
    amounts = [str(amount) for amount in (told.accepted, told.paid, told.written_off, told.outstanding)]
    assert amounts == ["100.00", "60.00", "0.00", "40.00"]


def test_a_line_follows_the_days():
    told = line(FILED, PART, PAID)
    assert [day.isoformat() for day in (told.filed, told.answered, told.paid_on)] == [
        "2026-03-02",
        "2026-03-09",
        "2026-03-20",
    ]


@pytest.mark.parametrize(
    ("new_events", "said"),
    [
        ((FILED,), "filed"),
        ((FILED, WHOLE), "accepted"),
        ((FILED, PART), "accepted in part"),
        ((FILED, PART, PAID), "accepted in part"),
        ((FILED, PART, PAID, PAID_THE_REST), "paid"),
    ],
)
def test_a_claim_whose_rest_is_refused_is_said_to_be_accepted_in_part_until_it_is_paid(new_events, said):
    assert state_in_words(stand(new_events)) == said


@pytest.mark.parametrize(
    ("new_events", "said"),
    [
        ((FILED,), "claimed 159.70 USD, outstanding 159.70"),
        ((FILED, PART), "claimed 159.70 USD, accepted 100.00, outstanding 100.00"),
        ((FILED, PART, PAID), "claimed 159.70 USD, accepted 100.00, paid 60.00, outstanding 40.00"),
    ],
)
def test_money_is_told_in_one_sentence(new_events, said):
    assert standing_in_words(stand(new_events)) == said


def test_scripts_read_amounts_as_text_and_days_as_dates():
    facts = money_facts("26-1", stand([FILED, PART]))
    assert (facts["claimed"], facts["accepted"], facts["answered"], facts["paid_on"]) == (
        "159.70",
        "100.00",
        "2026-03-09",
        None,
    )


def test_a_draft_has_no_currency_to_round_by():
    assert money_facts("26-1", Standing())["claimed"] == "0"


@pytest.mark.parametrize(("new_events", "rest"), [((FILED,), "0.00"), ((FILED, PART), "59.70")])
def test_scripts_read_what_the_maker_refused(new_events, rest):
    assert money_facts("26-1", stand(new_events))["refused_rest"] == rest


def test_a_line_ends_with_what_was_not_accepted_and_the_memos_of_payments():
    assert list(line(FILED, PART).model_dump().items())[-2:] == [("not_accepted", Decimal("59.70")), ("memos", "")]
