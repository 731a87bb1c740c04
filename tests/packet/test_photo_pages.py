from __future__ import annotations

import io
from datetime import datetime

import pikepdf
import pytest
from builders import a_claim
from drawn_packets import PHOTO, a_layout, a_shot, draw, page_texts, reader, text_of

ONLY = ["photos"]


def photos(count: int) -> dict[str, list]:
    files = [f"photos/{n}.jpg" for n in range(count)]
    return {
        "claim": a_claim(photos=[{"file": file, "shot": f"shot {n}"} for n, file in enumerate(files)]),
        "photos": [a_shot(file, (800 + n, 600)) for n, file in enumerate(files)],
    }


def image_boxes(drawn, page: int = 0) -> list[tuple[float, float]]:
    """Width and height of every picture on a page, in points, as another reader places them."""
    import pypdfium2

    found = pypdfium2.PdfDocument(drawn.pdf)[page].get_objects(filter=[pypdfium2.raw.FPDF_PAGEOBJ_IMAGE])
    return [(right - left, top - bottom) for left, bottom, right, top in (one.get_bounds() for one in found)]


def test_the_jpeg_is_embedded_as_it_is():
    shot = a_shot()
    drawn = draw(a_claim(photos=[PHOTO]), photos=[shot])
    with pikepdf.open(io.BytesIO(drawn.pdf)) as pdf:
        images = [
            (str(one.Filter), one.read_raw_bytes())
            for one in pdf.objects
            if isinstance(one, pikepdf.Stream) and one.get("/Subtype") == "/Image"
        ]
    assert [data for name, data in images if "DCTDecode" in name] == [shot.jpeg]


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


@pytest.mark.parametrize("size", [(1600, 1200), (1200, 1600), (3000, 400), (400, 3000)])
def test_a_picture_keeps_its_shape_and_stays_on_the_page(size):
    drawn = draw(a_claim(photos=[PHOTO]), layout=a_layout(sections=ONLY), photos=[a_shot(size=size)])
    ((width, height),) = image_boxes(drawn)
    assert width / height == pytest.approx(size[0] / size[1], rel=0.01)
    assert width < 512
    assert height < 690


def test_a_small_picture_is_not_blown_up():
    drawn = draw(a_claim(photos=[PHOTO]), layout=a_layout(sections=ONLY), photos=[a_shot(size=(220, 110))])
    assert image_boxes(drawn) == [(pytest.approx(144, abs=1), pytest.approx(72, abs=1))]


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
