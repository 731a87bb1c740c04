from __future__ import annotations

import pytest

import claimpack.errors
from claimpack.errors import BadInput, ClaimpackError

KINDS = ClaimpackError.__subclasses__()


def test_a_message_says_what_then_every_problem_then_why_then_what_to_do():
    error = BadInput("two things are wrong", "They cannot be meant.", "Correct them.", ("  one", "  other"))
    assert error.lines() == ["two things are wrong", "  one", "  other", "They cannot be meant.", "Correct them."]


def test_what_is_not_said_takes_no_line():
    assert BadInput("wrong", do="Correct it.").lines() == ["wrong", "Correct it."]


def test_an_error_in_a_line_is_what_is_wrong():
    assert str(BadInput("wrong", "Because.", "Correct it.")) == "wrong"


@pytest.mark.parametrize("kind", KINDS, ids=lambda kind: kind.__name__)
def test_every_failure_a_user_can_meet_gives_two(kind):
    assert kind("wrong").exit_code == 2


@pytest.mark.parametrize("kind", KINDS, ids=lambda kind: kind.__name__)
def test_the_tree_tells_every_failure_in_the_words_of_its_own(kind):
    told = {" ".join(line.strip("├└─ ").split()) for line in claimpack.errors.__doc__.splitlines()}
    assert any(line.startswith(f"{kind.__name__} ") for line in told)
