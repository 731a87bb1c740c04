from __future__ import annotations

import pytest
from made_once import made_once
from phones import a_phone, shots, sort, taken
from running import claimpack
from shop_builders import a_picture, a_shop, happen, kept_claim, photographed, the_desk

from claimpack.core.facts.pictures import Photo


@pytest.fixture
def shop(tmp_path):
    return a_shop(tmp_path, "26-0001", "26-0002")


@pytest.fixture
def phone(shop):
    return a_phone(shop)


@pytest.fixture
def after(tmp_path):
    """A shop whose phone was sorted."""
    return a_sorted_shop(tmp_path)


@made_once
def a_sorted_shop(place):
    shop = a_shop(place, "26-0001", "26-0002")
    sort(shop, a_phone(shop), "--yes")
    return shop


def test_pictures_are_filed_by_tag_and_time(shop, phone):
    ran = sort(shop, phone, "--yes")
    assert (ran.code, shots(shop, "26-0001"), shots(shop, "26-0002")) == (
        0,
        [("photos/b.jpg", "tag"), ("photos/c.jpg", "")],
        [("photos/e.jpg", "tag"), ("photos/f.jpg", "")],
    )


def test_the_plan_is_shown_as_a_table(shop, phone):
    lines = sort(shop, phone, "--yes").out.splitlines()
    assert "  c.jpg    26-0001  follows the tag in b.jpg" in lines


def test_what_is_left_alone_is_named_with_the_reason(shop, phone):
    (phone / "notes.txt").write_text("x")
    left = {each["file"]: each["because"] for each in sort(shop, phone, "--json").json["left"]}
    assert list(left) == ["a.jpg", "d.jpg", "notes.txt"]
    assert (len(set(left.values())), "20 min" in left["d.jpg"]) == (3, True)


def test_a_longer_gap_reaches_further(shop, phone):
    sort(shop, phone, "--yes", "--gap", "30")
    assert [file for file, _ in shots(shop, "26-0001")] == ["photos/b.jpg", "photos/c.jpg", "photos/d.jpg"]


def test_the_tag_of_an_unknown_claim_is_left_alone(shop):
    taken(shop, "a.jpg", "09:00:00", "26-0999/1")
    ran = sort(shop, "../phone", "--yes")
    assert "there is no claim 26-0999 in the book" in ran.out


def test_a_picture_without_a_time_is_left_alone(shop, phone):
    photographed(phone / "z.jpg", a_picture(9))
    assert "z.jpg" in [each["file"] for each in sort(shop, phone, "--json").json["left"]]


def test_nothing_is_filed_unasked(shop, phone):
    ran = sort(shop, phone)
    assert (ran.code, "--yes" in ran.err, shots(shop, "26-0001")) == (4, True, [])


@pytest.mark.parametrize(("typed", "filed"), [("y\n", 2), ("n\n", 0)])
def test_on_a_terminal_it_asks(shop, phone, typed, filed):
    sort(shop, phone, typed=typed, terminal=True)
    assert len(shots(shop, "26-0001")) == filed


def test_with_json_the_plan_alone_is_told(shop, phone):
    ran = sort(shop, phone, "--json")
    assert (ran.json["done"], [each["claim"] for each in ran.json["filed"]], shots(shop, "26-0001")) == (
        *(False, ["26-0001"] * 2 + ["26-0002"] * 2),
        [],
    )


def test_the_pictures_in_the_folder_are_not_touched(shop, phone):
    before = {file.name: (file.read_bytes(), file.stat().st_mtime_ns) for file in phone.iterdir()}
    sort(shop, phone, "--yes")
    assert {file.name: (file.read_bytes(), file.stat().st_mtime_ns) for file in phone.iterdir()} == before


def test_sorting_again_files_nothing_twice(after):
    ran = sort(after, "../phone", "--yes")
    assert ("0 to file, 4 there already" in ran.out, len(shots(after, "26-0001"))) == (True, 2)


def test_one_picture_copied_under_two_names_is_filed_once(shop, phone):
    (phone / "c-copy.jpg").write_bytes((phone / "c.jpg").read_bytes())
    sort(shop, phone, "--yes")
    assert len(shots(shop, "26-0001")) == 2


def test_a_picture_of_another_claim_is_warned_of(shop, phone):
    claimpack("photo", "add", "26-0002", phone / "c.jpg", folder=shop)
    assert "c.jpg is also on claim 26-0002" in sort(shop, phone, "--yes").err


def test_a_settled_claim_takes_no_pictures(shop, phone):
    happen(shop, "26-0001", "withdrawn")
    ran = sort(shop, phone, "--yes")
    assert ("claim 26-0001 is withdrawn" in ran.out, len(shots(shop, "26-0002"))) == (True, 2)


def test_without_a_folder_it_says_what_it_needs(shop):
    ran = sort(shop)
    assert (ran.code, "needs the folder" in ran.err) == (2, True)


def test_a_folder_that_is_not_there_is_not_found(shop):
    assert sort(shop, "nowhere").code == 2


def test_a_picture_kept_as_a_paper_of_the_claim_is_sorted_all_the_same(shop, phone):
    claimpack("paper", "add", "26-0001", phone / "c.jpg", folder=shop)
    sort(shop, phone, "--yes")
    assert [file for file, _ in shots(shop, "26-0001")] == ["photos/b.jpg", "photos/c-2.jpg"]


