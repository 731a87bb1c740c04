from datetime import date
from decimal import Decimal

import pytest
from filed import FiledClaim

from claimpack.core.payment.payment_dates import days_overdue, payment_dates, turn
from claimpack.core.plans.terms import NOT_KNOWN, Terms, not_read

TERMS = Terms(
    id="x",
    name="x",
    answer_within="P30D",
    silence="accepted",
    pay_within="P30D",
    resubmit_within="P30D",
    inspect_within="P60D",
    audit_reach="P1Y",
)


def dates(terms=TERMS, **facts):
    return payment_dates(FiledClaim(**facts), terms)


def test_without_terms_there_are_no_dates():
    found = dates(None)
    assert (found.answer_due, found.answer_estimated, found.terms_known) == (None, False, True)


@pytest.mark.parametrize(("terms", "named"), [(NOT_KNOWN, ""), (not_read("us-zz"), "us-zz")])
def test_terms_that_nobody_here_can_read_are_not_known_and_named_where_they_have_a_name(terms, named):
    found = dates(terms)
    assert (found.terms_known, found.terms_unread, found.answer_due) == (False, named, None)


def test_a_draft_has_no_dates():
    assert dates(state="draft", filed=None).answer_due is None


def test_without_the_day_of_receipt_the_answer_is_an_estimate():
    found = dates(received=None)
    assert (found.answer_due, found.answer_estimated) == (date(2026, 2, 1), True)


def test_with_the_day_of_receipt_the_answer_is_no_estimate():
    assert dates().answer_estimated is False


@pytest.mark.parametrize("facts", [{"state": "accepted"}, {"state": "questioned"}])
def test_an_answer_that_is_not_waited_for_is_not_estimated(facts):
    assert dates(received=None, **facts).answer_estimated is False


def test_without_a_time_to_answer_none_is_estimated():
    assert dates(TERMS.model_copy(update={"answer_within": None}), received=None).answer_estimated is False


@pytest.mark.parametrize(
    ("day", "spoken"), [(date(2026, 1, 31), False), (date(2026, 2, 1), False), (date(2026, 2, 2), True)]
)
def test_silence_speaks_once_the_last_day_to_answer_is_over(day, spoken):
    assert dates().silence_has_spoken(day) is spoken


@pytest.mark.parametrize(("inspects", "until"), [("filed", date(2026, 3, 3)), ("received", date(2026, 3, 10))])
def test_the_time_to_inspect_a_part_is_counted_from_the_day_that_the_terms_name(inspects, until):
    terms = TERMS.model_copy(update={"inspect_from": inspects})
    assert dates(terms, received=date(2026, 1, 9)).inspect_by == until


@pytest.mark.parametrize(("state", "until"), [("paid", date(2027, 1, 30)), ("accepted", None)])
def test_an_audit_may_come_for_a_time_after_all_is_paid(state, until):
    assert dates(state=state, paid_on=date(2026, 1, 30)).audit_until == until


def test_silence_has_no_effect_on_an_estimate():
    assert dates(received=None).accepted_by_silence_on is None


def test_a_question_is_no_silence():
    assert dates(state="questioned").accepted_by_silence_on is None


@pytest.mark.parametrize("silence", ["refused", "nothing"])
def test_silence_that_does_not_accept_starts_no_payment(silence):
    assert dates(TERMS.model_copy(update={"silence": silence})).pay_due is None


def test_an_acceptance_in_writing_starts_the_time_to_pay():
    assert dates(state="accepted", accepted_on=date(2026, 1, 10)).pay_due == date(2026, 2, 9)


@pytest.mark.parametrize(("for_form", "until"), [(True, date(2026, 2, 9)), (False, None)])
def test_only_a_refusal_for_form_is_sent_in_again_within_a_time(for_form, until):
    refused = {"state": "refused", "answered": date(2026, 1, 10), "heard": date(2026, 1, 10)}
    assert dates(**refused, refused_for_form=for_form).resubmit_by == until


@pytest.mark.parametrize(
    ("taken_on", "owed"),
    [(None, False), (date(2026, 5, 1), True), (date(2026, 5, 2), False), (date(2026, 5, 3), False)],
)
def test_money_taken_back_is_owed_again_from_the_day_after(taken_on, owed):
    assert dates(state="accepted", owed_again=taken_on).is_owed_again(date(2026, 5, 2)) is owed


