from __future__ import annotations

import pypdfium2
import pytest
from builders import a_claim, a_plan
from drawn_packets import PHOTO, a_draft, a_layout, a_shot, draw, page_texts, reader
from inked import page_of, words_on
from printed import overprinted_on

from claimpack.packet.pages.hero import hero_picture, telling_photo

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


def pictures(page) -> list[tuple[float, float, float, float]]:
    """Left, bottom, right and top of every picture on a page."""
    return [one.get_bounds() for one in page.get_objects(filter=[pypdfium2.raw.FPDF_PAGEOBJ_IMAGE])]


SHAPES = [((800, 600), (640, 480)), ((600, 1200), (640, 200)), ((1600, 500), (300, 900)), ((90, 90), (60, 60))]


@pytest.fixture(scope="module", params=[(shape, room) for shape in SHAPES for room in (90, 160, 400)], ids=str)
def beside(request):
    """The damage and the plate with what is told of them, alone on a page."""
    (damage, plate), room = request.param
    photos = [PHOTO | {"marks": [MARK | {"note": "cracked from the intake port to the skirt"}]}, PLATE]
    claim = a_claim(photos=photos, failure__cause="Scored on the exhaust side. " * 9)
    shots = [a_shot(size=damage), a_shot(PLATE["file"], plate)]
    draft = a_draft(claim, layout=a_layout(sections=["cover"]), photos=shots)
    return page_of(hero_picture(draft), draft.width, room)


def test_the_damage_stands_at_the_left_and_the_plate_in_the_upper_right_corner(beside):
    width, height = beside.get_size()
    damage, plate = pictures(beside)
    assert (damage[0], damage[1], damage[3]) == pytest.approx((0, 0, height), abs=0.1)
    assert (plate[2], plate[3]) == pytest.approx((width, height), abs=0.1)
    assert damage[2] <= width * 0.62 + 0.1
    assert plate[0] - damage[2] > 12 + (width - damage[2] - 12) * 0.4
    assert plate[3] - plate[1] <= height * 0.4 + 0.1


def test_the_words_stand_between_the_two_and_under_the_plate(beside):
    damage, plate = pictures(beside)
    told = [one for one in words_on(beside) if one.left > damage[2]]
    assert min(one.left for one in told) == pytest.approx(damage[2] + 12, abs=1.5)
    assert [one for one in told if one.top > plate[1] and one.right > plate[0] - 11] == []
    assert [one for one in told if one.right > plate[2] or one.bottom < 0] == []
    assert overprinted_on(beside) == []


def test_the_picture_is_told_by_its_number_among_all(beside):
    assert words_on(beside)[1].words in ("Photo 1 of 2", "PHOTO 1 OF 2")


@pytest.mark.parametrize("shown", [True, False])
def test_the_pictures_lead_to_their_pages_where_the_packet_has_them(shown):
    layout = a_layout(sections=["cover", "photos"] if shown else ["cover"])
    drawn = draw(a_claim(photos=[PHOTO, PLATE]), layout=layout, photos=[a_shot(), a_shot(PLATE["file"])])
    assert len(reader(drawn).pages[0].get("/Annots", [])) == (3 if shown else 0)


def test_beside_the_damage_stands_a_plate_and_no_other_picture():
    other = {"file": "photos/whole.jpg", "shot": "whole unit"}
    shots = [a_shot(), a_shot(other["file"], (640, 480))]
    drawn = draw(a_claim(photos=[PHOTO, other]), layout=a_layout(sections=["cover"]), photos=shots)
    assert len(reader(drawn).pages[0].images) == 1


def test_a_plate_that_shows_the_damage_is_not_shown_twice():
    photo = PHOTO | {"shot": "plate with damage"}
    assert len(reader(draw(a_claim(photos=[photo]), photos=[a_shot()])).pages[0].images) == 1


@pytest.mark.parametrize(
    ("room", "told"),
    [(400, ["Complaint", "Cause", "Correction"]), (80, ["Complaint", "Cause", "Correction"]), (60, [])],
)
def test_without_a_picture_the_words_have_the_room_where_there_is_an_inch(room, told):
    long = {f"failure__{key}": "Scored on the exhaust side. " * 60 for key in ("complaint", "cause", "correction")}
    draft = a_draft(a_claim(**long))
    piece = hero_picture(draft)
    if not told:
        assert piece.wrap(draft.width, room) == (0, 0)
        return
    said = [one.words.split()[0] for one in words_on(page_of(piece, draft.width, room)) if one.face.endswith("Bold")]
    assert [word for word in said if word in ("Complaint", "Cause", "Correction")] == told


@pytest.mark.parametrize(("count", "is_cut"), [(420, False), (421, True)])
def test_a_cause_of_420_letters_is_told_whole_where_there_is_room(count, is_cut):
    draft = a_draft(a_claim(failure__cause=("worn " * 99)[: count - 1] + "!"))
    said = " ".join(one.words for one in words_on(page_of(hero_picture(draft), draft.width, 400)))
    assert ("In full under" in said, "!" in said) == (is_cut, not is_cut)


def test_where_there_is_little_room_beside_the_picture_the_cause_alone_is_told():
    long = {f"failure__{key}": "Scored on the exhaust side. " * 60 for key in ("complaint", "cause", "correction")}
    shot = a_shot(size=(1600, 500))
    draft = a_draft(a_claim(photos=[PHOTO], **long), layout=a_layout(sections=["cover"]), photos=[shot])
    said = [one.words.split()[0] for one in words_on(page_of(hero_picture(draft), draft.width, 90))]
    assert [word for word in said if word in ("Complaint", "Cause", "Correction")] == ["Cause"]
