from __future__ import annotations

from datetime import date

import pytest
from builders import TODAY, a_claim, a_plan

from claimpack.core.judging.assessment import assess
from claimpack.core.steps.approving import Said, answered, asked, refuse_unaskable, undone
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


TYPED = a_claim(approval={"number": "A-1"})


def test_an_approval_that_was_typed_by_its_number_alone_is_taken_back_as_one_that_was_given():
    assert undone(TYPED, "given", [TYPED, a_claim()]).approval is None


@pytest.mark.parametrize(
    ("claim", "stands"),
    [
        (TYPED, "it is given"),
        (answered(WAITING, "refused", said()), "it is refused"),
        (a_claim(), "nothing is recorded"),
    ],
    ids=["typed", "refused", "none"],
)
def test_what_cannot_be_taken_back_is_told_with_where_the_approval_stands(claim, stands):
    with pytest.raises(WrongState, match=stands):
        undone(claim, "asked", [])


OUT_OF_COVER = {"dates__purchased": "2024-01-02", "dates__delivered": "2024-01-02"}
FAVOUR = {"case": "goodwill", "goodwill": {"because": "A good customer."}}


def estimated(**changes):
    """A claim before its repair, with a part that is to be replaced, assessed."""
    claim = a_claim(**{"dates__repaired": None, "parts": [{"name": "Seal", "unit_cost": "9.50"}], **changes})
    return assess(claim, [a_plan()], TODAY)


@pytest.mark.parametrize(
    "changes",
    [{}, OUT_OF_COVER | FAVOUR, {"dates__purchased": None, "dates__delivered": None}],
    ids=["covered", "a favour", "undecided"],
)
def test_the_maker_may_be_asked_for_what_is_covered_or_may_be_or_for_a_favour(changes):
    assert refuse_unaskable(estimated(**changes), again=False) is None


@pytest.mark.parametrize(
    ("changes", "refusal", "because"),
    [
        ({"dates__repaired": "2026-02-24"}, WrongState, "was repaired on 2026-02-24"),
        ({"maker": "nobody"}, BadInput, "has no price"),
        (OUT_OF_COVER, WrongState, "is not covered"),
        ({"parts": []}, BadInput, "asks nothing of the maker"),
        ({"approval": {"number": "A-1"}}, WrongState, "has approval A-1 already"),
    ],
    ids=["repaired", "no plan", "not covered", "nothing to pay", "approved"],
)
def test_the_maker_is_not_asked_for_what_it_cannot_approve(changes, refusal, because):
    with pytest.raises(refusal, match=because):
        refuse_unaskable(estimated(**changes), again=False)


@pytest.mark.parametrize(
    ("approval", "again"),
    [({"number": "A-1"}, True), ({"state": "refused", "number": "A-1"}, False), ({"state": "asked"}, False)],
    ids=["for more than it gave", "after it refused", "while it has not answered"],
)
def test_the_maker_may_be_asked_once_more(approval, again):
    assert refuse_unaskable(estimated(approval=approval), again=again) is None
