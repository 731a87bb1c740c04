from __future__ import annotations

import pytest
from phones import a_phone, shots, sort, taken
from running import claimpack
from shop_builders import a_shop, happen, kept_claim, photographed, the_desk

from claimpack.core.claim import Photo


@pytest.fixture
def shop(tmp_path):
    return a_shop(tmp_path, "26-0001", "26-0002")


@pytest.fixture
def phone(shop):
    return a_phone(shop)


def test_the_last_sort_is_undone(shop, phone):
    sort(shop, phone, "--yes")
    ran = sort(shop, "--undo", "--yes")
    assert (ran.code, shots(shop, "26-0001"), shots(shop, "26-0002")) == (0, [], [])


def test_undoing_keeps_everything_else(shop, phone):
    claimpack("photo", "add", "26-0001", photographed(shop.parent / "x.jpg"), folder=shop)
    sort(shop, phone, "--yes")
    claimpack("finding", "add", "26-0001", "gap", "1", folder=shop)
    sort(shop, "--undo", "--yes")
    assert (shots(shop, "26-0001"), len(kept_claim(shop).findings)) == ([("photos/x.jpg", "")], 1)


def test_undoing_is_a_new_revision_and_the_vault_keeps_the_files(shop, phone):
    sort(shop, phone, "--yes")
    filed = the_desk(shop).book.get("26-0001")
    sort(shop, "--undo", "--yes")
    found = [the_desk(shop).vault.find(file.sha256, file.path).is_file() for file in filed.files]
    assert (the_desk(shop).book.get("26-0001").revision, found) == (filed.revision + 1, [True, True])


def test_undoing_twice_takes_back_the_sort_before(shop, phone):
    sort(shop, phone, "--yes")
    taken(shop, "g.jpg", "10:05:00")
    sort(shop, phone, "--yes")
    sort(shop, "--undo", "--yes")
    first = [file for file, _ in shots(shop, "26-0002")]
    sort(shop, "--undo", "--yes")
    assert (first, shots(shop, "26-0002")) == (["photos/e.jpg", "photos/f.jpg"], [])


def test_nothing_left_to_undo_is_said(shop):
    ran = sort(shop, "--undo", "--yes")
    assert (ran.code, ran.err) == (0, "There is no sort left to undo.\n")


def test_a_sort_undone_may_be_done_again(shop, phone):
    sort(shop, phone, "--yes")
    sort(shop, "--undo", "--yes")
    sort(shop, phone, "--yes")
    assert len(shots(shop, "26-0001")) == 2


def test_undoing_asks_as_well(shop, phone):
    sort(shop, phone, "--yes")
    ran = sort(shop, "--undo")
    assert (ran.code, "photos/b.jpg" in ran.out, len(shots(shop, "26-0001"))) == (4, True, 2)


def test_the_book_is_whole_after_a_sort_and_its_undoing(shop, phone):
    sort(shop, phone, "--yes")
    sort(shop, "--undo", "--yes")
    assert claimpack("shop", "verify", folder=shop).out.startswith("WHOLE")


@pytest.fixture
def worked_on(shop, phone):
    """The phone sorted, and then a picture of each claim worked on."""
    sort(shop, phone, "--yes")
    claimpack("photo", "shot", "26-0001", "photos/c.jpg", "whole unit", folder=shop)
    claimpack("photo", "mark", "26-0002", "photos/f.jpg", "--ring", "0.4,0.6", folder=shop)
    return shop


def test_pictures_worked_on_since_are_left(worked_on):
    sort(worked_on, "--undo", "--yes")
    left = [file for number in ("26-0001", "26-0002") for file, _ in shots(worked_on, number)]
    assert left == ["photos/c.jpg", "photos/f.jpg"]


def test_what_is_left_is_named_with_the_reason_and_how_to_take_it_off(worked_on):
    ran = sort(worked_on, "--undo", "--yes")
    assert ran.out.splitlines()[-1] == "2 pictures taken off 2 claims."
    assert "photos/c.jpg stays on claim 26-0001: named since." in ran.err
    assert "claimpack photo remove 26-0002 photos/f.jpg" in ran.err


def test_pictures_taken_off_by_hand_are_not_counted(shop, phone):
    sort(shop, phone, "--yes")
    claimpack("photo", "remove", "26-0001", "photos/c.jpg", folder=shop)
    ran = sort(shop, "--undo", "--yes")
    assert ("is off the claim already" in ran.out, ran.out.splitlines()[-1]) == (
        True,
        "3 pictures taken off 2 claims.",
    )


def test_a_claim_that_takes_no_changes_keeps_its_pictures(shop, phone):
    sort(shop, phone, "--yes")
    happen(shop, "26-0001", "withdrawn")
    ran = sort(shop, "--undo", "--yes")
    assert (ran.code, "the claim is withdrawn" in ran.out) == (0, True)
    assert [len(shots(shop, number)) for number in ("26-0001", "26-0002")] == [2, 0]


def test_a_sort_with_nothing_left_to_take_off_is_undone_unasked(shop):
    taken(shop, "b.jpg", "09:00:00", "26-0001/1")
    sort(shop, "../phone", "--yes")
    claimpack("photo", "remove", "26-0001", "1", folder=shop)
    first, second = (sort(shop, "--undo").err for _ in range(2))
    assert (first, second) == ("Nothing is left to take off.\n", "There is no sort left to undo.\n")


def test_scripts_read_what_went_and_what_stayed(worked_on):
    claimpack("photo", "remove", "26-0002", "photos/e.jpg", folder=worked_on)
    told = sort(worked_on, "--undo", "--yes", "--json").json["claims"]
    assert told == [
        {
            "claim": "26-0001",
            "files": ["photos/b.jpg"],
            "left": [{"file": "photos/c.jpg", "because": "named since"}],
            "gone": [],
        },
        {
            "claim": "26-0002",
            "files": [],
            "left": [{"file": "photos/f.jpg", "because": "marked since"}],
            "gone": ["photos/e.jpg"],
        },
    ]


def test_a_picture_that_was_missing_is_missing_again(shop):
    missing = Photo(file="photos/b.jpg", caption="The plate.")
    named = kept_claim(shop).model_copy(update={"photos": (missing,)})
    with the_desk(shop).changing("26-0001") as changing:
        changing.keep(named)
    taken(shop, "b.jpg", "09:00:00", "26-0001/1")
    sort(shop, "../phone", "--yes")
    sort(shop, "--undo", "--yes")
    assert kept_claim(shop).photos == (missing,)
