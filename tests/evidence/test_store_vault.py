from __future__ import annotations

import hashlib
import os
from concurrent.futures import ThreadPoolExecutor
from contextlib import nullcontext

import pytest
from store_server import NOWHERE, Server, a_bucket, a_store, the_server

from claimpack.errors import BadInput, CannotWrite, NotFound
from claimpack.evidence.store_vault import StoreVault
from claimpack.evidence.vault import name_of

CONTENT = b"a picture"
SHA256 = hashlib.sha256(CONTENT).hexdigest()
NAME = name_of(SHA256)


@pytest.fixture
def bucket():
    return a_bucket()


@pytest.fixture
def store(bucket):
    return a_store(bucket)


@pytest.fixture
def vault(store, tmp_path):
    return StoreVault(store, tmp_path / "here")


@pytest.fixture
def elsewhere(store, tmp_path):
    """The same vault on another machine."""
    return StoreVault(store, tmp_path / "there")


def offline(vault, bucket):
    return StoreVault(a_store(bucket, the_server().environ | NOWHERE), vault.folder)


def names(store):
    return [held.name for held in store.names()]


def test_what_one_machine_keeps_another_finds(vault, elsewhere, store, tmp_path):
    (tmp_path / "IMG_0001.jpg").write_bytes(CONTENT)
    assert vault.keep(tmp_path / "IMG_0001.jpg") == (SHA256, len(CONTENT))
    assert elsewhere.find(SHA256, "plate.jpg").read_bytes() == elsewhere.content(SHA256, "plate.jpg") == CONTENT
    assert names(store) == [NAME]


def test_what_was_used_here_is_found_without_the_server(vault, bucket):
    vault.keep_content(CONTENT)
    assert offline(vault, bucket).find(SHA256, "plate.jpg").read_bytes() == CONTENT


def test_a_copy_that_the_disk_damaged_is_fetched_anew(vault):
    vault.keep_content(CONTENT)
    vault.place(SHA256).write_bytes(b"another")
    assert vault.find(SHA256, "plate.jpg").read_bytes() == CONTENT


def test_a_damaged_object_is_named_and_never_used(vault, elsewhere, store):
    vault.keep_content(CONTENT)
    store.put(NAME, b"a pictur3", anew=True)
    assert list(elsewhere.damaged([SHA256])) == [(SHA256, "was changed in the vault")]
    with pytest.raises(BadInput, match=r"plate\.jpg was changed in the vault s3://"):
        elsewhere.find(SHA256, "plate.jpg")
    assert not elsewhere.place(SHA256).exists()


def test_a_damaged_object_is_mended_by_keeping_its_content_again(vault, store):
    store.put(NAME, b"a pictur3")
    vault.keep_content(CONTENT)
    assert list(vault.damaged([SHA256])) == []


def test_an_object_that_is_gone_is_named(vault, elsewhere, store):
    vault.keep_content(CONTENT)
    store.drop(NAME)
    assert list(vault.damaged([SHA256])) == [(SHA256, "is gone from the vault")]
    with pytest.raises(NotFound, match=r"plate\.jpg is not in the vault s3://"):
        elsewhere.find(SHA256, "plate.jpg")


def test_into_a_bucket_that_is_not_there_nothing_can_be_put(tmp_path):
    with pytest.raises(CannotWrite, match="no bucket no-such-bucket"):
        StoreVault(a_store("no-such-bucket"), tmp_path).must_take()


def test_two_writers_lose_nothing(vault, elsewhere, store):
    turns = [(writer, bytes([number]) * 1000) for number in range(12) for writer in (vault, elsewhere)]
    with ThreadPoolExecutor() as writing:
        kept = list(writing.map(lambda turn: turn[0].keep_content(turn[1]), turns))
    assert sorted(map(name_of, set(kept))) == sorted(names(store))
    assert list(vault.damaged(kept)) == []


def test_files_are_kept_several_at_once_and_told_in_their_order(vault, store, tmp_path):
    files = [tmp_path / f"{number}.jpg" for number in range(9)]
    for number, path in enumerate(files):
        path.write_bytes(bytes([number]))
    assert vault.keep_all(files) == [(hashlib.sha256(bytes([number])).hexdigest(), 1) for number in range(9)]
    assert len(names(store)) == 9


def test_a_server_lost_in_the_middle_leaves_nothing_and_the_next_try_goes_through(bucket, tmp_path):
    server, content = Server(), os.urandom(6 << 20)
    lost = StoreVault(a_store(bucket, server.environ, lambda *_: nullcontext(server.stop)), tmp_path / "here")
    with pytest.raises(CannotWrite, match="cannot be written"):
        lost.keep_content(content)
    assert names(a_store(bucket)) == []
    server.start()
    again = StoreVault(a_store(bucket, server.environ), tmp_path / "here")
    assert list(again.damaged([again.keep_content(content)])) == []
    server.stop()


