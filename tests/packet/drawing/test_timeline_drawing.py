from __future__ import annotations

import io

import pypdfium2
from builders import a_claim, a_plan, a_window
from drawn_packets import a_layout, draw, page_texts, reader

COVER = {"sections": ["cover"]}


def cover(plan=None, layout="letter", **changes) -> str:
    return page_texts(draw(a_claim(**changes), plan or a_plan(), a_layout(layout, **COVER)))[0]


def test_events_carry_their_day_and_name():
    said = cover()
    assert all(
        label in said
        for label in (
            "2025-03-14 cover starts",
            "2026-02-02 failed",
            "2026-02-05 presented (judged)",
            "2026-02-24 repaired",
        )
    )


def test_a_bar_carries_the_last_day_of_its_window():
    assert "2030-03-14" in cover(a_plan(window=[a_window(), a_window(id="long", period="P5Y")]))


def test_a_window_says_how_it_stands_and_its_hour_limit():
    assert "engine cited, open · limit 300 h" in cover(a_plan(window=[a_window(hours="300")]))


def test_a_window_whose_start_is_not_known_says_so():
    assert "start not known" in cover(dates={"presented": "2026-02-05"})


def test_only_a_window_that_is_not_known_to_be_open_is_dashed():
    unknown, known = (
        reader(draw(a_claim(**changes), a_plan(), a_layout(**COVER))).pages[0].get_contents().get_data()
        for changes in ({"dates": {"presented": "2026-02-05"}}, {})
    )
    assert (b"[2 2] 0 d" in unknown, b"[2 2] 0 d" in known) == (True, False)


def test_a_claim_without_a_plan_still_shows_what_happened():
    assert "2026-02-05 presented" in cover(maker="nobody")


def test_the_picture_is_in_the_layouts_language():
    assert "2026-02-05 traída al taller (se juzga)" in cover(layout="carta-a4")


def bars(drawn) -> list[tuple[float, float]]:
    """Left and right edge of every filled bar on the cover, in points."""
    found = pypdfium2.PdfDocument(drawn.pdf)[0].get_objects(filter=[pypdfium2.raw.FPDF_PAGEOBJ_PATH])
    boxes = [one.get_bounds() for one in found]
    return [(left, right) for left, bottom, right, top in boxes if 7.5 < top - bottom < 8.5 and right - left > 12]


def test_bars_are_to_scale():
    windows = [a_window(id="one", period="P12M"), a_window(id="four", period="P48M")]
    widths = sorted(right - left for left, right in bars(draw(plan=a_plan(window=windows), layout=a_layout(**COVER))))
    assert 3.9 < widths[-1] / widths[0] < 4.1


def test_no_text_of_the_cover_leaves_the_page():
    drawn = draw(plan=a_plan(window=[a_window(name="W" * 200, period="P10Y")]), layout=a_layout(**COVER))
    page = pypdfium2.PdfDocument(io.BytesIO(drawn.pdf))[0]
    text = page.get_textpage()
    boxes = [text.get_charbox(n) for n in range(text.count_chars())]
    assert all(left >= 0 and right <= 612 for left, _, right, _ in boxes)


def test_a_title_too_long_for_a_line_goes_on_in_a_second():
    name = "California emission warranty for small off-road engines"
    assert name in cover(a_plan(window=[a_window(name=name)]))
