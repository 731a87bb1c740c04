from __future__ import annotations

import errno
import hashlib

import pytest

from claimpack.errors import BadInput, NotFound
from claimpack.file_contents import BIGGEST_TEXT, content_hash, hash_of, read_bytes, read_text, refuse_no_file


def test_the_hash_of_a_file_is_that_of_its_content(tmp_path):
    content = b"0123456789" * 300_000
    (tmp_path / "big").write_bytes(content)
    assert content_hash(tmp_path / "big") == hash_of(content) == hashlib.sha256(content).hexdigest()


@pytest.mark.parametrize("read", [read_text, read_bytes, content_hash, refuse_no_file])
def test_a_file_that_is_not_there_is_not_found(tmp_path, read):
    with pytest.raises(NotFound):
        read(tmp_path / "gone")


@pytest.mark.parametrize("read", [read_text, read_bytes, content_hash, refuse_no_file])
def test_a_folder_is_no_file(tmp_path, read):
    with pytest.raises(BadInput) as caught:
        read(tmp_path)
    assert "is a folder" in caught.value.what


@pytest.mark.parametrize("content", [b"Fr\xc3\xa4ser", b"\xef\xbb\xbfFr\xc3\xa4ser"])
def test_text_is_utf8_with_or_without_a_mark(tmp_path, content):
    (tmp_path / "claim.toml").write_bytes(content)
    assert read_text(tmp_path / "claim.toml") == "Fräser"


def test_text_in_another_encoding_is_refused_with_its_line(tmp_path):
    (tmp_path / "claim.toml").write_bytes(b"one\ntwo\nFr\xe4ser\n")
    with pytest.raises(BadInput) as caught:
        read_text(tmp_path / "claim.toml")
    assert "line 3" in caught.value.what


def test_text_that_is_far_too_large_is_refused(tmp_path):
    (tmp_path / "claim.toml").write_bytes(b"a" * (BIGGEST_TEXT + 1))
    with pytest.raises(BadInput) as caught:
        read_text(tmp_path / "claim.toml")
    assert "2 MB" in caught.value.what


def test_a_file_just_as_large_as_may_be_is_read(tmp_path, monkeypatch):
    monkeypatch.setattr("claimpack.file_contents.BIGGEST_FILE", 5)
    (tmp_path / "just").write_bytes(b"12345")
    (tmp_path / "larger").write_bytes(b"123456")
    assert (read_text(tmp_path / "just", 5), read_bytes(tmp_path / "just")) == ("12345", b"12345")
    for read in (lambda path: read_text(path, 5), read_bytes):
        with pytest.raises(BadInput, match="is larger than"):
            read(tmp_path / "larger")


def test_why_the_disk_gives_a_file_to_nobody_is_said_in_its_words(tmp_path, monkeypatch):
    def refuse(*_arguments):
        raise PermissionError(errno.EACCES, "Permission denied", "claim.toml")

    (tmp_path / "claim.toml").touch()
    monkeypatch.setattr(type(tmp_path), "open", refuse)
    with pytest.raises(BadInput) as caught:
        read_text(tmp_path / "claim.toml")
    assert caught.value.why == "Permission denied"
