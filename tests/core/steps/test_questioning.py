from datetime import date

import pytest
from builders import a_claim
from new_events import FILED, OPENED

from claimpack.core.events.events import NewEvent
from claimpack.core.events.fold import stand
from claimpack.core.steps.questioning import asked_without_words, unanswered, with_reply, with_what_was_asked
from claimpack.errors import BadInput

DAY = date(2026, 3, 4)


def questioned(why="Which fuel?"):
    return NewEvent(what="answered", on=DAY, why=why, facts={"answer": "questioned"})


UNDONE = NewEvent(what="answer undone", on=DAY, why="Wrong claim.")


def asked(*events):
    """A claim after events, each with what it changes of the claim."""
    claim, so_far = a_claim(), [OPENED, FILED]
    for event in events:
        claim = with_what_was_asked(claim, stand(so_far), event)
        so_far.append(event)
    return claim


def test_a_question_is_kept_with_its_day():
    (question,) = asked(questioned()).questions
    assert (question.asked, question.text, question.answer) == (DAY, "Which fuel?", "")


@pytest.mark.parametrize(
    "event", [questioned(""), NewEvent(what="answered", on=DAY, why="Wear.", facts={"answer": "refused"})]
)
def test_an_answer_that_asks_nothing_leaves_no_question(event):
    assert asked(event).questions == ()


def test_an_answer_taken_back_takes_its_question_with_it_and_no_other():
    assert [one.text for one in asked(questioned(), questioned("And the plug?"), UNDONE).questions] == ["Which fuel?"]


def test_a_reply_answers_what_is_open():
    (question,) = with_reply(asked(questioned()), "Fresh.", DAY).questions
    assert (question.answered, question.answer) == (DAY, "Fresh.")


def test_a_reply_to_nothing_is_refused():
    with pytest.raises(BadInput):
        with_reply(a_claim(), "Fresh.", DAY)


def test_what_goes_out_unanswered_is_said():
    claim = asked(questioned())
    assert (len(unanswered(claim)), unanswered(with_reply(claim, "Fresh.", DAY))) == (1, ())


@pytest.mark.parametrize(("why", "lacking"), [("", 1), ("Which fuel?", 0)])
def test_a_question_that_nobody_wrote_down_cannot_be_answered(why, lacking):
    assert len(asked_without_words(stand([OPENED, FILED, questioned(why)]))) == lacking


def test_a_question_taken_back_is_found_wherever_it_stands():
    told = [{"asked": DAY, "text": text} for text in ("And the plug?", "Which fuel?", "Which oil?")]
    claim = a_claim(questions=told)
    after = with_what_was_asked(claim, stand([OPENED, FILED, questioned()]), UNDONE)
    assert [one.text for one in after.questions] == ["And the plug?", "Which oil?"]
