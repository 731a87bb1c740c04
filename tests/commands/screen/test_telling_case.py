import pytest
from builders import a_claim

from claimpack.commands.screen.telling_case import of_the_case


def test_a_plain_repair_says_nothing_of_its_case():
    assert list(of_the_case(a_claim())) == []


@pytest.mark.parametrize("case", ["stock", "part", "campaign", "goodwill", "declined"])
def test_every_other_kind_of_claim_is_named(case):
    claim = a_claim(case=case, dates__purchased=None, dates__delivered=None)
    assert next(of_the_case(claim))[0] == "Case"


def test_what_the_maker_asked_stands_with_the_answer():
    claim = a_claim(
        questions=[{"asked": "2026-03-02", "text": "Which fuel?", "answered": "2026-03-04", "answer": "91."}]
    )
    assert list(of_the_case(claim)) == [("Asked", ("2026-03-02: Which fuel?", "answered 2026-03-04: 91."))]


@pytest.mark.parametrize(("state", "said"), [("questioned", "not answered yet"), ("paid", "no answer is kept")])
def test_a_settled_claim_has_no_question_that_waits(state, said):
    claim = a_claim(questions=[{"asked": "2026-03-02", "text": "Which fuel?"}])
    assert list(of_the_case(claim, state)) == [("Asked", ("2026-03-02: Which fuel?", said))]
