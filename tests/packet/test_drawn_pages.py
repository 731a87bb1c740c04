from __future__ import annotations

import io

import pikepdf
import pypdfium2
import pytest
from builders import a_claim, a_plan, a_window
from drawn_packets import PHOTO, a_layout, a_paper, a_shot, draw, page_texts, reader, text_of
from reportlab import rl_config

from claimpack.packet.drawing.evidence import PacketFile, ShopFacts
from claimpack.printing.typeface import not_printed

LONG = "The owner says that it stopped. " * 320
MARKUP = '<b>bold</b> <img src="x"> &amp; & </para> {claim}'


def outline(drawn) -> list[str]:
    titles = []
    for entry in reader(drawn).outline:
        titles += [f"- {inner.title}" for inner in entry] if isinstance(entry, list) else [entry.title]
    return titles


def rich(**changes):
    claim = a_claim(photos=[PHOTO], papers=["papers/receipt.pdf"], **changes)
    return draw(claim, photos=[a_shot()], papers=[a_paper()], files=[PacketFile("photos/damage.jpg", "ab" * 32, 5120)])


def test_the_same_input_gives_the_same_bytes():
    assert rich().pdf == rich().pdf


def test_the_page_count_is_what_another_reader_counts():
    drawn = rich()
    assert drawn.page_count == len(pypdfium2.PdfDocument(drawn.pdf))


def test_the_document_is_sound():
    with pikepdf.open(io.BytesIO(rich().pdf)) as pdf:
        assert pdf.check_pdf_syntax() == []


def test_sections_photos_and_papers_have_bookmarks():
    assert outline(rich()) == [
        "Summary",
        "Why: every window, with its reasons",
        "Complaint, cause, correction",
        "What is claimed, and what is not",
        "Photos",
        "- 1. damage close up",
        "Papers",
        "- papers/receipt.pdf",
        "Dates to keep",
        "What is missing",
        "Declaration",
        "Files shown in this packet",
    ]


@pytest.mark.parametrize(("hours", "listed"), [("112.4", False), (None, True)])
def test_the_contents_name_what_is_missing_only_where_something_is(hours, listed):
    window = {"id": "w", "covers": ["*"], "period": "P12M", "hours": "300"}
    plan = a_plan(requires={"held_part": False}, window=[window])
    assert ("What is missing" in page_texts(draw(a_claim(unit__hours=hours), plan))[0]) == listed


def test_a_bookmark_leads_to_the_page_of_its_heading():
    drawn = rich()
    pdf = reader(drawn)
    at = {entry.title: pdf.get_destination_page_number(entry) for entry in pdf.outline if not isinstance(entry, list)}
    texts = page_texts(drawn)
    assert all(title in texts[page] for title, page in at.items() if title != "Summary")


def test_sections_come_in_the_layouts_order():
    layout = a_layout(sections=["story", "cover", "declaration"])
    assert outline(draw(layout=layout)) == ["Complaint, cause, correction", "Summary", "Declaration"]


def test_a_cover_alone_is_one_page():
    assert draw(layout=a_layout(sections=["cover"])).page_count == 1


def test_a_cover_that_is_not_first_begins_on_a_page_of_its_own():
    texts = page_texts(draw(layout=a_layout(sections=["story", "cover"])))
    assert ["WARRANTY CLAIM" in said for said in texts] == [False, True]


def test_figures_of_the_subject_stand_apart_as_in_the_layouts_language():
    plan = a_plan(window=[a_window(hours=1200)])
    drawn = draw(a_claim(unit__hours="10"), plan, layout=a_layout("carta-a4"))
    assert "1\N{NO-BREAK SPACE}200 h" in reader(drawn).metadata.subject


def test_title_author_subject_and_language_are_the_claims():
    drawn = draw(shop=ShopFacts(name="Quarry Road"))
    found = reader(drawn)
    assert (found.metadata.title, found.metadata.author, found.metadata.subject, found.root_object["/Lang"]) == (
        "Warranty claim 26-0001, halden CS-70",
        "Quarry Road",
        "Covered until 2026-03-14 under engine.",
        "en-US",
    )


def fonts(drawn) -> dict[str, bool]:
    """Every typeface the pages may use, and whether its letters are inside the document."""
    with pikepdf.open(io.BytesIO(drawn.pdf)) as pdf:
        found = [font for page in pdf.pages for font in page.resources["/Font"].values()]
        return {str(font.BaseFont): "/FontFile2" in font.get("/FontDescriptor", {}) for font in found}


def test_typefaces_are_embedded_as_subsets():
    found = fonts(draw())
    assert found
    assert all(name[7] == "+" and embedded for name, embedded in found.items())


def test_no_text_is_set_in_a_typeface_that_is_not_embedded():
    used = set()
    for page in pypdfium2.PdfDocument(draw().pdf):
        for found in page.get_objects(filter=[pypdfium2.raw.FPDF_PAGEOBJ_TEXT]):
            used.add(pypdfium2.raw.FPDFFont_GetIsEmbedded(pypdfium2.raw.FPDFTextObj_GetFont(found.raw)))
    assert used == {1}