def test_the_last_sort_is_undone(after):
    ran = sort(after, "--undo", "--yes")
    assert (ran.code, shots(after, "26-0001"), shots(after, "26-0002")) == (0, [], [])
    assert [the_desk(after).book.get(number).files for number in ("26-0001", "26-0002")] == [(), ()]


def test_undoing_keeps_everything_else(shop, phone):
    claimpack("photo", "add", "26-0001", photographed(shop.parent / "x.jpg"), folder=shop)
    sort(shop, phone, "--yes")
    claimpack("finding", "add", "26-0001", "gap", "1", folder=shop)
    sort(shop, "--undo", "--yes")
    assert (shots(shop, "26-0001"), len(kept_claim(shop).findings)) == (
        [("photos/x.jpg", "")],
        1,
    )


def test_undoing_is_a_new_revision_and_the_vault_keeps_the_files(after):
    filed = the_desk(after).book.get("26-0001")
    sort(after, "--undo", "--yes")
    found = [the_desk(after).vault.find(file.sha256, file.path).is_file() for file in filed.files]
    assert (the_desk(after).book.get("26-0001").revision, found) == (filed.revision + 1, [True, True])


def test_undoing_twice_takes_back_the_sort_before(after):
    taken(after, "g.jpg", "10:05:00")
    sort(after, "../phone", "--yes")
    sort(after, "--undo", "--yes")
    first = [file for file, _ in shots(after, "26-0002")]
    sort(after, "--undo", "--yes")
    assert (first, shots(after, "26-0002")) == (["photos/e.jpg", "photos/f.jpg"], [])


def test_nothing_left_to_undo_is_said(shop):
    ran = sort(shop, "--undo", "--yes")
    assert (ran.code, ran.err) == (0, "There is no sort left to undo.\n")


def test_a_sort_undone_may_be_done_again(after):
    sort(after, "--undo", "--yes")
    sort(after, "../phone", "--yes")
    assert len(shots(after, "26-0001")) == 2


def test_undoing_asks_as_well(after):
    ran = sort(after, "--undo")
    assert (ran.code, "photos/b.jpg" in ran.out, len(shots(after, "26-0001"))) == (4, True, 2)


def test_the_book_is_whole_after_a_sort_and_its_undoing(after):
    sort(after, "--undo", "--yes")
    assert claimpack("shop", "verify", folder=after).out.startswith("WHOLE")


@pytest.fixture
def worked_on(after):
    """The phone sorted, and then a picture of each claim worked on."""
    claimpack("photo", "shot", "26-0001", "photos/c.jpg", "whole unit", folder=after)
    claimpack("photo", "mark", "26-0002", "photos/f.jpg", "--ring", "0.4,0.6", folder=after)
    return after


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


def test_a_claim_that_takes_no_changes_keeps_its_pictures(after):
    happen(after, "26-0001", "withdrawn")
    ran = sort(after, "--undo", "--yes")
    assert (ran.code, "the claim is withdrawn" in ran.out) == (0, True)
    assert [len(shots(after, number)) for number in ("26-0001", "26-0002")] == [2, 0]


def test_a_sort_with_nothing_left_to_take_off_is_undone_unasked(shop):
    taken(shop, "b.jpg", "09:00:00", "26-0001/1")
    sort(shop, "../phone", "--yes")
    claimpack("photo", "remove", "26-0001", "1", folder=shop)
    first, second = (sort(shop, "--undo") for _ in range(2))
    assert (first.code, second.code, first.err) == (0, 0, "Nothing is left to take off.\n")


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


def test_a_sort_of_nothing_asks_nobody_and_is_done(shop):
    (shop.parent / "phone").mkdir()
    ran = sort(shop, "../phone")
    assert (ran.code, "0 to file" in ran.out, "--yes" in ran.err, "--undo" in ran.err) == (0, True, False, False)


def test_hidden_files_and_folders_are_passed_over(shop, phone):
    (phone / ".thumbnail.jpg").write_bytes(b"x")
    (phone / "more").mkdir()
    told = sort(shop, phone, "--json").json
    assert {each["file"] for each in (*told["filed"], *told["left"])} == {f"{name}.jpg" for name in "abcdef"}


@pytest.mark.parametrize("as_json", [False, True])
def test_a_sort_and_its_undoing_are_told_in_words_or_in_one_document(shop, phone, as_json):
    words = ["--yes", *["--json"][:as_json]]
    done, undone = sort(shop, phone, *words), sort(shop, "--undo", *words)
    assert [ran.out.startswith("{") for ran in (done, undone)] == [as_json, as_json]
    if as_json:
        assert (done.json["done"], undone.json["done"]) == (True, True)
        assert done.json["sort"] == undone.json["sort"]


def test_an_undoing_that_nobody_agrees_to_takes_nothing_off(after):
    ran = sort(after, "--undo")
    assert (ran.code, "taken off" in ran.out, len(shots(after, "26-0001"))) == (4, False, 2)


def test_scripts_read_that_there_is_no_sort_to_undo(shop):
    told = sort(shop, "--undo", "--json")
    assert (told.code, told.json["done"], told.json["sort"], told.json["claims"]) == (0, False, None, [])


def test_what_stays_is_not_told_before_anybody_agreed_to_the_undoing(worked_on):
    assert "stays on claim" not in sort(worked_on, "--undo").err
