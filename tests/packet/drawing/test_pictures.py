from __future__ import annotations

import io

import pikepdf
import pypdfium2
import pytest
from builders import a_claim
from drawn_packets import PHOTO, a_layout, a_shot, draw
from inked import ink_on, page_of

from claimpack.core.facts.pictures import Photo, ReadArea
from claimpack.packet.drawing.pictures import cropped_picture, shown_in_words

ONLY = ["photos"]


def image_boxes(drawn, page: int = 0) -> list[tuple[float, float]]:
    """Width and height of every picture on a page, in points, as another reader places them."""
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


def test_a_picture_shown_twice_is_embedded_once():
    drawn = draw(a_claim(photos=[PHOTO]), layout=a_layout(sections=["cover", "photos"]), photos=[a_shot()])
    with pikepdf.open(io.BytesIO(drawn.pdf)) as pdf:
        images = [one for one in pdf.objects if isinstance(one, pikepdf.Stream) and one.get("/Subtype") == "/Image"]
    assert len(images) == 1


def test_marks_are_drawn_over_the_picture():
    marks = [{"shape": "ring", "x": "0.5", "y": "0.5", "size": "0.5"}]
    layout = a_layout(sections=ONLY)
    plain, marked = (
        draw(a_claim(photos=[PHOTO | {"marks": some}]), layout=layout, photos=[a_shot()]) for some in ([], marks)
    )
    one, other = (pypdfium2.PdfDocument(drawn.pdf)[0].render(scale=1).to_pil() for drawn in (plain, marked))
    assert one.tobytes() != other.tobytes()


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


@pytest.mark.parametrize(("room", "scale"), [((210, 60), 0.5), ((400, 35), 0.5), ((42, 60), 0.1)])
def test_of_a_picture_cut_out_the_part_that_was_read_shows_with_a_fifth_of_its_height_around_it(room, scale):
    # of 1000 by 500 pixels those from 300 to 700 across and from 200 to 250 down: with 10 around them 420 by 70
    area = ReadArea.model_validate({"x": "0.3", "y": "0.4", "width": "0.4", "height": "0.1"})
    page = page_of(cropped_picture(a_shot(size=(1000, 500)), area, room, "plate"), 500)
    assert page.get_size() == pytest.approx((420 * scale, 70 * scale), abs=0.01)
    (shown,) = page.get_objects(filter=[pypdfium2.raw.FPDF_PAGEOBJ_IMAGE])
    whole = (-290 * scale, (70 - 310) * scale, 710 * scale, 260 * scale)
    assert shown.get_bounds() == pytest.approx(whole, abs=0.01)
    frame = ink_on(page)[-1]
    assert (frame.left, frame.bottom, frame.right, frame.top) == pytest.approx((0, 0, *page.get_size()), abs=0.01)


@pytest.mark.parametrize(
    ("photo", "said"),
    [
        ({"file": "a.jpg"}, "a.jpg"),
        ({"file": "a.jpg", "shot": "plate"}, "plate"),
        ({"file": "a.jpg", "shot": "plate", "caption": "Worn.\nOld."}, "plate. Worn. Old"),
        ({"file": "a.jpg", "marks": [{"shape": "ring", "x": "0", "y": "0", "note": "crack"}]}, "a.jpg. 1: crack"),
    ],
)
def test_a_picture_is_told_in_words_by_its_shot_or_file_its_caption_and_its_notes(photo, said):
    assert shown_in_words(Photo.model_validate(photo)) == said
