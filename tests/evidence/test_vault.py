import errno
import hashlib
import os

import pytest
from old_files import aged

from claimpack.errors import BadInput, CannotWrite, NotFound
from claimpack.evidence.vault import Vault

CONTENT = b"a picture"
SHA256 = hashlib.sha256(CONTENT).hexdigest()


@pytest.fixture
def photo(tmp_path):
    path = tmp_path / "IMG_0001.jpg"
    path.write_bytes(CONTENT)
    return path


@pytest.fixture
def vault(tmp_path):
    return Vault(tmp_path / "vault")


def kept_files(vault):
    return [path.name for path in vault.folder.rglob("*") if path.is_file()]


def test_a_file_is_kept_under_the_hash_of_its_content(vault, photo):
    assert vault.keep(photo) == (SHA256, len(CONTENT))
    assert vault.find(SHA256, "photos/plate.jpg").read_bytes() == CONTENT


def test_the_file_itself_is_not_touched(vault, photo):
    before = photo.stat().st_mtime_ns
    vault.keep(photo)
    assert (photo.read_bytes(), photo.stat().st_mtime_ns) == (CONTENT, before)


def test_the_same_content_is_kept_once(vault, photo, tmp_path):
    (tmp_path / "copy.jpg").write_bytes(CONTENT)
    vault.keep(photo)
    written = vault.place(SHA256).stat().st_ino
    vault.keep(tmp_path / "copy.jpg")
    assert kept_files(vault) == [SHA256]
    assert vault.place(SHA256).stat().st_ino == written


def test_content_without_a_file_is_kept_as_a_file_is(vault, photo):
    assert vault.keep_content(CONTENT) == vault.keep(photo)[0]
    assert kept_files(vault) == [SHA256]


def test_of_several_files_each_is_told(vault, photo, tmp_path):
    told = []
    (tmp_path / "other.jpg").write_bytes(b"another")
    kept = vault.keep_all([photo, tmp_path / "other.jpg"], lambda: told.append(None))
    assert ([size for _, size in kept], len(told)) == ([len(CONTENT), 7], 2)


def test_an_empty_file_is_kept(vault, tmp_path):
    (tmp_path / "empty.pdf").touch()
    assert vault.keep(tmp_path / "empty.pdf") == (hashlib.sha256(b"").hexdigest(), 0)


def test_a_file_that_is_not_there_is_not_kept(vault, tmp_path):
    with pytest.raises(NotFound):
        vault.keep(tmp_path / "gone.jpg")
    assert not vault.folder.exists()


def test_a_file_that_changed_while_it_was_read_is_not_kept(vault, photo, monkeypatch):
    monkeypatch.setattr("claimpack.evidence.vault.content_hash", lambda _path: "00" * 32)
    with pytest.raises(BadInput) as caught:
        vault.keep(photo)
    assert "changed while it was read" in caught.value.what
    assert not vault.folder.exists()


def test_a_vault_that_takes_nothing_says_so(photo, tmp_path):
    (tmp_path / "vault").write_text("a file in the folder's place")
    with pytest.raises(CannotWrite) as caught:
        Vault(tmp_path / "vault").keep(photo)
    assert str(tmp_path / "vault") in caught.value.what


def test_what_is_not_kept_is_not_found(vault):
    with pytest.raises(NotFound) as caught:
        vault.find(SHA256, "photos/plate.jpg")
    assert "photos/plate.jpg" in caught.value.what
    assert "restore" in caught.value.do


def test_whole_files_are_not_damaged(vault, photo):
    vault.keep(photo)
    assert list(vault.damaged([SHA256])) == []


def test_a_kept_file_that_was_changed_is_named(vault, photo):
    vault.keep(photo)
    vault.place(SHA256).write_bytes(b"another picture")
    assert list(vault.damaged([SHA256])) == [(SHA256, "was changed in the vault")]


def test_a_kept_file_that_is_gone_is_named(vault, photo):
    vault.keep(photo)
    vault.place(SHA256).unlink()
    assert list(vault.damaged([SHA256])) == [(SHA256, "is gone from the vault")]


def test_kept_content_is_handed_out_as_it_was_kept(vault):
    sha256 = vault.keep_content(b"a packet")
    assert vault.content(sha256, "the packet") == b"a packet"


def test_content_that_was_changed_is_not_handed_out(vault):
    sha256 = vault.keep_content(b"a packet")
    vault.place(sha256).write_bytes(b"another")
    with pytest.raises(BadInput, match="the packet was changed in the vault"):
        vault.content(sha256, "the packet")


def test_content_that_is_gone_is_named(vault):
    with pytest.raises(NotFound, match="the packet is not in the vault"):
        vault.content("ab" * 32, "the packet")


def test_content_that_is_dropped_is_gone_and_one_that_is_not_there_is_not_missed(vault):
    sha256 = vault.keep_content(CONTENT)
    vault.drop(sha256)
    vault.drop(sha256)
    assert kept_files(vault) == []


def test_why_a_content_cannot_be_taken_out_is_told_in_the_systems_words(vault):
    vault.place(SHA256).mkdir(parents=True)
    with pytest.raises(CannotWrite) as caught:
        vault.drop(SHA256)
    assert caught.value.why in [os.strerror(each) for each in (errno.EISDIR, errno.EPERM, errno.EACCES)]


def test_old_files_that_nobody_wants_are_orphans(vault):
    kept, left = (aged(vault.place(letter * 64)) for letter in "ab")
    assert vault.orphans(["a" * 64]) == [left]
    assert kept.exists()


def test_half_written_files_of_killed_runs_are_orphans(vault):
    left = aged(vault.folder / "aa" / f".{'a' * 64}.x7wpd4hh")
    assert vault.orphans([]) == [left]


def test_a_file_that_a_claim_may_still_be_waiting_for_is_no_orphan(vault):
    vault.keep_content(CONTENT)
    assert vault.orphans([]) == []


def test_content_kept_again_is_young_again(vault):
    aged(vault.place(SHA256))
    vault.keep_content(CONTENT)
    assert vault.orphans([]) == []


@pytest.mark.parametrize("name", ["book.sqlite", "aa/notes.txt", f"ab/{'a' * 64}"])
def test_what_this_program_never_put_into_a_vault_is_nobodys_orphan(vault, name):
    aged(vault.folder / name)
    assert vault.orphans([]) == []
