from __future__ import annotations

import pytest
from phones import a_phone, shots, sort, taken
from running import claimpack
from shop_builders import a_picture, a_shop, happen, photographed


@pytest.fixture
def shop(tmp_path):
    return a_shop(tmp_path, "26-0001", "26-0002")


@pytest.fixture
def phone(shop):
    return a_phone(shop)


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
    assert left == {
        "a.jpg": "no tag was seen before it",
        "d.jpg": "taken more than 20 min after the picture before it",
        "notes.txt": "is not a picture, whatever its name says",
    }


def test_a_longer_gap_reaches_further(shop, phone):
    sort(shop, phone, "--yes", "--gap", "30")
    assert [file for file, _ in shots(shop, "26-0001")] == ["photos/b.jpg", "photos/c.jpg", "photos/d.jpg"]


def test_the_tag_of_an_unknown_claim_is_left_alone(shop):
    taken(shop, "a.jpg", "09:00:00", "26-0999/1")
    ran = sort(shop, "../phone", "--yes")
    assert "there is no claim 26-0999 in the book" in ran.out


def test_a_picture_without_a_time_is_left_alone(shop, phone):
    photographed(phone / "z.jpg", a_picture(9))
    assert "z.jpg  the camera wrote no time" in sort(shop, phone, "--yes").out


def test_nothing_is_filed_unasked(shop, phone):
    ran = sort(shop, phone)
    assert (ran.code, "--yes" in ran.err, shots(shop, "26-0001")) == (4, True, [])


@pytest.mark.parametrize(("typed", "filed"), [("y\n", 2), ("yes\n", 2), ("n\n", 0), ("\n", 0), ("", 0)])
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


def test_sorting_again_files_nothing_twice(shop, phone):
    sort(shop, phone, "--yes")
    ran = sort(shop, phone, "--yes")
    assert ("0 to file, 4 there already" in ran.out, len(shots(shop, "26-0001"))) == (True, 2)


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
