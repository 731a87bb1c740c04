from __future__ import annotations

import pypdfium2
import pytest
from builders import a_claim
from drawn_packets import a_layout, a_paper, draw, page_texts
from inked import ink_on, place_of

from claimpack.packet.drawing.evidence import ShopFacts


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


def near(value: float, by: float = 1.0):
    return pytest.approx(value, abs=by)


@pytest.fixture(scope="module", params=["letter", "carta-a4"])
def some_pages(request):
    """A page that stands upright and one that lies across, each with the room inside its margins, and their foot."""
    layout = a_layout(request.param, sections=["cover", "papers"], margins=MARGINS)
    evidence = {"papers": [a_paper("a.pdf", (1191, 842))], "shop": ShopFacts("Quarry Road " + "m" * 60)}
    drawn = draw(a_claim(papers=["a.pdf"], unit__model="m" * 99), layout=layout, before=7, **evidence)
    pages = pypdfium2.PdfDocument(drawn.pdf)
    foot = "claim 26-0001 · page {} of 9" if request.param == "letter" else "reclamación 26-0001 · página {} de 9"
    return [(pages[0], layout.body, foot.format(8)), (pages[1], layout.body_across, foot.format(9))]


MARGINS = {"left": 18, "right": 24, "top": 22, "bottom": 20}


def test_the_line_on_top_has_the_claims_number_at_the_right_and_the_unit_before_it(some_pages):
    for page, (left, bottom, width, height), _ in some_pages:
        unit, number = place_of(page, "halden · mmm"), place_of(page, "26-0001")
        assert (unit[0], number[2]) == (near(left), near(left + width, 1.5))
        assert [place[1] - bottom - height for place in (unit, number)] == [near(13, 2.5)] * 2
        assert number[0] - place_of(page, "mm…")[2] == near(15, 4)


def test_a_rule_from_margin_to_margin_parts_that_line_from_the_page(some_pages):
    for page, (left, bottom, width, height), _ in some_pages:
        rules = [(one.left, one.right) for one in ink_on(page) if one.is_level and one.top == near(bottom + height + 8)]
        assert rules == [(near(left, 0.1), near(left + width, 0.1))]


def test_the_foot_has_the_shop_at_the_left_and_the_page_counted_with_those_before_it_at_the_right(some_pages):
    for page, (left, bottom, width, _), foot in some_pages:
        shop, number = place_of(page, "Quarry Road mmm"), place_of(page, foot)
        assert (shop[0], number[2]) == (near(left), near(left + width, 1.5))
        assert [place[1] - bottom for place in (shop, number)] == [near(-25, 2.5)] * 2


def test_the_shop_at_the_foot_has_half_of_the_page(some_pages):
    for page, (left, _, width, _), _ in some_pages:
        cut = page.get_textpage()
        ends = [cut.get_charbox(n)[2] for n in range(cut.count_chars()) if cut.get_text_range(n, 1) == "…"]
        assert min(ends) == near(left + width / 2, 12)


def test_the_foot_stays_on_the_sheet_where_the_lower_margin_is_narrow():
    drawn = draw(layout=a_layout(sections=["cover"], margins=MARGINS | {"bottom": 8}))
    assert place_of(pypdfium2.PdfDocument(drawn.pdf)[0], "page 1 of 1")[1] == near(12, 2.5)


def test_the_foot_is_seen_from_margin_to_margin(some_pages):
    for page, (left, bottom, width, _), _ in some_pages:
        at = page.get_height() - bottom + 25
        shown = page.render(scale=1, grayscale=True).to_pil().point(lambda shade: 255 * (shade < 200))
        inked = shown.crop((0, round(at) - 8, shown.width, round(at) + 3)).getbbox()
        assert (inked[0], inked[2]) == (near(left, 2), near(left + width, 3))
