from __future__ import annotations

import hashlib

import pikepdf
import pytest
from claim_folders import CLAIM, a_folder, picture
from running import claimpack
from shops_with_claims import a_copy, walked


@pytest.fixture
def filed(filed_shop, tmp_path):
    return a_copy(filed_shop, tmp_path)


@pytest.fixture
def folder(tmp_path):
    a_folder(tmp_path / "claim", shots=())
    return tmp_path


def sha256(path):
    return hashlib.sha256(path.read_bytes()).hexdigest()


def test_a_packet_is_named_by_its_claim_and_the_path_is_the_answer(folder):
    ran = claimpack("packet", "claim", folder=folder)
    assert (ran.out, (folder / "26-0001-packet.pdf").is_file()) == ("26-0001-packet.pdf\n", True)


def test_scripts_read_the_hash_of_what_was_written(folder):
    ran = claimpack("packet", "claim", "--out", "p.pdf", "--json", folder=folder)
    assert (ran.json["file"], ran.json["sha256"]) == (str(folder / "p.pdf"), sha256(folder / "p.pdf"))


@pytest.mark.parametrize(
    ("old", "new", "code"),
    [("", "", 4), ('defect = "material"', 'defect = "misuse"', 3)],
    ids=["covered, pictures missing", "misuse"],
)
def test_a_packet_is_written_whatever_the_answer_and_the_exit_code_is_the_answer(tmp_path, old, new, code):
    a_folder(tmp_path / "claim", CLAIM.replace(old, new), shots=())
    ran = claimpack("packet", "claim", "--out", "p.pdf", folder=tmp_path)
    assert (ran.code, (tmp_path / "p.pdf").is_file()) == (code, True)


def test_a_folder_in_the_packets_place_is_named(folder):
    (folder / "p.pdf").mkdir()
    ran = claimpack("packet", "claim", "--out", "p.pdf", folder=folder)
    assert (ran.code, ran.err.splitlines()[0]) == (2, "claimpack: p.pdf cannot be written")


def test_a_name_of_another_kind_of_file_is_refused(folder):
    ran = claimpack("packet", "claim", "--out", "p.txt", folder=folder)
    assert (ran.code, "p.txt is not a PDF file" in ran.err, (folder / "p.txt").exists()) == (2, True, False)


def test_the_filed_packet_is_the_one_that_went_out(filed):
    went_out = sha256(filed / "26-0001-packet.pdf")
    claimpack("set", "26-0001", "owner.name", "B. Customer", folder=filed)
    ran = claimpack("packet", "26-0001", "--filed", "--out", "again.pdf", "--json", folder=filed)
    assert (sha256(filed / "again.pdf"), ran.json["sha256"], ran.json["filed"]) == (went_out, went_out, "2026-02-25")


def test_of_two_filings_each_has_its_packet(filed):
    first = sha256(filed / "26-0001-packet.pdf")
    walked(filed, "answer refused --form --because plate --on 2026-02-26", "file --on 2026-02-27")
    for version in ("1", "2"):
        claimpack("packet", "26-0001", "--version", version, "--out", f"{version}.pdf", folder=filed)
    assert (sha256(filed / "1.pdf"), sha256(filed / "2.pdf") != first) == (first, True)


@pytest.mark.parametrize("version", ["2", "-1"])
def test_a_filing_that_never_was_has_no_packet(filed, version):
    ran = claimpack("packet", "26-0001", "--version", version, "--out", "p.pdf", folder=filed)
    assert (ran.code, "was filed once" in ran.err, (filed / "p.pdf").exists()) == (2, True, False)


def test_a_claim_that_was_not_filed_has_no_filed_packet(draft_shop, tmp_path):
    shop = a_copy(draft_shop, tmp_path)
    ran = claimpack("packet", "26-0001", "--filed", folder=shop)
    assert (ran.code, ran.out, "claim 26-0001 has not been filed" in ran.err) == (2, "", True)


def attachments(path):
    with pikepdf.open(path) as pdf:
        return {name: spec.get_file().read_bytes() for name, spec in pdf.attachments.items() if "original" in name}


