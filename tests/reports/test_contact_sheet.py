import io
import itertools
import re

import numpy as np
import pikepdf
import pypdfium2
import pytest
from claim_folders import picture
from PIL import Image
from printed import overprinted, page_texts, places_of
from pypdfium2.raw import FPDF_PAGEOBJ_IMAGE

from claimpack.printing.papers import PAPERS
from claimpack.reports.contact_sheet import (
    SheetPicture,
    SheetTitles,
    cells,
    contact_sheet_pdf,
    contact_sheet_png,
    grid_for,
)

ASKED = ("serial plate", "whole unit")
TITLES = SheetTitles("Claim 26-0001", "Halden CS-70", "Quarry Road", "Quarry Road")
LETTER = PAPERS["letter"]


def shown(number, shot, **changes):
    taken = SheetPicture(number, shot, f"photos/{number}.jpg", "2026-02-05 09:12", "", picture(160, 120), 160, 120)
    return taken._replace(**changes)


def places(*pictures):
    return [(cell.title, cell.picture.number if cell.picture else None) for cell in cells(pictures, ASKED)]


def pages(*pictures):
    return page_texts(contact_sheet_pdf(cells(pictures, ASKED), TITLES, LETTER))


def test_shots_stand_in_the_order_of_the_plan_and_gaps_stay_empty():
    assert places(shown(1, "damage"), shown(2, "Whole unit")) == [
        ("serial plate", None),
        ("whole unit", 2),
        ("damage", 1),
    ]


def test_every_picture_of_a_shot_stands_there():
    assert places(shown(1, "serial plate"), shown(2, "serial plate"))[:2] == [("serial plate", 1), ("serial plate", 2)]


def test_a_picture_without_a_shot_is_shown_and_told():
    assert places(shown(1, ""))[-1] == ("no shot named", 1)


def test_the_pdf_tells_number_file_time_and_doubt():
    said = pages(shown(3, "serial plate", doubt="is too dark"))[0]
    wanted = ("3 serial plate", "photos/3.jpg", "2026-02-05 09:12 · is too dark", "whole unit missing", "page 1 of 1")
    assert [word for word in wanted if word not in said] == []


def test_many_pictures_go_on_overleaf():
    found = pages(*(shown(number, "") for number in range(1, 30)))
    assert (len(found), f"page {len(found)} of {len(found)}" in found[-1]) == (3, True)


def test_the_same_pictures_give_the_same_bytes():
    placed = cells([shown(1, "")], ASKED)
    assert contact_sheet_pdf(placed, TITLES, LETTER) == contact_sheet_pdf(placed, TITLES, LETTER)


def test_the_png_shows_the_picture_and_an_empty_frame():
    placed = cells([shown(1, "serial plate", jpeg=picture(160, 120, (200, 0, 0)))], ASKED)
    sheet = Image.open(io.BytesIO(contact_sheet_png(placed, TITLES, LETTER)))
    red = [place for place in (250, 800) if sheet.getpixel((300, place))[0] > 150 > sheet.getpixel((300, place))[1]]
    assert (sheet.size, red) == ((935, 1210), [250])


@pytest.mark.parametrize(("count", "columns"), [(1, 1), (4, 2), (6, 2), (7, 3), (9, 3), (30, 3)])
def test_few_pictures_are_as_large_as_the_page_allows(count, columns):
    found = grid_for(count, LETTER)
    assert (found[0], found[1] > 160) == (columns, True)


def test_no_words_of_a_sheet_stand_on_others():
    pictures = [shown(number, "damage", file=f"photos/{number}{'-long' * 20}.jpg") for number in range(1, 14)]
    assert overprinted(contact_sheet_pdf(cells(pictures, ASKED), TITLES, LETTER)) == []


SHEETS = {
    "few": [shown(1, "serial plate"), shown(2, "damage", jpeg=picture(60, 150), width=60, height=150)],
    "many": [shown(number, "damage", doubt="is too dark") for number in range(1, 14)],
}


@pytest.fixture(params=SHEETS, scope="module")
def drawn(request):
    """The pages of a sheet: where their words, their pictures and the frames of what is missing stand."""
    content = contact_sheet_pdf(cells(SHEETS[request.param], ASKED), TITLES, LETTER)
    with pikepdf.open(io.BytesIO(content)) as pdf:
        steps = [pikepdf.parse_content_stream(page, "re") for page in pdf.pages]
    frames = [[[float(side) for side in step.operands] for step in of_page] for of_page in steps]
    document = pypdfium2.PdfDocument(content)
    images = [[image.get_bounds() for image in page.get_objects(filter=[FPDF_PAGEOBJ_IMAGE])] for page in document]
    return list(zip(map(places_of, document), images, frames, strict=True))


def baselines(words, left):
    """What is said in the column that begins there, without the head and the foot, from the top."""
    column = [(said, place) for said, place in words if abs(place[0] - left) < 2 and 40 < place[1] < 792 - 40 - 50]
    return [(said, place[1]) for said, place in sorted(column, key=lambda word: -word[1][1])]


def test_pictures_keep_to_the_margins_and_to_the_shape_they_were_taken_in(drawn):
    shapes = [picture.width / picture.height for pictures in SHEETS.values() for picture in pictures]
    for _, images, _ in drawn:
        for left, bottom, right, top in images:
            assert 39.9 <= left < right <= 612 - 39.9
            assert 40 <= bottom < top <= 792 - 40 - 55.9
            assert min(abs((right - left) / (top - bottom) - shape) for shape in shapes) < 0.01


