from __future__ import annotations

import json
import sqlite3
from contextlib import closing

import pytest
from claim_folders import a_folder
from running import claimpack
from shop_builders import kept_claim, the_desk
from shops_with_claims import a_copy, numbered

REQUEST = ("--because", "On request of the owner")


@pytest.fixture
def filed(filed_shop, tmp_path):
    return a_copy(filed_shop, tmp_path)


def bytes_in(shop):
    names = ("book.sqlite", "book.sqlite-wal")
    kept = [path for path in (shop / "vault").rglob("*") if path.is_file()]
    return b"".join(path.read_bytes() for path in (*(shop / name for name in names), *kept) if path.exists())


def test_no_byte_of_an_owner_is_left_in_book_log_and_vault(filed):
    before = bytes_in(filed)
    ran = claimpack("shop", "forget", "26-0001", "--owner", *REQUEST, folder=filed)
    assert (ran.code, b"A. Customer" in before, b"A. Customer" in bytes_in(filed)) == (0, True, False)


def test_a_picture_taken_by_mistake_is_gone_from_the_vault_and_the_shop_is_whole(filed):
    told = claimpack("shop", "forget", "26-0001", "--photo", "1", *REQUEST, "--json", folder=filed).json
    assert not [path for path in (filed / "vault").rglob("*") if path.name in told["contents"]]
    assert claimpack("shop", "verify", folder=filed).code == 0


def test_a_paper_is_named_by_its_file(filed):
    told = claimpack("shop", "forget", "26-0001", "--paper", "receipt.pdf", *REQUEST, "--json", folder=filed).json
    shown = claimpack("show", "26-0001", "--json", folder=filed)
    assert (len(told["contents"]), "receipt.pdf" in shown.out, told["erased"]) == (2, False, "1 paper")


@pytest.mark.parametrize(("digits", "code"), [(8, 0), (7, 2)])
def test_a_file_is_named_by_eight_figures_of_its_hash_or_more(filed, digits, code):
    files = {file.path: file.sha256 for file in the_desk(filed).book.get("26-0001").files}
    named = files["photos/1.jpg"][:digits].upper()
    ran = claimpack("shop", "forget", "26-0001", "--photo", named, *REQUEST, folder=filed)
    gone = {path for path in files if path not in {file.path for file in the_desk(filed).book.get("26-0001").files}}
    assert (ran.code, gone) == (code, set() if code else {"photos/1.jpg"})


def test_a_picture_removed_before_is_erased_by_its_name(filed):
    claimpack("photo", "remove", "26-0001", "1", folder=filed)
    ran = claimpack("shop", "forget", "26-0001", "--photo", "photos/0.jpg", *REQUEST, folder=filed)
    assert (ran.code, claimpack("shop", "verify", folder=filed).code) == (0, 0)


def test_of_two_files_of_one_name_neither_is_erased_before_one_is_meant(filed):
    with closing(sqlite3.connect(filed / "book.sqlite")) as book:
        lines = (
            book.execute("SELECT files FROM revisions ORDER BY revision")
            .fetchone()[0]
            .replace("photos/1.jpg", "photos/0.jpg")
        )
        book.execute("UPDATE revisions SET files = ? WHERE revision = 1", (lines,))
        book.commit()
    ran = claimpack("shop", "forget", "26-0001", "--photo", "0.jpg", *REQUEST, folder=filed)
    assert (ran.code, "start of its hash" in ran.err) == (2, True)


@pytest.mark.parametrize(
    "said", [("--owner",), REQUEST, ("--photo", "nosuch.jpg", *REQUEST), ("--owner", "--because", "A. Customer asked")]
)
def test_what_is_not_said_well_erases_nothing(filed, said):
    head = claimpack("shop", "verify", "--json", folder=filed).json["head"]
    ran = claimpack("shop", "forget", "26-0001", *said, folder=filed)
    assert (ran.code, claimpack("shop", "verify", "--json", folder=filed).json["head"]) == (2, head)


