from datetime import date

import pytest
from builders import a_claim

from claimpack.core.claims.papers import (
    paper_place,
    same_unit,
    with_paper,
    with_paper_told,
    with_proof,
    without_paper,
)
from claimpack.core.facts.pictures import Paper

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
    assert claim.papers == (Paper(file="papers/a.pdf"),)


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
    assert (claim.proof.kind, claim.proof.file, claim.papers) == ("receipt", None, (Paper(file="papers/a.pdf"),))


def test_what_is_told_of_a_paper_stays_where_nothing_new_is_said():
    claim = with_paper_told(a_claim(papers=["papers/a.pdf", "papers/b.pdf"]), "papers/a.pdf", "work order", None)
    told = with_paper_told(claim, "papers/a.pdf", "", date(2025, 6, 1)).papers
    assert told == (Paper(file="papers/a.pdf", kind="work order", on="2025-06-01"), Paper(file="papers/b.pdf"))


def test_a_paper_of_which_no_more_is_said_is_written_as_its_file():
    claim = a_claim(papers=["papers/a.pdf", {"file": "papers/b.pdf", "kind": "work order"}])
    assert claim.model_dump(mode="json")["papers"] == ["papers/a.pdf", {"file": "papers/b.pdf", "kind": "work order"}]


READ = [{"key": "dates.purchased", "text": "2025-03-14", "by": "text"}]


@pytest.mark.parametrize("kept", [(), (RECEIPT,)], ids=["missing", "kept"])
def test_another_proof_takes_nothing_over_that_was_read_off_the_one_before(kept):
    assert with_proof(a_claim(proof__read=READ), "papers/other.pdf", "receipt", kept).proof.read == ()


@pytest.mark.parametrize("kept", [(), (RECEIPT,)], ids=["missing", "kept"])
def test_the_same_proof_again_keeps_what_was_read_off_it(kept):
    claim = a_claim(proof__read=READ)
    assert with_proof(claim, RECEIPT, "dealer-record", kept).proof.read == claim.proof.read


@pytest.mark.parametrize(
    ("other", "same"),
    [
        ({"number": "26-0002"}, True),
        ({"number": "26-0002", "unit__serials": [{"role": "engine", "value": "e70 1"}]}, True),
        ({"number": "26-0002", "unit__serials": [{"role": "engine", "value": "E70-2"}]}, False),
        ({"unit__serials": []}, True),
        ({"number": "26-0002", "unit__serials": []}, False),
    ],
    ids=["both numbers", "its engine", "another engine", "the claim itself", "no serial number"],
)
def test_a_unit_is_known_again_by_a_serial_number(other, same):
    assert same_unit(a_claim(), a_claim(**other)) is same
