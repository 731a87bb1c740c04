from __future__ import annotations

import hashlib
import shutil

import pikepdf
import pytest
from claim_folders import a_folder, picture
from running import claimpack, claimpack_in_bytes
from shops_with_claims import a_copy


@pytest.fixture(scope="module")
def made(tmp_path_factory):
    place = tmp_path_factory.mktemp("made")
    a_folder(place / "claim", shots=("damage",))
    claimpack("packet", "claim", "--out", "p.pdf", folder=place)
    return place


@pytest.fixture
def place(made, tmp_path):
    shutil.copytree(made, tmp_path, dirs_exist_ok=True)
    return tmp_path


def verified(place, *more):
    return claimpack("verify", "p.pdf", *more, folder=place)


def test_a_packet_is_genuine_and_its_hash_is_told(place):
    ran = verified(place)
    sha256 = hashlib.sha256((place / "p.pdf").read_bytes()).hexdigest()
    assert (ran.code, ran.out.startswith("GENUINE  claim 26-0001, "), sha256 in ran.out) == (0, True, True)


def test_on_a_terminal_too_narrow_for_it_the_hash_stands_whole_on_a_line_of_its_own(place, monkeypatch):
    monkeypatch.setenv("COLUMNS", "80")
    lines = claimpack("verify", "p.pdf", folder=place, environ={"NO_COLOR": "1"}, terminal=True).out.splitlines()
    assert hashlib.sha256((place / "p.pdf").read_bytes()).hexdigest() in lines


def test_it_is_said_that_this_proves_no_author(place):
    assert "not who made it" in verified(place).err


def test_a_packet_that_was_changed_is_a_no(place):
    with pikepdf.open(place / "p.pdf", allow_overwriting_input=True) as pdf:
        del pdf.pages[-1]
        pdf.save()
    ran = verified(place)
    assert (ran.code, ran.out.startswith("ALTERED"), "✗" in ran.out) == (3, True, True)


def test_originals_that_are_the_same_are_compared(place):
    with_them, without = (verified(place, *more, "--json") for more in (("--originals", "claim"), ()))
    assert (with_them.code, with_them.json["genuine"], without.json["genuine"]) == (0, True, True)


@pytest.mark.parametrize("harm", [lambda path: path.write_bytes(picture(40, 30)), lambda path: path.unlink()])
def test_an_original_that_was_changed_or_lost_is_named(place, harm):
    harm(place / "claim" / "photos" / "0.jpg")
    ran = verified(place, "--originals", "claim")
    assert (ran.code, "photos/0.jpg" in ran.out) == (3, True)


@pytest.mark.parametrize("content", [b"", b"%PDF-1.7", b"\x00" * 4096, "kein PDF".encode("utf-16")])
def test_what_is_no_pdf_is_refused(tmp_path, content):
    (tmp_path / "p.pdf").write_bytes(content)
    ran = verified(tmp_path)
    assert (ran.code, ran.out, ran.err.startswith("claimpack: p.pdf")) == (2, "", True)


def test_a_pdf_that_is_no_packet_is_refused(tmp_path):
    pdf = pikepdf.new()
    pdf.add_blank_page()
    pdf.save(tmp_path / "p.pdf")
    ran = verified(tmp_path)
    assert (ran.code, ran.out, "Traceback" in ran.err) == (2, "", False)


@pytest.mark.parametrize("named", ["nowhere.pdf", "."])
def test_a_file_that_is_not_there_is_refused(tmp_path, named):
    assert claimpack("verify", named, folder=tmp_path).code == 2


@pytest.fixture
def filed(filed_shop, tmp_path):
    return a_copy(filed_shop, tmp_path)


def test_in_the_shop_that_filed_it_the_packet_filed_is_known(filed):
    told = claimpack("verify", "26-0001-packet.pdf", "--json", folder=filed)
    assert (told.code, told.json["filed"]) == (0, {"same": True, "on": "2026-02-25", "version": 1})


def test_of_the_packet_that_was_filed_nobody_needs_to_be_told_that_it_proves_no_author(filed):
    ran = claimpack("verify", "26-0001-packet.pdf", folder=filed)
    assert (ran.out.startswith("GENUINE"), "byte for byte" in ran.out, "not who made it" in ran.err) == (
        True,
        True,
        False,
    )


def test_another_packet_of_a_filed_claim_is_not_the_one_filed_however_well_it_agrees_with_itself(filed):
    claimpack("packet", "26-0001", "--out", "p.pdf", "--layout", "carta-a4", folder=filed)
    ran, told = (verified(filed, *more) for more in ((), ("--json",)))
    assert (ran.code, ran.out.startswith("NOT AS FILED"), told.json["genuine"]) == (3, True, True)
    assert "not who made it" in ran.err


def test_a_filed_packet_that_was_changed_is_said_to_be_altered_before_all(filed):
    with pikepdf.open(filed / "26-0001-packet.pdf") as pdf:
        del pdf.pages[-1]
        pdf.save(filed / "p.pdf")
    ran = verified(filed)
    assert (ran.code, ran.out.startswith("ALTERED")) == (3, True)


def test_outside_of_a_shop_nothing_is_said_of_a_filing(place):
    ran = verified(place, "--json")
    assert (ran.json["filed"], "could not be asked" in ran.err) == (None, False)


def test_a_book_that_cannot_be_opened_is_a_note_alone(filed):
    (filed / "book.sqlite").write_bytes(b"no book at all, whatever its name says" * 99)
    ran = claimpack("verify", "26-0001-packet.pdf", folder=filed)
    assert (ran.code, "could not be asked" in ran.err) == (0, True)


def test_a_packet_may_come_in_on_standard_input(tmp_path):
    a_folder(tmp_path / "claim")
    claimpack("packet", "claim", "--out", "packet.pdf", folder=tmp_path)
    ran = claimpack_in_bytes("verify", "-", folder=tmp_path, typed=(tmp_path / "packet.pdf").read_bytes())
    assert (ran.code, ran.out[:7]) == (0, b"GENUINE")
