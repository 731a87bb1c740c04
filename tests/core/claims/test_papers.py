import pytest
from builders import a_claim

from claimpack.core.claims.papers import paper_place, with_paper, with_proof, without_paper

RECEIPT = "papers/receipt.pdf"


@pytest.mark.parametrize(
    ("kept", "name", "place"),
    [
        ([RECEIPT], "letter.pdf", "papers/letter.pdf"),
        ([RECEIPT], "receipt.pdf", "papers/receipt-2.pdf"),
        ([RECEIPT, "papers/Letter.PDF"], "letter.pdf", "papers/letter-2.pdf"),
        ([], "receipt.pdf", RECEIPT),
        ([], "RECEIPT.PDF", RECEIPT),
        ([], "other.pdf", "papers/other.pdf"),
    ],
    ids=["free", "taken", "taken in capitals", "missing", "missing in capitals", "another name"],
)
def test_a_paper_takes_the_place_of_a_missing_one_or_a_free_name(kept, name, place):
    assert paper_place(a_claim(), kept, name) == place


def test_a_paper_is_named_once():
    claim = with_paper(with_paper(a_claim(), "papers/a.pdf"), "papers/a.pdf")
    assert claim.papers == ("papers/a.pdf",)


def test_a_new_proof_leaves_the_one_before_among_the_papers():
    claim = with_proof(a_claim(), "papers/card.jpg", "registration", [RECEIPT, "papers/card.jpg"])
    assert (claim.proof.kind, claim.proof.file) == ("registration", "papers/card.jpg")
    assert claim.paper_files() == ("papers/card.jpg", RECEIPT)


def test_a_new_proof_takes_the_place_of_one_that_is_missing():
    claim = with_proof(a_claim(papers=[RECEIPT]), "papers/new.pdf", "receipt", ["papers/new.pdf"])
    assert claim.paper_files() == ("papers/new.pdf",)


def test_the_same_proof_again_changes_its_kind_alone():
    claim = with_proof(a_claim(papers=[RECEIPT]), RECEIPT, "dealer-record", [RECEIPT])
    assert (claim.proof.kind, claim.paper_files()) == ("dealer-record", (RECEIPT,))


def test_a_proof_taken_off_leaves_what_kind_it_was_of():
    claim = without_paper(a_claim(papers=[RECEIPT, "papers/a.pdf"]), RECEIPT)
    assert (claim.proof.kind, claim.proof.file, claim.papers) == ("receipt", None, ("papers/a.pdf",))
