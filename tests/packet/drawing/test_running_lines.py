from __future__ import annotations

import pypdfium2
from builders import a_claim
from drawn_packets import a_layout, draw, page_texts


def test_every_page_says_which_it_is_of_how_many():
    texts = page_texts(draw())
    assert [f"claim 26-0001 · page {n} of {len(texts)}" in said for n, said in enumerate(texts, 1)] == [True] * len(
        texts
    )


def test_another_reader_sees_the_foot_too():
    drawn = draw()
    page = pypdfium2.PdfDocument(drawn.pdf)[1].get_textpage().get_text_bounded()
    assert f"page 2 of {drawn.page_count}" in page


def test_every_page_names_maker_model_and_serial():
    assert all("halden · CS-70 · HC70-1" in said for said in page_texts(draw()))


def test_the_foot_is_in_the_layouts_language():
    assert "reclamación 26-0001 · página 1 de" in page_texts(draw(layout=a_layout("carta-a4")))[0]


def test_a_long_model_is_cut_in_the_line_on_top():
    assert "M…" in page_texts(draw(a_claim(unit__model="M" * 200)))[1]