def test_rows_of_pictures_are_level_and_columns_equally_far_apart(drawn):
    for _, images, frames in drawn:
        places = [place[:2] for place in images] + [(x, y) for x, y, *_ in frames]
        across, down = (sorted({round(place[side], 1) for place in places}) for side in (0, 1))
        assert len({round(after - one) for one, after in itertools.pairwise(across)}) == 1
        assert len({round(after - one) for one, after in itertools.pairwise(down)}) <= 1
        assert len(places) == len(set(places)) > len(across) * (len(down) - 1)


def test_what_is_told_of_a_picture_stands_below_it_line_by_line(drawn):
    for words, images, _ in drawn:
        for left, bottom, *_ in images:
            below = [(said, base) for said, base in baselines(words, left) if bottom - 36 < base < bottom]
            kinds = [r"\d+ +\w[\w ]+", r"photos/\d+\.jpg", "2026-02-05 09:12.*"]
            assert [bool(re.fullmatch(kind, said)) for kind, (said, _) in zip(kinds, below, strict=True)] == [True] * 3
            assert [high - low for (_, high), (_, low) in itertools.pairwise(below)] == pytest.approx(
                [10.5] * 2, abs=2.6
            )


def test_a_missing_shot_is_a_frame_as_large_as_a_picture_with_its_words_below(drawn):
    words, images, frames = drawn[0]
    left, bottom, wide, high = frames[-1]
    said = [said for said, base in baselines(words, left) if bottom - 25 < base < bottom]
    assert said == ["whole unit", "missing"]
    assert max(place[2] - place[0] for place in images) <= wide + 0.01
    assert max(place[3] - place[1] for place in images) == pytest.approx(high, rel=0.1)


def test_pictures_and_frames_lie_over_no_other_and_over_no_words(drawn):
    for words, images, frames in drawn:
        boxes = [*images, *((x, y, x + wide, y + high) for x, y, wide, high in frames)]
        inked = [*boxes, *(place for _, place in words)]
        for one, other in ((box, other) for box in boxes for other in inked if other is not box):
            assert not all(one[side] + 0.1 < other[side + 2] and other[side] + 0.1 < one[side + 2] for side in (0, 1))


def test_the_head_stands_above_all_and_the_foot_below(drawn):
    for words, images, _ in drawn:
        title, below, foot = (next(at for said, at in words if said.startswith(told)) for told in TITLES[:3])
        assert 792 - 40 + 1 > title[3] > title[1] > below[3] > below[1] > max(place[3] for place in images)
        assert min(place[1] for place in images) > 40 > foot[3] > foot[1] > 10


@pytest.mark.parametrize("pictures", SHEETS.values(), ids=SHEETS)
def test_pdf_and_png_show_the_same(pictures):
    placed = cells(pictures, ASKED)
    png = Image.open(io.BytesIO(contact_sheet_png(placed, TITLES, LETTER))).convert("L")
    pages = pypdfium2.PdfDocument(contact_sheet_pdf(placed, TITLES, LETTER))
    drawn = [page.render(scale=110 / 72).to_pil().convert("L").resize((935, 1210)) for page in pages]
    assert png.size == (935, 1210 * len(drawn))
    for number, page in enumerate(drawn):
        both = (page, png.crop((0, 1210 * number, 935, 1210 * (number + 1))))
        coarse = [np.asarray(one.resize((85, 110), Image.Resampling.BOX), dtype=float) for one in both]
        assert np.abs(coarse[0] - coarse[1]).max() < 70
        assert np.abs(coarse[0] - coarse[1]).mean() < 2


@pytest.mark.parametrize("paper", ["letter", "legal", "a4"])
def test_as_many_pictures_as_fit_are_on_a_page(paper):
    bottoms = [min(place[1] for place in images) for images in of_sheet(30, paper)[:-1]]
    assert bottoms
    # under the lowest row there is no room for one more of a picture, 48 points of words and a gap
    row = grid_for(30, PAPERS[paper])[2] + 48
    assert [40 < bottom - 36 < 40 + row for bottom in bottoms] == [True] * len(bottoms)


def of_sheet(count, paper):
    """The places of the pictures of a sheet of so many."""
    content = contact_sheet_pdf(cells([shown(number, "") for number in range(count)], ()), TITLES, PAPERS[paper])
    pages = pypdfium2.PdfDocument(content)
    return [[image.get_bounds() for image in page.get_objects(filter=[FPDF_PAGEOBJ_IMAGE])] for page in pages]


@pytest.mark.parametrize("count", [1, 4, 30])
def test_columns_take_all_the_room_between_the_margins(count):
    columns, width, _ = grid_for(count, LETTER)
    assert columns * width + (columns - 1) * 12 == pytest.approx(612 - 2 * 40)


def test_a_long_title_ends_at_the_margin():
    content = contact_sheet_pdf(cells(SHEETS["few"], ASKED), TITLES._replace(title="Claim 26-0001 " * 20), LETTER)
    assert max(place[2] for _, place in places_of(pypdfium2.PdfDocument(content)[0])) <= 612 - 40


@pytest.mark.parametrize(("shop", "author"), [("Quarry Road", "Quarry Road"), ("", "claimpack")])
def test_the_sheet_is_by_the_shop_that_took_the_pictures_where_it_has_a_name(shop, author):
    content = contact_sheet_pdf(cells([], ASKED), TITLES._replace(author=shop), LETTER)
    assert pypdfium2.PdfDocument(content).get_metadata_value("Author") == author