def test_streams_are_plain_binary_and_compressed():
    with pikepdf.open(io.BytesIO(rich().pdf)) as pdf:
        filters = {str(one.get("/Filter")) for one in pdf.objects if isinstance(one, pikepdf.Stream)}
    assert not any("ASCII85" in found for found in filters)


def test_how_others_draw_by_the_same_library_is_left_as_it_was(monkeypatch):
    monkeypatch.setattr(rl_config, "useA85", 1)
    draw()
    assert rl_config.useA85 == 1


def test_a_claim_with_nothing_but_what_it_must_have_is_drawn():
    bare = a_claim(
        owner=None, failure=None, proof=None, dates={"presented": "2026-02-05"}, unit={"model": "X", "serials": []}
    )
    assert draw(bare).page_count >= 2


def test_markup_prints_literally_everywhere():
    said = text_of(
        draw(
            a_claim(
                owner__name=MARKUP,
                owner__address=MARKUP,
                unit__kind=MARKUP,
                failure__complaint=MARKUP,
                parts=[{"name": MARKUP}],
                findings=[{"what": MARKUP, "value": MARKUP}],
                held=[{"part": MARKUP}],
            ),
            a_plan(window=[a_window(name=MARKUP, cites=MARKUP)]),
        )
    )
    assert said.replace(" ", "").count(MARKUP.replace(" ", "")) >= 8


def test_names_in_latin_greek_and_cyrillic_print():
    assert "Łukasz Ελένη Щукина Ångström" in text_of(draw(a_claim(owner__name="Łukasz Ελένη Щукина Ångström")))


def test_letters_without_a_typeface_are_told_by_their_script_once():
    drawn = draw(a_claim(failure__complaint="Made in ไทย .", failure__cause="ไทย"))
    assert "Made in [Thai] ." in text_of(drawn)
    assert [note for note in drawn.notes if "Thai" in note] == [not_printed("Thai")]


def test_a_picture_that_the_claim_does_not_list_is_told():
    drawn = draw(a_claim(photos=[]), photos=[a_shot("photos/extra.jpg")])
    assert drawn.notes == ("photos/extra.jpg has no entry in the claim and is not drawn",)


def test_a_photo_without_a_picture_is_told():
    drawn = draw(a_claim(photos=[PHOTO]))
    assert any("photos/damage.jpg is listed in the claim" in note for note in drawn.notes)


def test_ten_thousand_characters_flow_over_pages_whole():
    said = text_of(draw(a_claim(failure__complaint=LONG), layout=a_layout(sections=["story"])))
    assert said.count("stopped.") == 320


@pytest.mark.parametrize(
    "changes",
    [
        {"failure__cause": "z" * 20_000},
        {"failure__correction": "line\n" * 900},
        {"owner__address": "address " * 2400},
        {"unit__serials": [{"role": f"role {n}" + "r" * 250, "value": "S" * 290} for n in range(30)]},
        {"parts": [{"number": "N" * 290, "name": "name " * 58, "payer": "owner"}] * 30},
        {"held": [{"part": "p" * 290, "number": "n" * 290, "serial": "s" * 290, "shelf": "B" * 290}] * 4},
        {"findings": [{"what": "w" * 290, "value": "v" * 290, "unit": "u" * 290, "low": "l" * 290}] * 3},
        {"labour": [{"operation": "o" * 290, "hours": "1", "technician": "T" * 290}] * 3},
        {"earlier": [{"component": "e" * 290, "repaired": "2025-05-01", "claim": "c" * 290}] * 20},
        {"approval": {"number": "N" * 290, "by": "B" * 290}},
    ],
    ids=lambda changes: next(iter(changes)),
)
def test_texts_as_long_as_they_may_be_never_stop_the_drawing(changes):
    assert draw(a_claim(**changes)).page_count > 1


def test_captions_and_notes_as_long_as_they_may_be_never_stop_the_drawing():
    marks = [{"shape": "ring", "x": "0.5", "y": "0.5", "note": "note " * 58}] * 12
    photos = [PHOTO | {"caption": "words " * 3300, "marks": marks}, PHOTO | {"shot": "s" * 290, "file": "f" * 250}]
    assert draw(a_claim(photos=photos), photos=[a_shot()]).page_count > 5


def test_a_plan_of_many_windows_tells_each():
    windows = [a_window(id=f"window-{n}", name=f"Window no. {n}.", cites="c " * 140) for n in range(40)]
    said = text_of(draw(plan=a_plan(window=windows)))
    assert all(f"Window no. {n}." in said for n in range(40))


@pytest.mark.parametrize("length", range(20, 34))
def test_no_page_is_empty(length):
    drawn = draw(a_claim(failure__complaint="line\n" * length), layout=a_layout(sections=["story", "declaration"]))
    assert min(len(said) for said in page_texts(drawn)) > 80


def test_both_layouts_draw_every_section():
    english, spanish = (outline(draw(layout=a_layout(name))) for name in ("letter", "carta-a4"))
    assert len(english) == len(spanish)
    assert not set(english) & set(spanish)
