import pytest
from builders import a_claim
from pydantic import ValidationError

from claimpack.core.claims.claim import Claim


def test_unknown_keys_are_refused():
    with pytest.raises(ValidationError, match="Extra inputs"):
        a_claim(colour="orange")


@pytest.mark.parametrize(
    ("failed", "sold", "word"),
    [
        ("recoil starter", "starter", "recoil starter"),
        ("", "starter", "starter"),
        ("recoil starter", "", "recoil starter"),
    ],
    ids=["both told", "a part sold alone", "a repair"],
)
def test_what_failed_is_told_by_its_own_word_else_it_is_the_part_that_was_sold(failed, sold, word):
    claim = a_claim(failure__component=failed, part_sold={"name": sold})
    assert (claim.component(), claim.components()) == (word, (word,))


def test_one_of_several_failures_is_taken_by_its_number():
    claim = a_claim(failure=[{"component": "short block"}, {"component": "gear case"}])
    assert [claim.of_failure(number).what_failed() for number in (1, 2)] == ["short block", "gear case"]


@pytest.mark.parametrize(("case", "asks"), [("goodwill", True), ("repair", False)])
def test_a_favour_is_asked_by_the_claims_own_word(case, asks):
    assert a_claim(case=case).asks_goodwill is asks


@pytest.mark.parametrize(
    ("failures", "said"),
    [([{"component": "a"}], "has one failure"), ([{"component": "a"}, {"component": "b"}], "has 2 failures")],
)
def test_a_line_is_for_a_failure_that_is_there(failures, said):
    with pytest.raises(ValidationError, match=said):
        a_claim(failure=failures, parts=[{"name": "ring", "failure": 3}])


def test_the_proof_is_the_first_paper_and_told_once():
    claim = a_claim(papers=["papers/a.pdf", "papers/receipt.pdf"])
    assert claim.paper_files() == ("papers/receipt.pdf", "papers/a.pdf")


def test_a_claim_reads_back_from_its_own_json():
    claim = a_claim(parts=[{"name": "ring", "unit_cost": "1.2345"}], extras=[{"what": "f", "amount": "1.50"}])
    assert Claim.model_validate_json(claim.model_dump_json()) == claim
