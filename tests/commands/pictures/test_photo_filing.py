from __future__ import annotations

from pathlib import Path

import pytest
from shop_builders import a_shop, kept_claim, photographed, the_desk

from claimpack.commands.pictures.photo_filing import (
    Incoming,
    alike_in_words,
    claims_in_words,
    doubts,
    take_in,
)
from claimpack.evidence.pictures.likeness import Seen

ALIKE = "f0e1d2c3b4a59687"


def seen(mark="ab", likeness=""):
    """What was seen of a picture of this content."""
    return Seen(sha256=mark * 32, bytes=1000, taken=None, likeness=likeness, width=900, height=700)


def brought(name="a.jpg", shot="", caption="", **facts):
    return Incoming(name, Path("/phone") / name, seen(**facts), shot, caption)


@pytest.fixture
def shop(tmp_path):
    return a_shop(tmp_path, "26-0001", "26-0002")


def taken(shop, *incoming, number="26-0001", sort=""):
    """What became of pictures put on a claim."""
    with the_desk(shop).changing(number) as changing:
        return take_in(changing, incoming, "", sort)


def test_a_picture_gets_a_place_and_a_name_nobody_has(shop):
    added = taken(shop, brought("a.jpg"), brought("A.JPG", mark="cd")).added
    assert [(place, photo.file) for place, photo, _ in added] == [(1, "photos/a.jpg"), (2, "photos/A-2.JPG")]


def test_one_content_is_added_once_though_it_comes_twice(shop):
    result = taken(shop, brought("a.jpg"), brought("b.jpg"))
    assert ([each.file for each, _ in result.there], len(kept_claim(shop).photos)) == (["b.jpg"], 1)


def test_where_nothing_is_added_the_claim_is_not_changed(shop):
    taken(shop, brought())
    before = the_desk(shop).book.get("26-0001").revision
    taken(shop, brought("again.jpg"))
    assert the_desk(shop).book.get("26-0001").revision == before


def test_a_picture_that_looks_like_another_of_the_claim_is_added_and_told(shop):
    taken(shop, brought("a.jpg", likeness=ALIKE))
    result = taken(shop, brought("b.jpg", mark="cd", likeness=ALIKE))
    assert [(place, like) for place, _, like in result.alike] == [(2, "photos/a.jpg")]
    assert "claimpack photo remove 26-0001 2" in alike_in_words("26-0001", result)[0]


def test_pictures_of_a_sort_carry_its_mark_in_the_history(shop):
    taken(shop, brought(), sort="s-1")
    assert the_desk(shop).book.history("26-0001")[-1].facts["sort"] == "s-1"


def test_a_picture_that_is_on_another_claim_is_doubted(shop, tmp_path):
    taken(shop, brought(), number="26-0002")
    again = brought("b.jpg")._replace(path=photographed(tmp_path / "b.jpg"))
    assert any("26-0002" in doubt for doubt in doubts(the_desk(shop), "26-0001", [again]))


@pytest.mark.parametrize(
    ("numbers", "said"), [(["26-0001"], "claim 26-0001"), (["26-0001", "26-0002"], "2 claims")], ids=["one", "two"]
)
def test_one_claim_is_named_and_several_are_counted(numbers, said):
    assert claims_in_words(numbers) == said
