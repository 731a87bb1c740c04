from __future__ import annotations

import pypdfium2
import pytest
from builders import a_claim
from drawn_packets import a_layout, a_paper, a_shot, draw, page_texts, reader, text_of
from inked import ink_on


def slots(*papers):
    drawn = draw(layout=a_layout(sections=["papers"]), papers=papers)
    return drawn, drawn.slots


def test_every_page_of_every_paper_has_a_slot():
    _, found = slots(a_paper("a.pdf", (612, 792), (612, 792)), a_paper("b.pdf"))
    assert [(slot.paper_file, slot.paper_page) for slot in found] == [("a.pdf", 0), ("a.pdf", 1), ("b.pdf", 0)]


def test_a_slot_lies_on_the_page_that_names_its_paper():
    drawn, found = slots(a_paper("a.pdf"), a_paper("b.pdf"))
    texts = page_texts(drawn)
    assert all(f"{slot.paper_file}, page 1 of 1" in texts[slot.page_index] for slot in found)


@pytest.mark.parametrize("size", [(612, 792), (842, 595), (227, 1600), (3000, 200)])
def test_a_slot_has_the_shape_of_its_page_and_lies_within_the_margins(size):
    drawn, (slot,) = slots(a_paper("a.pdf", size))
    page = reader(drawn).pages[slot.page_index].mediabox
    assert slot.width / slot.height == pytest.approx(size[0] / size[1])
    assert slot.x >= 51
    assert slot.y >= 51
    assert slot.x + slot.width <= page.width - 51
    assert slot.y + slot.height <= page.height - 56


def test_a_small_receipt_is_not_blown_up():
    _, (slot,) = slots(a_paper("a.pdf", (160, 300)))
    assert (slot.width, slot.height) == (160, 300)


def test_small_receipts_share_a_page_without_overlap():
    _, (first, second) = slots(a_paper("a.pdf", (160, 250)), a_paper("b.pdf", (160, 250)))
    assert first.page_index == second.page_index
    assert second.y + second.height < first.y


def test_a_paper_that_begins_a_new_page_takes_its_name_along():
    drawn, found = slots(*(a_paper(f"{height}.pdf", (160, height)) for height in range(300, 330)))
    texts = page_texts(drawn)
    assert [slot.paper_file for slot in found if f"{slot.paper_file}, page 1 of 1" not in texts[slot.page_index]] == []


def test_the_room_for_a_paper_is_white():
    drawn, (slot,) = slots(a_paper())
    picture = pypdfium2.PdfDocument(drawn.pdf)[slot.page_index].render(scale=1).to_pil().convert("L")
    inside = (slot.x + 1, 792 - slot.y - slot.height + 1, slot.x + slot.width - 1, 792 - slot.y - 1)
    assert picture.crop(tuple(round(edge) for edge in inside)).getextrema() == (255, 255)


def test_the_heading_stands_on_the_page_of_the_first_paper():
    drawn, (slot,) = slots(a_paper())
    assert page_texts(drawn)[slot.page_index].count("Papers") == 1


def test_a_page_that_lies_across_turns_the_page_it_is_printed_on():
    drawn = draw(
        a_claim(papers=["a.pdf"]), papers=[a_paper("a.pdf", (1191, 842))], layout=a_layout(sections=["papers", "story"])
    )
    (slot,) = drawn.slots
    page = reader(drawn).pages[slot.page_index].mediabox
    assert (page.width > page.height, slot.width > 600) == (True, True)


def test_the_pages_behind_a_turned_one_stand_upright_again():
    drawn = draw(a_claim(failure__complaint="line\n" * 60), papers=[a_paper("a.pdf", (1191, 842))])
    assert reader(drawn).pages[-1].mediabox.height == 792


@pytest.mark.parametrize(("photos", "before"), [(0, "cover"), (3, "photos")], ids=["the cover", "a full page"])
def test_no_page_is_left_empty_before_a_turned_one(photos, before):
    files = [f"photos/{n}.jpg" for n in range(photos)]
    claim = a_claim(photos=[{"file": file} for file in files], papers=["a.pdf"])
    layout = a_layout(sections=[before, "papers"])
    drawn = draw(claim, photos=[a_shot(file) for file in files], papers=[a_paper("a.pdf", (1191, 842))], layout=layout)
    assert drawn.page_count == 2


@pytest.mark.parametrize("size", [(612, 792), (160, 300), (3000, 200), (200, 3000), (1191, 842)])
def test_a_frame_runs_just_outside_the_paper_and_inside_the_margins(size):
    drawn, (slot,) = slots(a_paper("a.pdf", size))
    page = pypdfium2.PdfDocument(drawn.pdf)[slot.page_index]
    frame = next(one for one in ink_on(page) if len(one.points) == 5 and one.broad == pytest.approx(0.75))
    outside = (slot.x - 0.75, slot.y - 0.75, slot.x + slot.width + 0.75, slot.y + slot.height + 0.75)
    assert (frame.left, frame.bottom, frame.right, frame.top) == pytest.approx(outside, abs=0.05)
    layout = a_layout()
    left, bottom, width, height = layout.body if page.get_width() < page.get_height() else layout.body_across
    assert left - 0.1 <= frame.left - 0.75
    assert frame.right + 0.75 <= left + width + 0.1
    assert bottom - 0.1 <= frame.bottom - 0.75
    assert frame.top + 0.75 <= bottom + height + 0.1


@pytest.mark.parametrize("size", [(700, 690), (612, 792), (500, 300)])
def test_a_page_that_would_gain_little_or_nothing_by_it_is_not_turned(size):
    drawn, (slot,) = slots(a_paper("a.pdf", size))
    assert reader(drawn).pages[slot.page_index].mediabox.height == 792


@pytest.mark.parametrize(
    ("told", "said"),
    [
        ({}, "a.pdf, page 1 of 1"),
        ({"kind": "invoice"}, "a.pdf (invoice), page 1 of 1"),
        ({"kind": "invoice", "on": "2026-02-01"}, "a.pdf (invoice, 2026-02-01), page 1 of 1"),
    ],
)
def test_a_paper_is_told_with_its_kind_and_day_where_the_claim_has_them(told, said):
    claim = a_claim(papers=[{"file": "b.pdf", "kind": "card"}, {"file": "a.pdf", **told}])
    assert said in text_of(draw(claim, layout=a_layout(sections=["papers"]), papers=[a_paper("a.pdf")]))


def test_a_paper_has_one_bookmark_however_many_pages_it_has():
    drawn, _ = slots(a_paper("a.pdf", (160, 300), (160, 300)), a_paper("b.pdf"))
    _, below = reader(drawn).outline
    assert [mark.title for mark in below] == ["a.pdf", "b.pdf"]
