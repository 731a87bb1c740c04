from __future__ import annotations

from datetime import date

import pytest
from builders import a_claim

from claimpack.core.steps.approving import Said, answered, asked, undone
from claimpack.errors import BadInput, WrongState

ASKED_ON = date(2026, 2, 10)
WAITING = asked(a_claim(), ASKED_ON, "Estimate 159.70 USD")


def said(**changes):
    return Said.model_validate({"on": "2026-02-11", "number": "A-1", **changes})


def test_a_claim_that_was_asked_for_waits_for_the_maker():
    assert (WAITING.approval.state, WAITING.approval.asked) == ("asked", ASKED_ON)


@pytest.mark.parametrize(("state", "number"), [("given", "A-1"), ("refused", "A-1"), ("refused", "")])
def test_the_answer_is_kept_with_the_day_it_was_asked_for(state, number):
    approval = answered(WAITING, state, said(number=number)).approval
    assert (approval.state, approval.number, approval.asked) == (state, number, ASKED_ON)


def test_an_approval_without_a_number_is_refused():
    with pytest.raises(BadInput, match="--number"):
        answered(WAITING, "given", said(number=""))


@pytest.mark.parametrize("day", ["2026-02-10", "2026-02-11"])
def test_the_maker_may_answer_from_the_day_it_was_asked(day):
    assert str(answered(WAITING, "given", said(on=day)).approval.on) == day


def test_no_maker_answers_before_it_was_asked():
    with pytest.raises(BadInput, match="--on: 2026-02-09"):
        answered(WAITING, "given", said(on="2026-02-09"))


@pytest.mark.parametrize("expires", ["2026-02-11", "2026-02-12"])
def test_an_approval_may_end_on_the_day_it_is_given(expires):
    assert str(answered(WAITING, "given", said(expires=expires)).approval.expires) == expires


def test_no_approval_ends_before_it_is_given():
    with pytest.raises(BadInput, match="--expires: 2026-02-10"):
        answered(WAITING, "given", said(expires="2026-02-10"))


def test_an_answer_taken_back_leaves_what_was_asked_before():
    given = answered(WAITING, "given", said())
    assert undone(given, "given", [given, WAITING, None]).approval == WAITING.approval


@pytest.mark.parametrize("state", ["asked", "refused"])
def test_what_was_not_done_last_is_not_taken_back(state):
    with pytest.raises(WrongState):
        undone(answered(WAITING, "given", said()), state, [WAITING])


def test_where_nothing_was_asked_nothing_is_taken_back():
    with pytest.raises(WrongState):
        undone(a_claim(), "given", [])
