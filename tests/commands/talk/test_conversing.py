from __future__ import annotations

import os

import pytest
from running import Pipe, Terminal
from typed_terminal import terminal

from claimpack.commands.desk.say import Say
from claimpack.commands.desk.world import World
from claimpack.commands.talk.asking import converse
from claimpack.commands.talk.question import Question
from claimpack.errors import BadInput


class Form:
    """What is filled in: every answer in capitals, but for one of no meaning; what repeats is a list."""

    def __init__(self, *questions, **answers):
        self.questions, self.answers, self.listed, self.skipped = questions, answers, [], []

    def is_open(self, question):
        return question.key not in self.answers and question.is_due(self)

    def said(self, key):
        return self.answers.get(key, "")

    def kept(self, question):
        return "".join(self.listed[-1:]) if question.repeats else self.said(question.key)

    def answer(self, question, typed):
        if typed == "nonsense":
            raise BadInput("it has no meaning")
        if question.repeats:
            self.listed.append(typed.upper())
        else:
            self.answers[question.key] = typed.upper()

    def skip(self, question):
        self.skipped.append(question.key)

    def take_back(self, question):
        return self.listed.pop() if question.repeats and self.listed else ""


NAME, PLACE = Question("name", "Name?", "Who it is."), Question("place", "Place?", "Where it is.")
COLOUR = Question("colour", "Colour?", "What it looks like.", choices=lambda _: ["red", "blue"], example="red as rust")
PARTS = Question("part", "Part?", "One at a time.", repeats=True, example="a ring")


def asked(form, *typed, stream=Pipe):
    """Whether the conversation came to its end, what it said, and the questions it heard an answer to."""
    err, heard = stream(), []
    say = Say(World(stdin=stream("".join(f"{line}\n" for line in typed)), stdout=Pipe(), stderr=err, environ={}))
    ended = converse(say, form, lambda question: heard.append(question.key))
    return ended, err.getvalue(), heard


@pytest.mark.parametrize(
    ("typed", "ended", "answers"),
    [
        (("a", "b"), True, {"name": "A", "place": "B"}),
        (("a", "stop"), False, {"name": "A"}),
        (("a",), False, {"name": "A"}),
        (("", "b"), True, {"place": "B"}),
        ((), False, {}),
    ],
    ids=["to its end", "stopped", "the input ends", "one skipped", "nothing typed"],
)
def test_a_conversation_comes_to_its_end_or_was_broken_off(typed, ended, answers):
    form = Form(NAME, PLACE)
    told = asked(form, *typed)
    assert (told[0], form.answers) == (ended, answers)


def test_who_listens_hears_of_every_answer_once_and_of_none_that_was_not_taken():
    form = Form(NAME, PARTS, PLACE)
    assert asked(form, "nonsense", "?", "a", "ring", "seal", "back", "", "b")[2] == ["name", *["part"] * 3, "place"]
    assert form.listed == ["RING"]


def test_what_was_answered_before_is_asked_only_on_the_way_back():
    told = asked(Form(NAME, PLACE, COLOUR, name="A"), "b", "back", "back", "", "", "red")[1]
    assert (told.count("Name?"), told.count("Place?"), told.count("Colour?")) == (1, 3, 2)


def test_what_is_not_due_is_not_asked_even_on_the_way_back():
    never = Question("never", "Never?", "", is_due=lambda _: False)
    assert "Never?" not in asked(Form(NAME, never, PLACE), "a", "back", "a", "b")[1]


def test_an_example_and_the_choices_are_shown_once_for_answers_that_are_one_after_the_other():
    several = Question("part", "Part?", "", repeats=True, example="a ring", choices=lambda _: ["ring", "seal"])
    told = asked(Form(several, NAME), "ring", "seal", "", "back", "", "a")[1]
    shown = [("As in: a ring." in above, "1 ring" in above) for above in told.split("Part?")[:-1]]
    assert shown == [(True, True), (False, False), (False, False), (True, True)]


