from __future__ import annotations

import pytest
from builders import a_claim, a_plan, a_window
from drawn_packets import a_layout, draw, page_texts, text_of
from inked import ink_on, words_on
from pypdfium2 import PdfDocument

from claimpack.printing.palette import ACCENT

ONLY = {"sections": ["reasons"]}


def reasons(plan=None, layout="letter", **changes) -> str:
    return text_of(draw(a_claim(**changes), plan or a_plan(), a_layout(layout, **ONLY)))


def test_every_reason_carries_a_word_for_how_it_came_out():
    said = reasons(a_plan(window=[a_window(hours="300", period="P6M")]), unit__hours=None)
    assert "met It covers the short block." in said
    assert "not met 2026-02-05 is too late" in said
    assert "not known The limit is 300 h" in said


def test_a_window_that_does_not_apply_is_told_with_what_speaks_against_it():
    said = reasons(a_plan(window=[a_window(), a_window(id="rented", name="Rented out", uses=["rental"])]))
    assert "Windows that do not apply Rented out It is for rental use; the unit is in professional use." in said


def test_a_window_that_does_not_apply_says_nothing_of_its_age():
    windows = [a_window(), a_window(id="rented", uses=["rental"], period="P1M")]
    assert "too late" not in reasons(a_plan(window=windows))


def test_the_window_cited_comes_before_the_others():
    windows = [a_window(id="first", name="First"), a_window(id="cited", name="Longest", period="P24M")]
    said = reasons(a_plan(window=windows))
    assert said.index("Longest · cited, open · 2025-03-14 / 2027-03-14") < said.index("First · open")


def test_a_window_names_its_source():
    assert "Source: manual p. 4" in reasons(a_plan(window=[a_window(cites="manual p. 4")]))


def test_reasons_that_are_no_windows_stand_first():
    assert "Plan, start and day judged on met Plan halden-test fits" in reasons()


def test_without_a_plan_the_one_reason_is_told():
    assert "No plan fits nobody CS-70" in reasons(maker="nobody")


def test_reasons_are_in_the_layouts_language():
    assert "se cumple Cubre «short block»." in reasons(layout="carta-a4")


def test_a_window_is_not_torn_where_it_fits_on_a_page():
    windows = [a_window(id=f"w{n}", name=f"Window {n}.", hours="300", uses=["professional"]) for n in range(30)]
    pages = page_texts(draw(plan=a_plan(window=windows), layout=a_layout(**ONLY)))
    assert sum(said.count(f"Window {n}. ·") for said in pages for n in range(30)) == 30


def test_reasons_that_go_on_overleaf_say_so_there():
    others = [a_window(id=f"rented-{n}", name=f"Rented {n}", uses=["rental"]) for n in range(60)]
    first, second, *_ = page_texts(draw(a_claim(), a_plan(window=[a_window(), *others]), a_layout(**ONLY)))
    assert "continued" not in first
    assert "continued" in second


def test_a_window_whose_end_is_not_known_is_told_with_its_start():
    assert "2025-03-14 / ?" in reasons(a_plan(window=[a_window(hours="300", whichever="last")]))


def ruled(**windows) -> tuple[list, list]:
    """Lines and words of the reasons for such windows."""
    plan = a_plan(window=[a_window(id=name.lower(), name=name, **keys) for name, keys in windows.items()])
    page = PdfDocument(draw(plan=plan, layout=a_layout(**ONLY)).pdf)[0]
    return ink_on(page), words_on(page)


def test_the_window_cited_alone_has_a_broad_line_beside_it():
    ink, words = ruled(Cited={}, Over={"period": "P1M"}, Other={"uses": ["rental"]})
    broad = [one for one in ink if one.is_upright and one.broad > 2]
    cited, over = (next(one.top for one in words if one.words == name) for name in ("Cited", "Over"))
    assert {one.colour for one in broad} == {ACCENT}
    assert min(one.bottom for one in broad) > over
    assert max(one.top for one in broad) < cited + 10


def test_a_reason_that_does_not_hold_is_told_in_strong_letters():
    _, words = ruled(Over={"period": "P1M"})
    faces = {name: {one.face for one in words if name in one.words} for name in ("too late", "It covers the")}
    assert faces == {"too late": {"NotoSans-Bold"}, "It covers the": {"NotoSans-Regular"}}


def test_no_table_of_reasons_runs_into_the_margin():
    ink, _ = ruled(Cited={}, Other={"uses": ["rental"]})
    left, _, width, _ = a_layout(**ONLY).body
    assert max(one.right for one in ink) == pytest.approx(left + width, abs=0.1)
