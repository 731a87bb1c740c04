from __future__ import annotations

import hashlib

import pikepdf
import pytest
from claim_folders import receipt
from running import claimpack
from shop_builders import a_shop, happen, kept_claim, photographed, the_desk


@pytest.fixture
def shop(tmp_path):
    return a_shop(tmp_path, proof={"kind": "receipt"}, plan="halden-2025")


def add(shop, *arguments):
    return claimpack("paper", "add", "26-0001", *arguments, folder=shop)


def a_paper(shop, name="receipt.pdf", text="Paid."):
    path = shop.parent / name
    path.parent.mkdir(exist_ok=True)
    path.write_bytes(receipt(text))
    return path


def kept(shop):
    return the_desk(shop).book.get("26-0001").files


def test_a_receipt_becomes_the_proof_of_purchase(shop):
    ran = add(shop, a_paper(shop), "--proof", "receipt")
    assert (ran.code, kept_claim(shop).proof.file) == (0, "papers/receipt.pdf")
    assert ran.out == "26-0001: 1 paper added\n  1  papers/receipt.pdf  proof of purchase: receipt\n"


@pytest.mark.parametrize("kind", ["receipt", "registration", "dealer-record"])
def test_the_kind_of_proof_is_kept(shop, kind):
    add(shop, a_paper(shop), "--proof", kind)
    assert kept_claim(shop).proof.kind == kind


def test_of_several_the_first_is_the_proof(shop):
    add(shop, a_paper(shop, "b.pdf", "1"), a_paper(shop, "a.pdf", "2"), "--proof", "receipt")
    assert kept_claim(shop).paper_files() == ("papers/b.pdf", "papers/a.pdf")


def test_a_paper_need_not_be_a_proof(shop):
    add(shop, a_paper(shop))
    assert (kept_claim(shop).proof.file, kept_claim(shop).paper_files()) == (None, ("papers/receipt.pdf",))


def test_the_vault_keeps_it_byte_for_byte(shop):
    content = a_paper(shop).read_bytes()
    add(shop, shop.parent / "receipt.pdf")
    sha256 = hashlib.sha256(content).hexdigest()
    assert (kept(shop)[0].sha256, (shop / "vault" / sha256[:2] / sha256).read_bytes()) == (sha256, content)


def test_a_picture_of_a_paper_is_a_paper(shop):
    add(shop, photographed(shop.parent / "receipt.jpg"))
    assert (kept_claim(shop).paper_files(), kept_claim(shop).photos) == (("papers/receipt.jpg",), ())


def test_a_file_that_is_there_is_not_added_twice(shop):
    add(shop, a_paper(shop))
    before = len(the_desk(shop).book.history("26-0001"))
    ran = add(shop, a_paper(shop, "again.pdf"))
    assert (ran.out, len(kept(shop))) == ("26-0001: 0 papers added\n", 1)
    assert len(the_desk(shop).book.history("26-0001")) == before
    assert ("again.pdf" in ran.err, "papers/receipt.pdf" in ran.err) == (True, True)


def test_a_file_that_is_there_can_still_become_the_proof(shop):
    add(shop, a_paper(shop))
    ran = add(shop, a_paper(shop), "--proof", "registration")
    assert (kept_claim(shop).proof.kind, kept_claim(shop).paper_files()) == ("registration", ("papers/receipt.pdf",))
    assert "papers/receipt.pdf is the proof of purchase: registration" in ran.out


def test_a_file_that_the_claim_names_no_more_is_named_again(shop):
    add(shop, a_paper(shop))
    claimpack("set", "26-0001", "--unset", "papers[1]", folder=shop)
    ran = add(shop, a_paper(shop))
    assert (kept_claim(shop).paper_files(), len(kept(shop))) == (("papers/receipt.pdf",), 1)
    assert ran.out.startswith("26-0001: 1 paper added")


def test_a_paper_takes_the_place_of_a_missing_one_of_its_name(shop):
    claimpack("set", "26-0001", "proof.file", "papers/receipt.pdf", folder=shop)
    ran = add(shop, a_paper(shop))
    assert ([file.path for file in kept(shop)], "1 paper added" in ran.out) == (["papers/receipt.pdf"], True)
    assert "the file papers" not in claimpack("check", "26-0001", folder=shop).out


def test_one_that_is_no_paper_keeps_all_out(shop):
    (shop.parent / "notes.txt").write_text("Paid.")
    ran = add(shop, a_paper(shop), shop.parent / "notes.txt")
    assert (ran.code, kept(shop)) == (2, ())
    assert "claimpack paper add" in ran.err


def test_a_pdf_that_nobody_could_open_is_refused(shop):
    with pikepdf.open(a_paper(shop)) as pdf:
        pdf.save(shop.parent / "locked.pdf", encryption=pikepdf.Encryption(owner="o", user="u"))
    ran = add(shop, shop.parent / "locked.pdf")
    assert (ran.code, "need a password" in ran.err) == (2, True)


def test_scripts_read_what_was_added(shop):
    told = add(shop, a_paper(shop), "--proof", "receipt", "--json").json
    assert (told["added"][0]["file"], told["added"][0]["n"], told["there"]) == ("papers/receipt.pdf", 1, [])
    assert (told["proof"]["kind"], told["proof"]["file"]) == ("receipt", "papers/receipt.pdf")


def test_a_paper_added_after_filing_is_a_correction_that_is_told(shop):
    happen(shop, "26-0001", "filed", claimed="10.00", currency="USD")
    ran = add(shop, a_paper(shop))
    assert (the_desk(shop).book.history("26-0001")[-1].what, "this is a new version" in ran.err) == ("corrected", True)


def test_a_claim_that_takes_no_changes_takes_no_paper(shop):
    happen(shop, "26-0001", "filed", claimed="10.00", currency="USD")
    happen(shop, "26-0001", "withdrawn")
    ran = add(shop, a_paper(shop))
    assert (ran.code, kept(shop)) == (2, ())


def test_an_unknown_kind_of_proof_is_refused(shop):
    ran = add(shop, a_paper(shop), "--proof", "invoice")
    assert (ran.code, "dealer-record" in ran.err, kept(shop)) == (2, True, ())


def test_a_paper_of_another_units_claim_is_asked_about(tmp_path):
    shop, paper = a_shop(tmp_path, "26-0001", "26-0002"), a_paper(tmp_path / "shop")
    claimpack("set", "26-0002", "unit.serials.unit", "HC70-2", "unit.serials.engine", "E70-2", folder=shop)
    claimpack("paper", "add", "26-0002", paper, folder=shop)
    assert "receipt.pdf is also on claim 26-0002. Is it the right paper?" in add(shop, paper).err


def test_a_paper_of_the_same_units_other_claim_is_as_it_should_be(tmp_path):
    shop = a_shop(tmp_path, "26-0001", "26-0002")
    paper = a_paper(shop)
    claimpack("paper", "add", "26-0002", paper, folder=shop)
    assert "also on claim" not in add(shop, paper).err


def test_what_kind_of_paper_it_is_and_its_day_are_kept(shop):
    add(shop, a_paper(shop), "--kind", "maintenance record", "--on", "2025-06-01")
    kept = kept_claim(shop).papers[-1]
    assert (kept.kind, str(kept.on)) == ("maintenance record", "2025-06-01")


def test_papers_and_pictures_may_be_put_on_a_claim_on_a_day_that_is_said(shop):
    assert add(shop, a_paper(shop), "--today", "2026-03-20").code == 0
    assert claimpack("photo", "add", "26-0001", "no.jpg", "--today", "2026-3-20", folder=shop).code == 2