def test_a_question_without_an_example_has_none():
    assert "As in" not in asked(Form(NAME), "a")[1]


@pytest.mark.parametrize(("typed", "kept"), [("", "TODAY"), ("now", "NOW")])
def test_enter_takes_what_is_suggested(typed, kept):
    form = Form(Question("day", "Day?", "", suggestion=lambda _: "today"))
    told = asked(form, typed)[1]
    assert ("Day? [today]" in told, form.answers["day"]) == (True, kept)


def test_an_answer_that_is_there_is_shown_in_place_of_what_is_suggested():
    day = Question("day", "Day?", "", suggestion=lambda _: "today")
    told = asked(Form(day, NAME), "now", "back", "", "a")[1]
    assert (told.count("[NOW]"), told.count("[today]"), "Name? [" in told) == (1, 1, False)


@pytest.mark.parametrize(("length", "shown"), [(60, "x" * 60), (61, "x" * 59 + "…")])
def test_a_long_answer_is_shown_in_short(length, shown):
    assert f"[{shown}]" in asked(Form(Question("a", "A?", "", suggestion=lambda _: "x" * length)), "")[1]


def test_a_question_is_explained_and_asked_again():
    told = asked(Form(COLOUR), "?", "red")[1]
    assert (told.count("Colour?"), "What it looks like. One of: red, blue." in told) == (2, True)


def test_all_of_many_choices_are_shown_where_they_are_asked_for():
    many = Question("n", "N?", "Help.", choices=lambda _: [f"word{n}" for n in range(13)], most_numbered=40)
    told = asked(Form(many), "?", "a")[1].partition("Help.")
    assert ("word12" in told[0], "word12" in told[2], "One of" in told[2]) == (False, True, False)


def test_why_an_answer_is_not_taken_is_said_and_it_is_asked_again():
    told = asked(Form(NAME), "nonsense", "a")[1]
    assert ("it has no meaning" in told, told.count("Name?")) == (True, 2)


@pytest.mark.parametrize(
    ("typed", "several_lines", "told"), [("a", False, True), ("A", False, False), ("a", True, False)]
)
def test_what_was_understood_is_told_where_it_is_not_what_stands_there(typed, several_lines, told):
    assert ("= A" in asked(Form(Question("a", "A?", "", several_lines=several_lines)), typed)[1]) is told


def test_back_takes_the_last_of_several_answers_away_and_then_goes_back():
    form = Form(NAME, PARTS)
    told = asked(form, "a", "ring", "back", "back", "b", "")[1]
    assert (told.count("Taken away: RING"), told.count("Name?"), form.answers["name"], form.listed) == (1, 2, "B", [])


def test_a_question_skipped_says_nothing_of_what_was_understood():
    form = Form(NAME)
    assert ("=" in asked(form, "")[1], form.skipped) == (False, ["name"])


def test_an_input_that_ends_with_an_answer_breaks_the_conversation_off():
    form = Form(NAME, PLACE)
    with terminal() as (keyboard, stream):
        os.write(keyboard, b"a\n\4")
        say = Say(World(stdin=stream, stdout=Pipe(), stderr=Pipe(), environ={}))
        assert (converse(say, form), form.answers) == (False, {"name": "A"})


def test_a_question_left_by_back_is_asked_again_though_another_answer_filled_it():
    class Filling(Form):
        def answer(self, question, typed):
            super().answer(question, typed)
            if typed == "b":
                self.answers["place"] = "KNOWN"

    assert asked(Filling(NAME, PLACE), "a", "back", "b", "")[1].count("Place? [KNOWN]") == 1


def test_who_is_asked_sees_the_question_though_messages_are_not_wanted():
    err = Terminal()
    say = Say(World(stdin=Terminal("red\n"), stdout=Pipe(), stderr=err, environ={"NO_COLOR": "1"}, quiet=True))
    assert (converse(say, Form(COLOUR)), "1 red" in err.getvalue()) == (True, True)