def with_originals(tmp_path, *options):
    a_folder(tmp_path / "claim")
    ran = claimpack("packet", "claim", "--out", "p.pdf", *options, folder=tmp_path)
    return ran, attachments(tmp_path / "p.pdf")


def test_originals_are_attached_as_they_lie_there_where_asked(tmp_path):
    _, found = with_originals(tmp_path, "--originals")
    lying = sorted(path.read_bytes() for path in (tmp_path / "claim").glob("p*/*"))
    assert (len(found), sorted(found.values())) == (6, lying)


def test_originals_stay_with_the_shop_where_nobody_asks(tmp_path):
    assert with_originals(tmp_path)[1] == {}


@pytest.mark.parametrize(("options", "count"), [((), 6), (("--no-originals",), 0)])
def test_a_shop_may_attach_originals_always(tmp_path, options, count):
    (tmp_path / "shop.toml").write_text("originals = true\n", encoding="utf-8")
    assert len(with_originals(tmp_path, *options)[1]) == count


def test_originals_that_break_the_limit_are_left_out_and_it_is_said(tmp_path):
    size = len(with_originals(tmp_path / "1", "--originals")[0].out) and (tmp_path / "1" / "p.pdf").stat().st_size
    ran, found = with_originals(tmp_path / "2", "--originals", "--limit", f"{size - 1}B")
    assert (found, "the originals are not attached" in ran.err) == ({}, True)


def test_a_packet_with_originals_is_genuine(tmp_path):
    with_originals(tmp_path, "--originals")
    assert claimpack("verify", "p.pdf", "--originals", "claim", folder=tmp_path).code == 0


def test_an_original_put_in_the_place_of_another_is_found(tmp_path):
    with_originals(tmp_path, "--originals")
    with pikepdf.open(tmp_path / "p.pdf", allow_overwriting_input=True) as pdf:
        pdf.attachments["original-01-0.jpg"].obj.EF.F.write(picture(colour=(1, 2, 3)))
        pdf.save()
    ran = claimpack("verify", "p.pdf", folder=tmp_path)
    assert (ran.code, "original-01-0.jpg was changed" in ran.out) == (3, True)


@pytest.mark.parametrize(
    ("key", "value", "said"),
    [
        ("Desc", pikepdf.String("photos/9.jpg"), "the description of original-01-0.jpg was changed"),
        ("AFRelationship", pikepdf.Name.Data, "what original-01-0.jpg is to the pages was changed"),
    ],
)
def test_what_is_told_of_an_original_cannot_be_changed(tmp_path, key, value, said):
    with_originals(tmp_path, "--originals")
    with pikepdf.open(tmp_path / "p.pdf", allow_overwriting_input=True) as pdf:
        pdf.attachments["original-01-0.jpg"].obj[f"/{key}"] = value
        pdf.save()
    assert said in claimpack("verify", "p.pdf", folder=tmp_path).out


def test_a_packet_goes_to_the_printer_once_it_is_written(folder, tmp_path):
    (tmp_path / "lp").write_text(f'#!/bin/sh\necho "$@" > {tmp_path}/printed\n', encoding="utf-8")
    (tmp_path / "lp").chmod(0o755)
    words = ("packet", "claim", "--print", "--out", "p.pdf", "--json")
    ran = claimpack(*words, folder=folder, environ={"PATH": str(tmp_path)})
    assert (ran.json["printed"]["dry_run"], (folder / "p.pdf").is_file()) == (False, True)
    assert (tmp_path / "printed").read_text() == f"-- {folder}/p.pdf\n"


def test_the_owners_pages_carry_no_data_and_say_so(tmp_path):
    a_folder(tmp_path / "claim")
    ran = claimpack("packet", "claim", "--for", "owner", "--out", "owner.pdf", "--today", "2026-03-01", folder=tmp_path)
    with pikepdf.open(tmp_path / "owner.pdf") as pdf:
        assert (list(pdf.attachments), "cannot be verified" in ran.err) == ([], True)
