from __future__ import annotations

import pytest

from claimpack.file_contents import hash_of
from claimpack.packet.proving.page_changes import entry_changes, page_changes
from claimpack.packet.sealing.manifest import Manifest, PageRecord, PictureRecord


def a_page(text: str, *pictures: str, annotations: int = 0) -> PageRecord:
    return PageRecord(
        sha256=hash_of(f"{text} {pictures}".encode()),
        drawing=hash_of(text.encode()),
        pictures=tuple(hash_of(picture.encode()) for picture in pictures),
        annotations=hash_of(bytes(annotations)),
        annotation_count=annotations,
    )


def changes(before: str, after: str) -> list[str]:
    """What is said of pages named by one letter each."""
    made = Manifest(
        tool="claimpack", claim="1", page_count=len(before), data={}, pages=tuple(a_page(letter) for letter in before)
    )
    return list(page_changes(made, [a_page(letter) for letter in after]))


@pytest.mark.parametrize(
    ("before", "after", "said"),
    [
        ("abc", "abc", []),
        ("abc", "axc", ["page 2 was changed"]),
        ("abc", "xyz", ["page 1 was changed", "page 2 was changed", "page 3 was changed"]),
        ("abc", "abcx", ["page 4 was added"]),
        ("abc", "xabc", ["page 1 was added"]),
        ("abc", "ac", ["page 2 of the packet as it was made was removed"]),
        ("abc", "axyc", ["page 2 was changed", "page 3 was added"]),
        ("abcd", "axd", ["page 2 was changed", "page 3 of the packet as it was made was removed"]),
        ("abc", "bca", ["page 3 is out of place: it was page 1"]),
        ("abcd", "dabx", ["page 1 is out of place: it was page 4", "page 4 was changed"]),
        ("aab", "aab", []),
        ("", "x", ["page 1 was added"]),
        ("x" + "a" * 250, "a" * 250, ["page 1 of the packet as it was made was removed"]),
    ],
)
def test_pages_are_compared_in_their_order(before, after, said):
    assert changes(before, after) == said


def of_one_page(was: PageRecord, now: PageRecord) -> list[str]:
    pictures = [PictureRecord(file=f"photos/{name}.jpg", sha256=hash_of(name.encode()), pages=(1,)) for name in "ab"]
    made = Manifest(tool="claimpack", claim="1", page_count=1, data={}, pages=(was,), pictures=tuple(pictures))
    return list(page_changes(made, [now]))


def test_a_picture_taken_away_is_removed():
    assert of_one_page(a_page("x", "a", "b"), a_page("x", "a")) == ["the picture photos/b.jpg on page 1 was removed"]


def test_a_picture_more_is_added():
    assert of_one_page(a_page("x", "a"), a_page("x", "a", "c")) == ["a picture was added to page 1"]


def test_a_picture_without_a_file_is_still_told():
    found = of_one_page(a_page("x", "logo"), a_page("x", "c"))
    assert found == ["the picture (without a name) on page 1 was replaced"]


def test_an_annotation_on_a_page_left_alone_is_told():
    assert of_one_page(a_page("x"), a_page("x", annotations=1)) == ["an annotation was added to page 1"]


def test_entries_that_count_pages_are_silent_when_pages_moved():
    made, now = {"/Outlines": "1", "/AcroForm": "1"}, {"/Outlines": "2"}
    assert list(entry_changes(made, now, pages_moved=True)) == ["a form was removed"]


def test_an_entry_without_a_word_is_named_by_its_key():
    assert list(entry_changes({}, {"/Odd": "1"}, pages_moved=False)) == ["the entry /Odd of the document was added"]
