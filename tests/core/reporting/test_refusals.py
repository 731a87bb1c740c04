import datetime as dt
from decimal import Decimal

import pytest
from reported_claims import EVER, answered, counted, paid

from claimpack.core.events.events import Event
from claimpack.core.reporting.refusals import NO_REASON, Answers, refusals_by_reason
from claimpack.core.reporting.reported import Days

CLAIMS = [paid("1"), paid("2", maker="Tessaly", currency="CAD"), paid("3")]


def event(claim, what="answered", why="", on=dt.date(2026, 2, 1), **facts):
    return Event.model_construct(claim=claim, what=what, on=on, why=why, facts=facts)


def refused(claim, why="", form="", on=dt.date(2026, 2, 1)):
    return event(claim, why=why, on=on, answer="refused", form=form)


def reasons(*events):
    return refusals_by_reason(counted(Answers(EVER), answered(CLAIMS, events)).refusals)


def test_answers_are_counted_and_refusals_among_them():
    found = counted(Answers(EVER), answered(CLAIMS, [refused("1"), event("2", answer="accepted")]))
    assert (found.came, len(found.refusals)) == (2, 1)


def test_an_answer_to_a_favour_is_no_answer_to_a_claim():
    favour = [paid("1", is_favour=True)]
    found = counted(Answers(EVER), answered(favour, [refused("1")]))
    assert (found.came, found.refusals, found.to_favours) == (0, (), 1)


def test_an_answer_undone_was_never_given():
    undone = event("1", "answer undone", answer="refused")
    assert counted(Answers(EVER), answered(CLAIMS, [refused("1"), undone])).came == 0


def test_a_refusal_by_silence_is_no_answer_and_undoes_none():
    silent = event("1", answer="refused", silence="yes")
    assert counted(Answers(EVER), answered(CLAIMS, [refused("1"), silent])).came == 1


def test_only_the_last_answer_is_undone():
    undone = event("1", "answer undone", answer="accepted")
    found = counted(Answers(EVER), answered(CLAIMS, [refused("1"), event("1", answer="accepted"), undone]))
    assert (found.came, len(found.refusals)) == (1, 1)


def test_answers_before_the_days_do_not_count():
    days = Days(dt.date(2026, 2, 2), dt.date(2026, 3, 1))
    assert counted(Answers(days), answered(CLAIMS, [refused("1")])).came == 0


@pytest.mark.parametrize("other", ["Wear item", "wear ITEM", "wear  item.", " Wear item! "])
def test_the_same_words_in_other_letters_are_one_reason(other):
    assert [(reason.said, reason.times) for reason in reasons(refused("1", "Wear item"), refused("2", other))] == [
        ("Wear item", 2)
    ]


def test_the_spelling_given_most_is_shown():
    given = (refused("1", "wear item"), refused("2", "Wear item"), refused("3", "Wear item"))
    assert reasons(*given)[0].said == "Wear item"


def test_form_and_substance_are_told_apart():
    reason = reasons(refused("1", "no plate", "yes"), refused("2", "no plate"), refused("3", "no plate", "yes"))[0]
    assert (reason.form, reason.substance) == (2, 1)


def test_the_reason_given_most_stands_first():
    assert [reason.said for reason in reasons(refused("1", "a"), refused("2", "b"), refused("3", "b"))] == ["b", "a"]


def test_a_claim_refused_twice_for_a_reason_is_one_claim():
    reason = reasons(refused("1", "no plate"), refused("1", "no plate"))[0]
    assert (reason.times, reason.claims, reason.amounts) == (2, 1, {"USD": Decimal("100.00")})


def test_amounts_of_two_currencies_stand_side_by_side():
    assert reasons(refused("1", "x"), refused("2", "x"))[0].amounts == {"CAD": 100, "USD": 100}


def test_a_reason_as_long_as_a_letter_is_cut_with_a_mark():
    said = reasons(refused("1", "no plate " * 2000))[0].said
    assert (len(said) <= 200, said[-1]) == (True, "…")


def test_a_refusal_without_a_word_says_so():
    assert reasons(refused("1"))[0].said == NO_REASON


def test_a_question_is_no_answer():
    found = counted(Answers(EVER), answered(CLAIMS, [event("1", answer="questioned"), refused("1")]))
    assert (found.came, len(found.refusals)) == (1, 1)