def test_content_that_comes_back_into_the_vault_is_told(filed):
    picture = next(path for path in (filed.parent / "incoming").rglob("0.jpg"))
    kept = claimpack("shop", "forget", "26-0001", "--photo", "1", *REQUEST, "--json", folder=filed).json["contents"]
    for sha256 in kept:
        (filed / "vault" / sha256[:2]).mkdir(exist_ok=True)
        (filed / "vault" / sha256[:2] / sha256).write_bytes(picture.read_bytes())
    ran = claimpack("shop", "verify", "--json", folder=filed)
    assert (ran.code, len(ran.json["problems"]) >= len(kept)) == (3, True)


def test_verify_names_the_claims_from_which_something_was_erased(filed):
    claimpack("shop", "forget", "26-0001", "--owner", *REQUEST, folder=filed)
    assert claimpack("shop", "verify", "--json", folder=filed).json["erased"] == ["26-0001"]


def test_the_history_tells_what_was_erased_and_no_hashes_of_proofs(filed):
    claimpack("shop", "forget", "26-0001", "--owner", *REQUEST, folder=filed)
    ran = claimpack("history", "26-0001", "--full", folder=filed)
    assert ("the owner's data" in ran.out, "documents:" in ran.out) == (True, False)


def test_the_audit_does_not_miss_a_packet_that_was_erased(filed):
    claimpack("shop", "forget", "26-0001", "--owner", *REQUEST, folder=filed)
    found = claimpack("audit", "--json", folder=filed).json["exceptions"]
    assert "packet-changed" not in {each["rule"] for each in found}


def test_a_shop_that_forgot_can_be_moved_and_backed_up(filed):
    claimpack("shop", "forget", "26-0001", "--owner", "--photo", "1", *REQUEST, folder=filed)
    claimpack("export", "--everything", "../book.zip", folder=filed)
    claimpack("shop", "init", "../new", folder=filed)
    moved = claimpack("import", "../book.zip", "--json", folder=filed.parent / "new")
    assert (moved.code, json.loads(moved.out)["same"]) == (0, True)
    assert claimpack("shop", "verify", folder=filed.parent / "new").code == 0


def test_other_claims_of_the_owner_are_named(filed):
    claimpack("import", a_folder(filed.parent / "second", numbered("26-0002")), folder=filed)
    told = claimpack("shop", "forget", "26-0001", "--owner", *REQUEST, "--json", folder=filed).json
    assert told["others"] == ["26-0002"]


@pytest.mark.parametrize(("words", "said"), [("--photo 1", "1 picture"), ("--photo 2 --photo 3", "2 pictures")])
def test_the_pictures_of_those_numbers_and_no_others_are_erased(filed, words, said):
    listed = {file.path: file.sha256 for file in the_desk(filed).book.get("26-0001").files}
    names = [photo.file for photo in kept_claim(filed).photos]
    wanted = {listed[names[int(word) - 1]] for word in words.split() if word.isdecimal()}
    ran = claimpack("shop", "forget", "26-0001", *words.split(), *REQUEST, folder=filed)
    left = {file.sha256 for file in the_desk(filed).book.get("26-0001").files}
    assert (set(listed.values()) - left, ran.out.startswith(f"26-0001: {said} erased: ")) == (wanted, True)
    assert "Somebody else reads" not in ran.err


def test_a_file_that_another_claim_keeps_is_not_counted_as_out_of_the_vault(draft_shop, tmp_path):
    shop = a_copy(draft_shop, tmp_path)
    claimpack("import", a_folder(tmp_path / "second", numbered("26-0002")), folder=shop)
    ran = claimpack("shop", "forget", "26-0001", "--photo", "1", *REQUEST, folder=shop)
    assert ("0 files out of the vault" in ran.out, "26-0002" in ran.out) == (True, True)
