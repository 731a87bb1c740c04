from __future__ import annotations

import hashlib

import pytest
from claim_folders import CLAIM, a_folder, picture

from claimpack.commands.exchange.import_ import read_folders
from claimpack.errors import BadInput, NotFound


def read(*folders, known=()):
    """What is ready, what is bad, and how many were looked at."""
    looked_at = []
    ready, bad = read_folders(folders, set(known), lambda: looked_at.append(1))
    return ready, bad, len(looked_at)


def numbered(place, number):
    return a_folder(place / number, CLAIM.replace("26-0001", number), shots=("damage",))


@pytest.fixture
def folder(tmp_path):
    return numbered(tmp_path, "26-0001")


def test_no_folder_is_nothing_to_take_in():
    assert read() == ([], [], 0)


def test_files_come_with_the_hash_of_their_content_and_where_they_lie(folder):
    ready, _, _ = read(folder)
    assert [(file.path, path) for file, path in zip(ready[0].files, ready[0].paths, strict=True)] == [
        (name, folder / name) for name in ("papers/receipt.pdf", "photos/0.jpg")
    ]
    content = (folder / "photos" / "0.jpg").read_bytes()
    assert (ready[0].files[1].sha256, ready[0].files[1].bytes) == (hashlib.sha256(content).hexdigest(), len(content))


def test_pictures_that_are_named_have_a_likeness_and_papers_have_none(folder):
    ready, _, _ = read(folder)
    assert [bool(file.likeness) for file in ready[0].files] == [False, True]


def test_a_picture_that_is_not_named_is_kept_unseen(folder):
    (folder / "photos" / "spare.jpg").write_bytes(picture()[:100])
    ready, _, _ = read(folder)
    assert (ready[0].files[-1].path, ready[0].files[-1].likeness) == ("photos/spare.jpg", "")


def test_a_number_that_is_known_is_bad(folder):
    _, bad, _ = read(folder, known=["26-0001"])
    assert [(one.folder, type(one.error)) for one in bad] == [(folder, BadInput)]


def test_of_two_folders_with_one_number_the_first_is_taken(folder, tmp_path):
    twin = a_folder(tmp_path / "twin", shots=())
    ready, bad, _ = read(folder, twin)
    assert ([one.folder for one in ready], [one.folder for one in bad]) == ([folder], [twin])


def test_a_number_is_free_again_where_its_folder_was_bad(tmp_path):
    broken, whole = numbered(tmp_path / "a", "26-0001"), numbered(tmp_path / "b", "26-0001")
    (broken / "photos" / "0.jpg").write_bytes(b"")
    ready, bad, _ = read(broken, whole)
    assert ([one.folder for one in ready], [one.folder for one in bad]) == ([whole], [broken])


def test_one_that_is_bad_keeps_no_other_from_being_looked_at(folder, tmp_path):
    ready, bad, looked_at = read(tmp_path / "nowhere", folder, tmp_path)
    assert (len(ready), [type(one.error) for one in bad], looked_at) == (1, [NotFound, NotFound], 3)


@pytest.mark.parametrize(("own", "brings"), [("coverage", True), ("terms", True), ("notes", False)])
def test_rules_of_its_own_are_plans_and_terms(folder, own, brings):
    (folder / own).mkdir()
    (folder / own / "own.toml").write_text('id = "own"\n')
    assert read(folder)[0][0].own_rules is brings
