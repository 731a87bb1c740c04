from __future__ import annotations

from pathlib import Path

import pytest
from claim_folders import CLAIM
from gathered_cases import a_case
from running import NOW, claimpack
from shop_builders import a_picture, a_shop, happen, kept_claim, photographed, the_desk

from claimpack.book.tables.rows import KeptFile
from claimpack.commands.desk.gather import gather
from claimpack.commands.desk.world import World
from claimpack.commands.pictures.photo_filing import (
    Incoming,
    alike_in_words,
    claims_in_words,
    doubts,
    index_of,
    picture_notes,
    take_in,
)
from claimpack.errors import NotFound
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


def test_a_picture_of_no_likeness_looks_like_none(shop):
    assert taken(shop, brought("a.jpg"), brought("b.jpg", mark="cd")).alike == ()


def test_the_content_of_a_paper_is_told_and_of_a_picture_beside_it_is_not(shop):
    with the_desk(shop).changing("26-0001") as changing:
        kept = KeptFile("papers/receipt.pdf", "ab" * 32, 1000)
        changing.keep(changing.claim, files=[kept], why="")
    result = taken(shop, brought("a.jpg"), brought("b.jpg", mark="cd"))
    assert [(place, file) for place, _, file in result.papers] == [(1, "papers/receipt.pdf")]


@pytest.fixture
def lacking(tmp_path):
    """A shop with a claim that names two pictures nobody has."""
    read = [{"key": "unit.serials.unit", "text": "HC70-1", "by": "code"}]
    named = {"file": "photos/plate.jpg", "shot": "serial plate", "caption": "Left.", "read": read}
    return a_shop(tmp_path, photos=[{"file": "photos/first.jpg"}, named])


def test_a_missing_picture_keeps_its_place_and_what_is_said_of_it_but_not_what_was_read_off_it(lacking):
    ((place, photo, _),) = taken(lacking, brought("PLATE.jpg")).added
    assert (place, photo.file, photo.shot, photo.caption, photo.read) == (
        2,
        "photos/plate.jpg",
        "serial plate",
        "Left.",
        (),
    )
    assert [each.file for each in kept_claim(lacking).photos] == ["photos/first.jpg", "photos/plate.jpg"]


def test_what_is_said_anew_of_a_missing_picture_counts(lacking):
    ((_, photo, _),) = taken(lacking, brought("plate.jpg", shot="whole unit")).added
    assert (photo.shot, photo.caption) == ("whole unit", "Left.")


@pytest.mark.parametrize(
    ("named", "place"), [("1", 0), ("2", 1), ("plate.jpg", 1), ("photos/PLATE.jpg", 1), ("first.jpg", 0)]
)
def test_a_picture_is_found_by_number_or_name(lacking, named, place):
    assert index_of(kept_claim(lacking), named) == place


@pytest.mark.parametrize("named", ["0", "3", "late.jpg", "photos/"])
def test_a_picture_of_no_such_name_or_number_is_not_found(lacking, named):
    with pytest.raises(NotFound):
        index_of(kept_claim(lacking), named)


def test_a_picture_on_this_claim_alone_is_no_picture_of_another(shop, tmp_path):
    taken(shop, brought())
    again = brought("b.jpg")._replace(path=photographed(tmp_path / "b.jpg"))
    assert not any("claim" in doubt for doubt in doubts(the_desk(shop), "26-0001", [again]))


@pytest.mark.parametrize(("called", "name"), [("", "a.jpg"), ("plate.jpg", "plate.jpg")])
def test_a_picture_is_filed_under_what_it_is_called(called, name):
    assert brought("a.jpg")._replace(called=called).name == name


def noted(case):
    """The pictures that are doubted, and why."""
    return [(file, doubt.key) for file, doubt in picture_notes(case)]


RETURNED = CLAIM.replace("repaired = 2026-02-24", "repaired = 2026-02-24\nreturned = 2026-02-25")


@pytest.mark.parametrize(
    ("text", "shots", "doubted"),
    [(CLAIM, ("damage",), {"photos/0.jpg"}), (RETURNED, ("damage",), set()), (CLAIM, (), set())],
    ids=["in the shop", "the unit has left", "no picture"],
)
def test_the_pictures_of_a_folder_are_doubted_as_long_as_they_can_be_taken_again(tmp_path, text, shots, doubted):
    assert {file for file, _ in noted(a_case(tmp_path, text, shots=shots))} == doubted


def test_the_pictures_of_the_book_that_are_there_are_doubted_until_the_claim_is_filed(tmp_path):
    shop = a_shop(tmp_path, photos=[{"file": "photos/gone.jpg"}])
    files = [photographed(tmp_path / f"{edge}.jpg", a_picture(1, (edge, edge * 3 // 4))) for edge in (640, 480)]
    claimpack("photo", "add", "26-0001", *files, folder=shop)
    notes = [noted(gather(World(folder=shop, environ={}, clock=NOW), "26-0001", None, ""))]
    happen(shop, "26-0001", "filed", claimed="150.00", currency="USD")
    notes.append(noted(gather(World(folder=shop, environ={}, clock=NOW), "26-0001", None, "")))
    blurred = [(f"photos/{path.name}", "blurred") for path in files]
    assert notes == [[*blurred, ("photos/480.jpg", "small"), ("photos/480.jpg", "alike")], []]
