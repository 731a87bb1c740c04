from __future__ import annotations

import pytest

from claimpack.commands.talk.question import Question


@pytest.mark.parametrize(("count", "shown", "more"), [(11, 11, False), (12, 12, False), (13, 9, True)])
def test_up_to_twelve_choices_stand_above_a_question_and_of_more_the_first_nine(count, shown, more):
    question = Question(
        "shot", "Which shot?", "", choices=lambda _: [f"shot {n}" for n in range(count)], most_numbered=40
    )
    above, what_then = question.shown(None)
    assert (len(above), bool(what_then)) == (shown, more)


def of(count, **keys):
    return Question("shot", "Which shot? (or none)", "Help.", choices=lambda _: [f"s{n}" for n in range(count)], **keys)


@pytest.mark.parametrize(("count", "numbered"), [(0, 0), (1, 0), (2, 2), (9, 9), (10, 0)])
def test_two_to_nine_choices_have_numbers(count, numbered):
    assert len(of(count).numbered(None)) == numbered


@pytest.mark.parametrize(("count", "listed"), [(12, 0), (13, 13)])
def test_choices_are_listed_when_they_do_not_all_stand_above_the_question(count, listed):
    assert len(of(count, most_numbered=40).listed(None)) == listed


@pytest.mark.parametrize(
    ("count", "keys", "at_once"),
    [
        (3, {"closed": True}, "123"),
        (3, {"letters": True}, "123"),
        (3, {}, ""),
        (9, {"closed": True}, "123456789"),
        (10, {"closed": True, "most_numbered": 12}, ""),
    ],
    ids=["no other answers", "answers begin with a letter", "any answer", "nine", "ten"],
)
def test_a_figure_chooses_at_once_where_no_other_answer_begins_with_one(count, keys, at_once):
    assert of(count, **keys).at_once(None) == at_once


def test_a_figure_that_begins_a_choice_does_not_choose_at_once():
    question = Question("year", "Year?", "", choices=lambda _: ["2x", "new", "old"], closed=True)
    assert question.at_once(None) == "13"


def test_what_is_offered_has_the_numbers_and_what_is_known_is_explained():
    question = of(3, offers=lambda _: ["first", "second"])
    assert (question.numbered(None), question.explains(None)) == (["first", "second"], "Help. One of: s0, s1, s2.")


def test_a_question_is_called_by_its_first_words():
    assert (of(0).word, of(0).explains(None)) == ("Which shot", "Help.")
