from __future__ import annotations

from datetime import datetime, timedelta, timezone

import pytest

from claimpack.core.facts.pictures import Mark, Photo
from claimpack.core.steps.photo_sorting import PhotoToSort, claim_in, sort_pictures, sort_undone

NINE = datetime(2026, 3, 1, 9, 0)  # noqa: DTZ001
GAP = timedelta(minutes=20)
STATES = {"26-0001": "draft", "26-0002": "filed", "26-0003": "paid"}


def shot(file, minutes, *codes, seconds=0):
    """A picture taken so long after nine."""
    return PhotoToSort(file, NINE + timedelta(minutes=minutes, seconds=seconds), codes)


def sorting(*pictures, gap=GAP):
    return sort_pictures(pictures, STATES, gap)


def claims(*pictures, gap=GAP):
    return {each.file: each.claim for each in sorting(*pictures, gap=gap).filed}


def left(*pictures):
    return {each.file: each.because for each in sorting(*pictures).left}


TAG = shot("tag", 0, "26-0001/1")


def test_pictures_belong_to_the_tag_before_them():
    assert claims(TAG, shot("a", 1), shot("b", 2)) == dict.fromkeys(("tag", "a", "b"), "26-0001")


def test_the_next_tag_takes_over():
    assert claims(TAG, shot("a", 1), shot("next", 2, "26-0002/1"), shot("b", 3))["b"] == "26-0002"


def test_the_picture_that_shows_the_tag_says_so():
    assert [each.tag for each in sorting(TAG, shot("a", 1)).filed] == [True, False]


def test_pictures_come_in_order_of_time_whatever_their_names():
    assert claims(shot("a", 5), shot("z", 0, "26-0001/1")) == {"z": "26-0001", "a": "26-0001"}


@pytest.mark.parametrize(
    ("seconds", "filed"), [(-1, True), (0, True), (1, False)], ids=["a second less", "the gap", "a second more"]
)
def test_a_gap_of_just_so_long_still_counts(seconds, filed):
    assert ("a" in claims(TAG, shot("a", 20, seconds=seconds))) is filed


def test_the_gap_is_counted_from_picture_to_picture():
    assert claims(TAG, shot("a", 15), shot("b", 30), shot("c", 45))["c"] == "26-0001"


def test_after_a_gap_everything_waits_for_the_next_tag():
    assert left(TAG, shot("a", 21), shot("b", 22)) == {
        "a": "taken more than 20 min after the picture before it",
        "b": "no tag was seen before it",
    }


def test_a_tag_after_a_gap_begins_anew():
    assert claims(TAG, shot("next", 90, "26-0002/1"), shot("a", 91))["a"] == "26-0002"


def test_what_comes_before_any_tag_is_left_alone():
    assert left(shot("a", -1), TAG).keys() == {"a"}


def test_a_picture_without_a_time_is_left_alone():
    assert left(TAG, PhotoToSort("a", None), PhotoToSort("b", None, ("26-0001/1",))) == dict.fromkeys(
        ("a", "b"), "the camera wrote no time"
    )


def test_the_tag_of_an_unknown_claim_and_what_follows_it_is_left_alone():
    assert left(TAG, shot("strange", 1, "26-0999/1"), shot("a", 2)) == {
        "strange": "there is no claim 26-0999 in the book",
        "a": "follows strange: there is no claim 26-0999 in the book",
    }


def test_a_settled_claim_takes_no_pictures():
    assert left(shot("tag", 0, "26-0003/1")) == {"tag": "claim 26-0003 is paid"}


def test_two_claims_in_one_frame_decide_nothing():
    assert left(shot("both", 0, "26-0001/1", "26-0002/1"), shot("a", 1)) == {
        "both": "shows the tags of 26-0001 and 26-0002",
        "a": "follows both: shows the tags of 26-0001 and 26-0002",
    }


def test_two_parts_of_one_claim_in_one_frame_are_one_claim():
    assert claims(shot("both", 0, "26-0001/1", "26-0001/2")) == {"both": "26-0001"}


def test_other_codes_in_the_frame_are_no_tags():
    assert claims(TAG, shot("box", 1, "4006381333931"))["box"] == "26-0001"


def test_pictures_of_one_second_follow_their_names():
    assert claims(shot("a", 0), shot("b", 0, "26-0001/1"), shot("c", 0)) == {"b": "26-0001", "c": "26-0001"}


def zoned(file, hour, offset, *codes):
    at = datetime(2026, 3, 1, hour, 0, tzinfo=timezone(timedelta(hours=offset)))
    return PhotoToSort(file, at, codes)


def test_offsets_put_pictures_in_their_true_order():
    assert claims(zoned("tag", 15, 1, "26-0001/1"), zoned("then", 9, -5)) == {"tag": "26-0001", "then": "26-0001"}


def test_where_one_camera_told_no_offset_the_clocks_are_compared():
    assert claims(zoned("tag", 9, -5, "26-0001/1"), shot("a", 1)) == {"tag": "26-0001", "a": "26-0001"}


def test_no_pictures_are_sorted_into_nothing():
    assert sorting() == ((), ())


@pytest.mark.parametrize(
    ("code", "claim"),
    [
        ("26-0041/1", "26-0041"),
        ("A/12", "A"),
        ("26-0041", None),
        ("26-0041/0", None),
        ("/1", None),
        ("https://example.com/1", None),
        ("26-0041/1 ", None),
        (f"{'9' * 25}/1", None),
    ],
)
def test_a_tags_code_is_a_claim_number_and_an_index(code, claim):
    assert claim_in(code) == claim


PUT = [Photo(file="photos/a.jpg", shot="tag"), Photo(file="photos/b.jpg")]


def test_pictures_nobody_worked_on_are_taken_off():
    assert sort_undone(PUT, PUT) == (("photos/a.jpg", "photos/b.jpg"), (), ())


@pytest.mark.parametrize(
    ("changes", "because"),
    [
        ({"shot": "whole unit"}, "named since"),
        ({"caption": "The plate."}, "captioned since"),
        ({"marks": (Mark(shape="ring", x="0.4", y="0.6"),)}, "marked since"),
        ({"shot": "whole unit", "caption": "All of it."}, "named, captioned since"),
    ],
)
def test_a_picture_worked_on_since_stays(changes, because):
    undone = sort_undone(PUT, [PUT[0], PUT[1].model_copy(update=changes)])
    assert (undone.off, undone.left) == (("photos/a.jpg",), (("photos/b.jpg", because),))


def test_a_picture_that_is_off_the_claim_is_neither_taken_off_nor_left():
    assert sort_undone(PUT, PUT[:1]) == (("photos/a.jpg",), (), ("photos/b.jpg",))


def test_a_claim_that_takes_no_changes_keeps_every_picture():
    assert {each.because for each in sort_undone(PUT, PUT, "the claim is paid").left} == {"the claim is paid"}


def test_a_claim_for_the_rest_takes_what_no_tag_speaks_for():
    odd = PhotoToSort("odd", None, ("26-0009/1",))
    found = sort_pictures([shot("early", 0), PhotoToSort("timeless", None), odd], STATES, GAP, "26-0002")
    assert [(each.file, each.claim) for each in found.filed] == [("early", "26-0002"), ("timeless", "26-0002")]
    assert [each.file for each in found.left] == ["odd"]
    assert not any(each.tag for each in found.filed)