def test_a_large_file_goes_and_comes_in_parts_that_are_shown(bucket, tmp_path):
    shown = []
    bars = a_store(bucket, progress=lambda label, total: nullcontext(lambda: shown.append((label, total))))
    vault = StoreVault(bars, tmp_path / "here")
    ((sha256, _),) = vault.keep_all([large(tmp_path / "film.jpg")])
    vault.drop_copy(sha256)
    vault.find(sha256, "film.jpg")
    assert shown == [("Sending", 2)] * 2 + [("Fetching", 2)] * 2


def test_of_several_files_none_is_shown_by_its_parts(bucket, tmp_path):
    shown = []
    bars = a_store(bucket, progress=lambda label, total: nullcontext(lambda: shown.append((label, total))))
    vault, film = StoreVault(bars, tmp_path / "here"), large(tmp_path / "film.jpg")
    small = vault.keep_content(CONTENT)
    ((sha256, _), _) = vault.keep_all([film, vault.place(small)])
    assert shown == []
    vault.drop_copy(sha256)
    vault.bring([sha256, small])
    assert shown == [("Fetching files", 1)]
    vault.drop(sha256)
    vault.take_over(film.read_bytes())
    assert shown == [("Fetching files", 1)]


def large(path):
    """A file that goes over the line in two parts."""
    path.write_bytes(os.urandom(6 << 20))
    return path


def test_content_of_which_there_may_be_much_is_fetched_unshown(bucket, tmp_path):
    content, shown = bytes(6 << 20), []
    a_store(bucket).put(name_of(hashlib.sha256(content).hexdigest()), content)
    bars = a_store(bucket, progress=lambda *told: shown.append(told) or nullcontext(lambda: None))
    assert StoreVault(bars, tmp_path).content(hashlib.sha256(content).hexdigest(), "film.jpg") == content
    assert shown == []


def test_what_is_taken_out_is_gone_here_too(vault, store):
    vault.keep_content(CONTENT)
    vault.drop(SHA256)
    assert (names(store), vault.place(SHA256).exists(), vault.holds(SHA256)) == ([], False, False)


def test_a_young_object_and_what_is_not_ours_are_no_orphans(vault, store):
    vault.keep_content(CONTENT)
    store.put("notes.txt", b"somebody's")
    assert vault.orphans([]) == []
    assert names(store) == sorted([NAME, "notes.txt"])


@pytest.mark.parametrize("age", [86_300, 86_500])
def test_a_day_old_object_that_nobody_wants_is_an_orphan_and_can_be_swept(vault, bucket, age):
    vault.keep_content(CONTENT)
    aged(bucket, age)
    assert vault.orphans([]) == ([SHA256] if age > 86_400 else [])
    vault.sweep(vault.orphans([]))
    assert vault.holds(SHA256) == (age < 86_400)


def test_content_kept_again_is_young_again(vault, bucket):
    vault.keep_content(CONTENT)
    aged(bucket, 90_000)
    vault.keep_content(CONTENT)
    assert vault.orphans([]) == []


def test_content_kept_again_within_the_hour_is_not_sent_again(vault, store, bucket):
    vault.keep_content(CONTENT)
    aged(bucket, 3_600)
    before = store.held(NAME).since
    vault.keep_content(CONTENT)
    assert store.held(NAME).since == before


def test_what_a_run_that_was_ended_left_of_the_clock_is_not_taken_for_the_time(vault, store, bucket):
    vault.keep_content(CONTENT)
    store.put("now", b"")
    aged(bucket, 90_000)
    assert vault.orphans([]) == [SHA256]


def aged(bucket, seconds):
    """Let an object be older than it is; over HTTP nobody can."""
    import datetime as dt

    from moto.s3.models import s3_backends

    for held in s3_backends["123456789012"]["aws"].get_bucket(bucket).keys.values():
        held.last_modified -= dt.timedelta(seconds=seconds)


def test_files_of_a_claim_are_fetched_together_and_the_damaged_left_to_be_told(vault, elsewhere, store):
    kept = [vault.keep_content(bytes([number])) for number in range(5)]
    store.put(name_of(kept[0]), b"another", anew=True)
    elsewhere.bring(kept)
    assert [elsewhere.place(sha256).exists() for sha256 in kept] == [False, True, True, True, True]
