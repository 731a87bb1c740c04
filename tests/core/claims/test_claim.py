import pytest
from builders import a_claim
from pydantic import ValidationError

from claimpack.core.claims.claim import Claim


def test_unknown_keys_are_refused():
    with pytest.raises(ValidationError, match="Extra inputs"):
        a_claim(colour="orange")


def test_the_proof_is_the_first_paper_and_told_once():
    claim = a_claim(papers=["papers/a.pdf", "papers/receipt.pdf"])
    assert claim.paper_files() == ("papers/receipt.pdf", "papers/a.pdf")


def test_a_claim_reads_back_from_its_own_json():
    claim = a_claim(parts=[{"name": "ring", "unit_cost": "1.2345"}], extras=[{"what": "f", "amount": "1.50"}])
    assert Claim.model_validate_json(claim.model_dump_json()) == claim
