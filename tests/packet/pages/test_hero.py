from __future__ import annotations

import pypdfium2
import pytest
from builders import a_claim, a_plan
from drawn_packets import PHOTO, a_draft, a_layout, a_shot, draw, page_texts, reader

from claimpack.packet.pages.hero import telling_photo

PLATE = {"file": "photos/plate.jpg", "shot": "serial plate"}
MARK = {"shape": "ring", "x": "0.5", "y": "0.5", "note": "crack"}


def chosen(*photos, shown=None):
    files = [photo["file"] for photo in photos] if shown is None else shown
    found = telling_photo(a_draft(a_claim(photos=photos), photos=[a_shot(file) for file in files]))
    return found and found.file


def test_the_damage_is_shown_first():
    assert chosen(PLATE, {"file": "b.jpg", "shot": "failed part"}, PHOTO) == PHOTO["file"]


def test_without_a_shot_of_the_damage_a_picture_with_marks_is_shown():
    assert chosen(PLATE, {"file": "b.jpg", "marks": [MARK]}, {"file": "c.jpg"}) == "b.jpg"


def test_a_photo_without_its_picture_is_not_chosen():
    assert chosen(PLATE, PHOTO, shown=["photos/plate.jpg"]) == "photos/plate.jpg"


def test_without_pictures_there_is_none():
    assert chosen() is None


def test_the_cover_has_the_picture_where_there_is_room():
    drawn = draw(a_claim(photos=[PHOTO]), photos=[a_shot()])
    assert len(reader(drawn).pages[0].images) == 1


def test_the_serial_plate_stands_beside_the_damage():
    drawn = draw(a_claim(photos=[PHOTO, PLATE]), photos=[a_shot(), a_shot(PLATE["file"], (640, 480))])
    assert len(reader(drawn).pages[0].images) == 2


@pytest.mark.parametrize(("photo", "named"), [(PHOTO, "damage close up"), ({"file": "photos/b.jpg"}, "photos/b.jpg")])
def test_the_picture_of_the_cover_is_named_by_its_shot_or_its_file(photo, named):
    cover = page_texts(draw(a_claim(photos=[photo]), photos=[a_shot(photo["file"])]))[0]
    assert [word in cover for word in ("damage close up", "photos/b.jpg")] == [
        named == "damage close up",
        named != "damage close up",
    ]


def test_a_cause_without_room_leaves_no_title_behind():
    windows = [{"id": f"w{n}", "covers": ["*"], "period": "P12M"} for n in range(7)]
    claim = a_claim(
        photos=[PHOTO],
        failure__cause="Scored on the exhaust side. " * 9,
        owner__address="\n".join("abcdefghijkl"),
    )
    pages = [page_texts(draw(claim, a_plan(window=windows), photos=[a_shot()]))[0]]
    assert [("Cause" in said) == ("Scored" in said) for said in pages] == [True]


def test_a_full_cover_goes_without_the_picture():
    windows = [{"id": f"w{n}", "covers": ["*"], "period": "P12M"} for n in range(9)]
    claim = a_claim(photos=[PHOTO], owner__address="\n".join("abcdefghijklmnopqrstuvw"))
    assert len(reader(draw(claim, a_plan(window=windows), photos=[a_shot()])).pages[0].images) == 0


@pytest.mark.parametrize(("cause", "told"), [("Scored. " * 3, False), ("Scored on the exhaust side. " * 30, True)])
def test_a_cover_that_cuts_the_words_short_says_where_they_are_in_full(cause, told):
    cover = page_texts(draw(a_claim(photos=[PHOTO], failure__cause=cause), photos=[a_shot()]))[0]
    assert ("In full under" in cover) == told


def test_the_picture_keeps_clear_of_the_contents_below_it():
    claim = a_claim(photos=[PHOTO], owner__address="\n".join("abcdefghijkl"))
    page = pypdfium2.PdfDocument(draw(claim, photos=[a_shot(size=(800, 1200))]).pdf)[0]
    bottoms = [piece.get_bounds()[1] for piece in page.get_objects() if piece.type == pypdfium2.raw.FPDF_PAGEOBJ_IMAGE]
    assert min(bottoms) > a_layout().body[1] + 5
