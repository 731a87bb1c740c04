from __future__ import annotations

import re
from collections import Counter
from datetime import datetime
from itertools import pairwise, product

import pytest
from builders import a_claim
from drawn_packets import PHOTO, a_layout, a_shot, draw, page_texts, reader, text_of
from inked import words_on
from pypdfium2 import PdfDocument
from pypdfium2.raw import FPDF_PAGEOBJ_IMAGE

ONLY = ["photos"]


def photos(count: int) -> dict[str, list]:
    files = [f"photos/{n}.jpg" for n in range(count)]
    return {
        "claim": a_claim(photos=[{"file": file, "shot": f"shot {n}"} for n, file in enumerate(files)]),
        "photos": [a_shot(file, (800 + n, 600)) for n, file in enumerate(files)],
    }


def test_a_photo_is_told_with_its_shot_caption_and_day():
    drawn = draw(a_claim(photos=[PHOTO]), photos=[a_shot(taken=datetime(2026, 2, 23, 10, 12))])  # noqa: DTZ001
    assert "Photo 1 of 1 damage close up Piston skirt. taken 2026-02-23 10:12" in text_of(drawn)


def test_a_photo_without_a_day_says_so():
    assert "date taken not recorded" in text_of(draw(a_claim(photos=[PHOTO]), photos=[a_shot()]))


def test_notes_carry_the_numbers_of_their_marks():
    marks = [
        {"shape": "ring", "x": "0.5", "y": "0.5", "note": "crack"},
        {"shape": "box", "x": "0", "y": "0", "note": "void"},
    ]
    said = text_of(draw(a_claim(photos=[PHOTO | {"marks": marks}]), photos=[a_shot()]))
    assert "1 crack" in said.replace("\u00a0", "")
    assert "2 void" in said.replace("\u00a0", "")


@pytest.mark.parametrize(("a_page", "pages"), [(1, 6), (2, 3), (3, 2), (4, 2)])
def test_so_many_photos_go_on_a_page(a_page, pages):
    drawn = draw(layout=a_layout(sections=ONLY, photos_per_page=a_page), **photos(6))
    assert drawn.page_count == pages


def test_a_photo_whose_picture_is_not_there_says_so():
    assert "The picture is not in the packet." in text_of(draw(a_claim(photos=[PHOTO])))


def test_a_long_caption_is_printed_whole():
    words = " ".join(f"word{n}." for n in range(1500))
    drawn = draw(a_claim(photos=[PHOTO | {"caption": words}]), layout=a_layout(sections=ONLY), photos=[a_shot()])
    said = " ".join(" ".join(page.split()) for page in page_texts(drawn))
    assert all(f"word{n}." in said for n in range(1500))


def test_forty_photos_are_all_there():
    drawn = draw(layout=a_layout(sections=ONLY), **photos(40))
    assert sum(len(page.images) for page in reader(drawn).pages) == 40


@pytest.mark.parametrize(("count", "pages"), [(3, 1), (4, 2), (5, 2), (7, 3)])
def test_a_last_photo_alone_joins_the_page_before(count, pages):
    assert draw(layout=a_layout(sections=ONLY), **photos(count)).page_count == pages


def test_a_photo_a_page_stays_one_a_page():
    assert draw(layout=a_layout(sections=ONLY, photos_per_page=1), **photos(3)).page_count == 3


def test_a_caption_that_repeats_the_shot_is_not_printed_again():
    said = text_of(draw(a_claim(photos=[PHOTO | {"caption": "Damage close up"}]), photos=[a_shot()]))
    assert "Damage close up" not in said


def with_plate(typed, **read):
    area = {"x": "0.3", "y": "0.4", "width": "0.4", "height": "0.1"}
    plate = {"key": "unit.serials.unit", "text": "HC70-118-20417", "by": "letters", "area": area, **read}
    serials = [{"role": "unit", "value": typed}]
    claim = a_claim(unit__serials=serials, photos=[PHOTO | {"read": [plate]}])
    return draw(claim, layout=a_layout(sections=ONLY), photos=[a_shot()])


@pytest.mark.parametrize(
    ("typed", "read", "said"),
    [
        ("HC70-118-20417", {}, "The same was read off this picture."),
        ("HC70-118-2O417", {}, "Character 11: read 0; on the claim O. These look alike."),
        ("HC70-118-20477", {"confirmed": "HC70-118-20477"}, "a person who looked at it says HC70-118-20477."),
    ],
)
def test_beside_a_plate_stands_the_typed_serial_and_whether_they_agree(typed, read, said):
    told = text_of(with_plate(typed, **read))
    assert typed in told
    assert said in told


