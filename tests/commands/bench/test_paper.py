from __future__ import annotations

import pytest
from claim_folders import receipt
from made_once import made_once
from running import claimpack
from shop_builders import a_shop, kept_claim, the_desk


@pytest.fixture
def shop(tmp_path):
    return the_shop(tmp_path)


@made_once
def the_shop(place):
    """A shop with a claim that has two papers, the first its proof of purchase."""
    shop = a_shop(place, proof={"kind": "receipt"})
    for name in ("receipt.pdf", "letter.pdf"):
        (place / name).write_bytes(receipt(name))
    paper(shop, "add", "26-0001", place / "receipt.pdf", "--proof", "receipt")
    paper(shop, "add", "26-0001", place / "letter.pdf")
    return shop


def paper(shop, *arguments):
    return claimpack("paper", *arguments, folder=shop)


def kept(shop):
    return [file.path for file in the_desk(shop).book.get("26-0001").files]


def test_papers_are_listed_the_proof_first(shop):
    assert paper(shop, "list", "26-0001").out.splitlines() == [
        "1  papers/receipt.pdf  proof of purchase: receipt",
        "2  papers/letter.pdf",
    ]


def test_scripts_read_number_file_proof_and_hash(shop):
    told = paper(shop, "list", "26-0001", "--json").json["papers"]
    assert [(each["n"], each["file"], each["proof"]) for each in told] == [
        (1, "papers/receipt.pdf", "receipt"),
        (2, "papers/letter.pdf", None),
    ]
    assert all(len(each["sha256"]) == 64 and each["bytes"] > 500 for each in told)


def test_a_paper_that_is_named_and_not_kept_is_told(shop):
    claimpack("set", "26-0001", "papers[3]", "papers/lost.pdf", folder=shop)
    assert "3  papers/lost.pdf" in paper(shop, "list", "26-0001").out
    assert "the book keeps no such file" in paper(shop, "list", "26-0001").out


def test_a_claim_without_a_paper_says_how_to_add_one(tmp_path):
    ran = paper(a_shop(tmp_path, proof=None), "list", "26-0001")
    assert (ran.code, ran.out, "claimpack paper add 26-0001 FILE" in ran.err) == (0, "", True)


@pytest.mark.parametrize("named", ["2", "papers/letter.pdf", "letter.pdf", "LETTER.PDF"])
def test_a_paper_is_taken_off_by_number_or_file(shop, named):
    ran = paper(shop, "remove", "26-0001", named)
    assert ran.out == "26-0001: papers/letter.pdf taken off\n"
    assert (kept_claim(shop).paper_files(), kept(shop)) == (("papers/receipt.pdf",), ["papers/receipt.pdf"])


def test_the_vault_keeps_what_is_taken_off(shop):
    paper(shop, "remove", "26-0001", "1")
    assert "WHOLE" in claimpack("shop", "verify", folder=shop).out


def test_a_proof_taken_off_says_how_to_add_another(shop):
    ran = paper(shop, "remove", "26-0001", "1")
    assert (kept_claim(shop).proof.file, "--proof receipt" in ran.err) == (None, True)
    assert paper(shop, "remove", "26-0001", "1", "--json").json["was_proof"] is False


@pytest.mark.parametrize(("named", "says"), [("3", "has 2 papers"), ("lettre.pdf", "Did you mean")])
def test_a_paper_that_is_not_there_is_not_taken_off(shop, named, says):
    ran = paper(shop, "remove", "26-0001", named)
    assert (ran.code, says in ran.err, len(kept(shop))) == (2, True, 2)


def test_kind_and_day_of_a_paper_are_listed(shop):
    (shop.parent / "log.pdf").write_bytes(receipt("log"))
    paper(shop, "add", "26-0001", shop.parent / "log.pdf", "--kind", "service record", "--on", "2026-01-05")
    told = paper(shop, "list", "26-0001").out.splitlines()
    assert [line.endswith("  service record, 2026-01-05") for line in told] == [False, False, True]