@pytest.mark.parametrize(
    ("state", "day", "reached"),
    [("accepted", 1, None), ("accepted", 2, date(2027, 3, 1)), ("paid", 2, None)],
    ids=["the last day", "the day after", "paid again since"],
)
def test_a_charge_back_after_the_last_day_of_an_audit_is_told_while_it_is_open(state, day, reached):
    taken = {"charged_from": date(2026, 3, 1), "charged_back_on": date(2027, 3, day)}
    assert dates(state=state, **taken).audit_reached_to == reached


def test_terms_may_count_the_answer_from_filing():
    terms = TERMS.model_copy(update={"answer_from": "filed"})
    assert dates(terms, filed=date(2026, 1, 2), received=date(2026, 1, 9)).answer_due == date(2026, 2, 1)


@pytest.mark.parametrize(
    ("state", "whose"),
    [
        ("draft", "shop"),
        ("filed", "maker"),
        ("questioned", "shop"),
        ("accepted", "maker"),
        ("refused", "shop"),
        ("paid", "nobody"),
    ],
)
def test_every_state_is_somebodys_turn(state, whose):
    assert turn(FiledClaim(state=state), dates(state=state)) == whose


BARE = TERMS.model_copy(update={"without_grounds": "accepted"})
REFUSED = {"state": "refused", "answered": date(2026, 1, 10), "heard": date(2026, 1, 10), "gave_no_grounds": True}


@pytest.mark.parametrize(
    ("terms", "facts", "pay_due"),
    [
        (BARE, REFUSED, date(2026, 2, 9)),
        (TERMS, REFUSED, None),
        (BARE, {**REFUSED, "gave_no_grounds": False}, None),
        # silence had accepted it before: that is what is argued, and its time to pay runs from then
        (BARE, {**REFUSED, "answered": date(2026, 2, 10), "heard": date(2026, 2, 10)}, date(2026, 3, 3)),
    ],
    ids=["accepted", "other terms", "with a reason", "after silence"],
)
def test_a_refusal_without_grounds_starts_the_time_to_pay_where_the_terms_say_so(terms, facts, pay_due):
    assert dates(terms, **facts).pay_due == pay_due


@pytest.mark.parametrize(("day", "late"), [(8, 0), (9, 0), (10, 1)])
def test_a_refusal_without_grounds_is_the_makers_turn_and_late_after_the_last_day_to_pay(day, late):
    claim = FiledClaim(**REFUSED)
    found = payment_dates(claim, BARE)
    assert (turn(claim, found), days_overdue(claim, found, date(2026, 2, day))) == ("maker", late)


@pytest.mark.parametrize(("today", "days"), [(date(2026, 3, 2), 0), (date(2026, 3, 3), 0), (date(2026, 3, 4), 1)])
def test_overdue_counts_from_the_day_after_the_last_day_to_pay(today, days):
    claim = FiledClaim()
    assert days_overdue(claim, payment_dates(claim, TERMS), today) == days


def test_money_taken_back_is_not_counted_from_the_time_to_pay():
    claim = FiledClaim(state="accepted", accepted_on=date(2026, 1, 10), owed_again=date(2026, 5, 2))
    found = payment_dates(claim, TERMS)
    assert (found.pay_due, found.owed_again, days_overdue(claim, found, date(2026, 6, 1))) == (
        None,
        date(2026, 5, 2),
        0,
    )


REFUSED_LATE = {"state": "refused", "answered": date(2026, 2, 20), "heard": date(2026, 2, 20)}


def test_an_acceptance_after_silence_leaves_the_day_to_pay_where_silence_put_it():
    late = {"state": "accepted", "accepted_on": date(2026, 2, 20), "heard": date(2026, 2, 20)}
    found = dates(**late)
    assert (found.accepted_by_silence_on, found.pay_due) == (date(2026, 2, 1), date(2026, 3, 3))


@pytest.mark.parametrize(("day", "late"), [(1, False), (2, True)], ids=["the last day", "the day after"])
def test_an_answer_is_late_from_the_day_after_the_last_one_to_answer(day, late):
    heard = date(2026, 2, day)
    assert bool(dates(state="refused", answered=heard, heard=heard).answered_late) is late


