from __future__ import annotations

import io
from dataclasses import dataclass

from packets import RECEIPT, TITLES, drawn_pages, enclosed, receipt
from pypdf import PdfReader

from claimpack.packet.assemble import assemble
from claimpack.packet.drawing.evidence import DrawnPages, PaperSlot
from claimpack.packet.front import with_front
from claimpack.packet.proving.verify import verify


@dataclass
class Sheet:
    width: float = 200
    height: float = 400


@dataclass
class Form:
    file: str = "the form"
    pages: tuple[Sheet, ...] = (Sheet(), Sheet())


def two_pages():
    def draw(canvas):
        for page in ("first", "second"):
            canvas.drawString(20, 20, f"sheet {page}")
            if page == "first":
                canvas.showPage()

    return receipt(draw)


def fronted() -> DrawnPages:
    drawn = DrawnPages(drawn_pages(), (PaperSlot(3, 72, 72, 400, 600, RECEIPT, 0),), (), 4)
    return with_front(drawn, Form(), "Form W-7")


def a_fronted_packet():
    return assemble(fronted(), {RECEIPT: receipt(), "the form": two_pages()}, TITLES, enclosed())


def test_the_pages_in_front_are_counted():
    assert fronted().page_count == 6


def test_the_pages_in_front_are_whole_and_in_their_order():
    pages = PdfReader(io.BytesIO(a_fronted_packet())).pages
    assert [page.extract_text().strip() for page in pages[:2]] == ["sheet first", "sheet second"]
    assert [float(edge) for edge in pages[0].mediabox] == [0, 0, 200, 400]


def test_papers_stay_on_their_own_pages():
    pages = PdfReader(io.BytesIO(a_fronted_packet())).pages
    assert (len(pages), "Paid in full" in pages[5].extract_text()) == (6, True)


def test_bookmarks_lead_to_the_form_and_where_they_led_before():
    reader = PdfReader(io.BytesIO(a_fronted_packet()))
    assert [(mark.title, reader.get_destination_page_number(mark)) for mark in reader.outline] == [
        ("Form W-7", 0),
        ("Reasons", 3),
    ]


def test_a_packet_with_a_form_in_front_is_genuine():
    assert verify(a_fronted_packet()).problems == ()


def test_the_same_input_gives_the_same_bytes():
    assert a_fronted_packet() == a_fronted_packet()
