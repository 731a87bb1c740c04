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