@pytest.mark.parametrize("state", ["refused", "questioned"])
def test_a_late_answer_does_not_undo_what_silence_accepted(state):
    found = dates(**{**REFUSED_LATE, "state": state})
    assert (found.accepted_by_silence_on, found.pay_due) == (date(2026, 2, 1), date(2026, 3, 3))


@pytest.mark.parametrize(("rest", "due"), [("59.70", date(2026, 3, 3)), ("0", None)], ids=["a rest", "no rest"])
def test_a_claim_paid_as_accepted_keeps_the_day_to_pay_of_silence_while_a_refused_rest_is_left(rest, due):
    late = {"answered": date(2026, 2, 20), "heard": date(2026, 2, 20), "accepted_on": date(2026, 2, 20)}
    assert dates(state="paid", refused_rest=Decimal(rest), **late).pay_due == due


def test_a_rest_refused_in_time_has_no_day_to_pay():
    in_time = {"answered": date(2026, 2, 1), "heard": date(2026, 2, 1), "accepted_on": date(2026, 2, 1)}
    assert dates(state="paid", refused_rest=Decimal("59.70"), **in_time).pay_due is None


def test_a_question_in_time_is_no_silence_whatever_comes_later():
    found = dates(state="refused", answered=date(2026, 2, 20), heard=date(2026, 1, 20))
    assert (found.accepted_by_silence_on, found.answered_late, found.pay_due) == (None, None, None)


def test_an_answer_after_an_estimated_day_is_not_late():
    assert dates(received=None, **REFUSED_LATE).answered_late is None


@pytest.mark.parametrize("silence", ["refused", "nothing"])
def test_where_silence_does_not_accept_no_answer_is_late(silence):
    assert dates(TERMS.model_copy(update={"silence": silence}), **REFUSED_LATE).answered_late is None


def test_a_refused_claim_is_not_overdue():
    claim = FiledClaim(**REFUSED_LATE)
    assert days_overdue(claim, payment_dates(claim, TERMS), date(2026, 6, 1)) == 0


RUNS_ON = TERMS.model_copy(update={"question": "runs on"})
ASKED = {"asked_filed": date(2026, 1, 2), "asked_received": date(2026, 1, 4)}


def test_a_question_stops_the_time_to_answer_unless_the_terms_say_otherwise():
    asked = FiledClaim(state="questioned", received=date(2026, 1, 4))
    assert [payment_dates(asked, terms).answer_due is None for terms in (TERMS, RUNS_ON)] == [True, False]


def test_where_the_time_runs_on_the_shops_reply_starts_no_new_one():
    replied = FiledClaim(filed=date(2026, 2, 1), received=date(2026, 2, 3), **ASKED)
    first = FiledClaim(received=date(2026, 1, 4))
    due = [payment_dates(claim, RUNS_ON).answer_due for claim in (first, replied)]
    assert due[0] == due[1] != payment_dates(replied, TERMS).answer_due


def test_where_the_time_runs_on_silence_speaks_through_a_question():
    asked = FiledClaim(state="questioned", received=date(2026, 1, 4), heard=date(2026, 1, 10))
    dates = payment_dates(asked, RUNS_ON)
    assert (dates.accepted_by_silence_on, dates.answered_late) == (dates.answer_due, None)
    assert dates.pay_due is not None


def test_where_the_time_runs_on_a_decision_in_time_is_not_late():
    decided = FiledClaim(state="refused", received=date(2026, 1, 4), heard=date(2026, 1, 6), decided=date(2026, 1, 9))
    assert payment_dates(decided, RUNS_ON).accepted_by_silence_on is None


@pytest.mark.parametrize(("day", "late"), [(date(2026, 3, 5), 0), (date(2026, 3, 6), 1)])
def test_a_question_that_silence_spoke_through_is_overdue_after_the_last_day_to_pay(day, late):
    asked = FiledClaim(state="questioned", received=date(2026, 1, 4), heard=date(2026, 1, 10))
    assert days_overdue(asked, payment_dates(asked, RUNS_ON), day) == late


@pytest.mark.parametrize("heard", [date(2026, 1, 20), date(2026, 2, 20)], ids=["in time", "after silence"])
def test_a_question_that_stops_the_time_is_not_overdue_until_the_shop_replied(heard):
    asked = FiledClaim(state="questioned", answered=heard, heard=heard)
    assert days_overdue(asked, payment_dates(asked, TERMS), date(2026, 6, 1)) == 0
