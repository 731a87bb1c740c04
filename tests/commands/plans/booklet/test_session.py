from __future__ import annotations

import datetime as dt

import pytest

from claimpack.commands.plans.booklet.questions import QUESTIONS
from claimpack.commands.plans.booklet.session import BookletSession
from claimpack.core.drafting.booklet.keys import MOST_PARTS, part_keys
from claimpack.errors import BadInput

BY_KEY = {question.key: question for question in QUESTIONS}
BASE = {"maker": "Halden", "currency": "USD", "household": "24 months"}


def a_session(shops="", **answers):
    session = BookletSession("x", dt.date(2026, 3, 1), currency=shops)
    for key, typed in answers.items():
        session.answer(BY_KEY[key], typed)
    return session


@pytest.mark.parametrize(
    ("key", "typed", "kept"),
    [
        ("models", "CS-*, HT-40", "CS-*, HT-40"),
        ("excluded", "none", "none"),
        ("household", "2 years", "2 years"),
        ("sold_from", "2 Jan 2025", "2025-01-02"),
        ("sold_from", "5 Jan", "2027-01-05"),
        ("sold_until", "2 Jan 2028", "2028-01-02"),
        ("tax", "8.1", "8.1 %"),
        ("labour_rate", "$92", "$92"),
        ("second_owner", "y", "y"),
    ],
)
def test_what_was_taken_of_an_answer_is_told_as_it_was_meant(key, typed, kept):
    session = a_session(**BASE)
    session.answer(BY_KEY[key], typed)
    assert session.kept(BY_KEY[key]) == kept


@pytest.mark.parametrize(("answers", "taken"), [({}, "USD"), ({"currency": "EUR"}, "EUR")])
def test_amounts_are_in_the_currency_that_was_answered_else_in_the_shops(answers, taken):
    session = a_session("USD", **answers)
    with pytest.raises(BadInput):
        session.answer(BY_KEY["labour_rate"], {"USD": "EUR 92", "EUR": "USD 92"}[taken])
    session.answer(BY_KEY["labour_rate"], f"{taken} 92")
    assert str(session.values["labour_rate"]) == "92"


def test_what_is_paid_is_asked_of_the_windows_of_units_and_not_of_those_of_parts_sold():
    session = a_session(**BASE, fitted_part="12 months", pays="parts")
    assert len(BY_KEY["pays_for"].choices(session)) == 1
    assert not BY_KEY["pays_for"].choices(session)[0].startswith("parts-")


def test_a_second_group_of_parts_is_asked_for_once_there_is_a_first():
    session = a_session(**BASE)
    before = [session.is_open(BY_KEY[key]) for key in ("parts1", "parts2", "parts3")]
    session.answer(BY_KEY["parts1"], "engine")
    after = [session.is_open(BY_KEY[key]) for key in ("parts1", "parts2", "parts3")]
    assert (before, after) == ([True, False, False], [False, True, False])
    assert [BY_KEY[key].asks.startswith("Other") for key in ("parts1", "parts2")] == [False, True]


def test_every_group_of_parts_that_a_plan_can_be_made_of_is_asked_for():
    asked = {key for place in range(1, MOST_PARTS + 1) for key in part_keys(place)}
    assert asked - BY_KEY.keys() == set()


@pytest.mark.parametrize(("key", "open_"), [("claim_cap", False), ("maker", True)])
def test_only_what_no_plan_is_without_cannot_be_skipped(key, open_):
    session = a_session()
    try:
        session.skip(BY_KEY[key])
    except BadInput:
        assert key == "maker"
    assert session.is_open(BY_KEY[key]) == open_


@pytest.mark.parametrize("key", ["rest", "claim_time", "diagnosis_else", "hold_of"])
def test_of_a_few_words_no_other_is_taken(key):
    session = a_session(**BASE)
    with pytest.raises(BadInput, match="is not one of"):
        session.answer(BY_KEY[key], "somebody")


def test_an_answer_that_contradicts_another_leaves_what_was_said_before():
    session = a_session(**BASE, parts1="engine", excluded="blade")
    with pytest.raises(BadInput):
        session.answer(BY_KEY["excluded"], "engine")
    assert (session.said("excluded"), session.values["excluded"]) == ("blade", ["blade"])


@pytest.mark.parametrize(
    ("answers", "lacking"),
    [({}, 3), ({"maker": "Halden"}, 2), ({"maker": "Halden", "currency": "USD"}, 1), (BASE, 0)],
)
def test_a_plan_needs_a_maker_a_currency_and_a_time_of_cover(answers, lacking):
    assert len(a_session(**answers).lacks()) == lacking
