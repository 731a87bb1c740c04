from datetime import date
from decimal import Decimal

import pytest

from claimpack.core.events.fold import left_by
from claimpack.core.events.standing import Answer

CLAIMED = Decimal("159.70")
EARLY, LATE = date(2026, 3, 2), date(2026, 3, 9)


def test_without_an_answer_a_claim_is_filed():
    left = left_by((), CLAIMED)
    assert (left["state"], left["answered"], left["accepted"]) == ("filed", None, None)


@pytest.mark.parametrize(
    ("answer", "state"),
    [("accepted", "accepted"), ("part", "accepted"), ("refused", "refused"), ("questioned", "questioned")],
)
def test_an_answer_leaves_a_claim_in_its_state(answer, state):
    assert left_by((Answer(on=EARLY, answer=answer, amount=Decimal(1)),), CLAIMED)["state"] == state


def test_the_last_answer_counts():
    answers = (Answer(on=EARLY, answer="questioned"), Answer(on=LATE, answer="accepted"))
    left = left_by(answers, CLAIMED)
    assert (left["state"], left["answered"], left["accepted_on"]) == ("accepted", LATE, LATE)


def test_accepted_without_an_amount_is_all_of_it():
    assert left_by((Answer(on=EARLY, answer="accepted"),), CLAIMED)["accepted"] == CLAIMED


def test_a_refusal_accepts_nothing():
    assert left_by((Answer(on=EARLY, answer="refused"),), CLAIMED)["accepted"] is None


@pytest.mark.parametrize(("answer", "form", "told"), [("refused", True, True), ("refused", False, False)])
def test_a_refusal_tells_whether_form_alone_was_wrong(answer, form, told):
    assert left_by((Answer(on=EARLY, answer=answer, form=form),), CLAIMED)["refused_for_form"] is told