def test_the_part_that_was_read_is_the_same_picture_cut_off_at_a_frame():
    (page,) = reader(with_plate("HC70-118-20417")).pages
    assert len(page.images) == 1
    assert max(Counter(re.findall(rb"(\S+) Do", page.get_contents().get_data())).values()) == 2


def shown(count: int, size: tuple[int, int], **layout) -> list[tuple[list, list]]:
    """Of every page the places of its pictures, from the top, and what is said on it, from the body's lower left."""
    layout = a_layout(sections=ONLY, **layout)
    files = [f"photos/{n}.jpg" for n in range(count)]
    claim = a_claim(
        photos=[{"file": file, "shot": f"shot {n}", "caption": "Scored. " * 9} for n, file in enumerate(files)]
    )
    drawn = draw(claim, layout=layout, photos=[a_shot(file, (size[0] + n, size[1])) for n, file in enumerate(files)])
    left, bottom, _, height = layout.body
    return [
        (
            [
                (place[0] - left, place[1] - bottom, place[2] - left, place[3] - bottom)
                for place in (one.get_bounds() for one in page.get_objects(filter=[FPDF_PAGEOBJ_IMAGE]))
            ],
            [
                said._replace(
                    left=said.left - left, right=said.right - left, bottom=said.bottom - bottom, top=said.top - bottom
                )
                for said in words_on(page)
                if bottom < said.bottom < bottom + height
            ],
        )
        for page in PdfDocument(drawn.pdf)
    ]


LAID = list(product((2, 5), ((800, 600), (600, 1200), (1600, 500)), (1, 2)))


@pytest.mark.parametrize(("count", "size", "many"), LAID)
def test_pictures_stand_under_each_other_inside_the_margins_each_with_its_words_beside_or_under_it(count, size, many):
    layout = a_layout()
    for places, words in shown(count, size, photos_per_page=many):
        assert all(left > -0.5 and bottom > -0.5 and right < layout.body[2] + 0.5 for left, bottom, right, _ in places)
        assert all(above[1] - below[3] > 11 for above, below in pairwise(places))
        assert all(said.right < layout.body[2] + 0.5 for said in words)
        titles = [said for said in words if said.words.startswith("shot ")]
        assert len(titles) == len(places)
        for title, (_, bottom, right, top) in zip(titles, places, strict=True):
            is_beside = bottom < title.top < top and title.left > right + 13
            assert is_beside or (title.top < bottom and title.left < 2)
            # beside a picture as broad as it may be stands a column of 124 points
            assert not is_beside or size[0] < 1600 or title.left == pytest.approx(layout.body[2] - 124, abs=1.5)


@pytest.mark.parametrize(("shot", "named"), [("the damage", "1. the damage"), ("", "1. photos/damage.jpg")])
def test_a_photos_bookmark_has_its_number_and_its_shot_or_file(shot, named):
    drawn = draw(a_claim(photos=[PHOTO | {"shot": shot}]), layout=a_layout(sections=ONLY), photos=[a_shot()])
    assert [mark.title for mark in reader(drawn).outline[1]] == [named]


def test_a_last_photo_joins_the_page_before_only_where_none_gets_low():
    heights = [top - bottom for places, _ in shown(5, (600, 1200), photos_per_page=4) for _, bottom, _, top in places]
    assert min(heights) > 130


def test_what_was_read_of_a_number_that_the_claim_has_not_is_told_beside_that():
    assert "Serial (engine): none given" in text_of(with_plate("HC70-1", key="unit.serials.engine"))


def test_what_was_read_off_a_picture_is_told_beside_that_alone():
    other = {"file": "photos/whole.jpg", "shot": "whole unit"}
    read = [{"key": "unit.serials.unit", "text": "HC70-1", "by": "letters"}]
    claim = a_claim(photos=[PHOTO | {"read": read}, other])
    said = text_of(draw(claim, layout=a_layout(sections=ONLY), photos=[a_shot(), a_shot(other["file"], (640, 480))]))
    assert said.count("Serial (unit)") == 1


def test_what_was_read_of_no_serial_number_is_not_told_beside_one():
    read = [{"key": "unit.hours", "text": "118", "by": "letters"}]
    drawn = draw(a_claim(photos=[PHOTO | {"read": read}]), layout=a_layout(sections=ONLY), photos=[a_shot()])
    assert "Serial" not in text_of(drawn)
