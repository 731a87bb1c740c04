from __future__ import annotations

import io

import pikepdf
import pypdf
import pytest
from reportlab.pdfgen.canvas import Canvas
from reportlab.platypus import PageBreak, Spacer

from claimpack.printing.document import Titles, document
from claimpack.printing.drawn import drawn
from claimpack.printing.kept.reading_order import (
    Element,
    Ink,
    ReadableCanvas,
    furniture,
    ink_of,
    leading,
    part,
)
from claimpack.printing.kept.structure import structure_of, write_structure
from claimpack.printing.lettering import leading_to, page_text
from claimpack.printing.papers import PAPERS
from claimpack.printing.tables import ruled

TITLES = Titles("A letter", "Quarry Road", "Quarry Road")


def made(*pieces) -> bytes:
    return document(lambda: list(pieces), PAPERS["letter"], TITLES)


def told(*pieces) -> Element:
    with pikepdf.open(io.BytesIO(made(*pieces))) as pdf:
        return structure_of(pdf)


def roles(one: Element) -> list[object]:
    """The roles of a part and of those in it, nested as they are."""
    inner = [roles(held) for held in one.holds if isinstance(held, Element)]
    return [one.role, *inner] if inner else [one.role]


def drawn_on_a_canvas(pen) -> ReadableCanvas:
    canvas = ReadableCanvas(io.BytesIO(), pagesize=(200, 200))
    pen(canvas)
    return canvas


def test_a_page_is_read_in_the_order_in_which_it_is_set():
    assert roles(told(page_text("Slip", "title"), page_text("One."), page_text("Two."))) == [
        "Document",
        ["H1"],
        ["P"],
        ["P"],
    ]


def test_a_paragraph_that_goes_on_overleaf_is_one_part():
    (paragraph,) = told(page_text("word " * 3000)).holds
    assert {0, 1, 2, 3} <= {ink.page for ink in paragraph.holds}


def test_what_stands_at_the_foot_of_every_page_belongs_to_no_part():
    whole = told(page_text("One."), PageBreak(), page_text("Two."))
    assert [part.holds for part in whole.holds] == [[Ink(0, 0)], [Ink(1, 0)]]


def test_a_table_has_rows_whose_first_are_titles():
    rows = [[page_text("Code"), page_text("Part")], [page_text("26-0001/1"), page_text("block")]]
    assert roles(told(ruled(rows, [100, 100], titled=1))) == [
        "Document",
        ["Table", ["TR", ["TH", ["P"]], ["TH", ["P"]]], ["TR", ["TD", ["P"]], ["TD", ["P"]]]],
    ]


def test_titles_said_again_overleaf_are_told_once():
    rows = [[page_text("Code")], *([page_text(f"{row}")] for row in range(80))]
    (table,) = told(ruled(rows, [100], titled=1)).holds
    assert [row.holds[0].role for row in table.holds] == ["TH"] + ["TD"] * 80


def test_a_label_is_the_title_of_its_row():
    (table,) = told(ruled([[page_text("Claim"), page_text("26-0001")]], [100, 100], labels=(0,))).holds
    assert [(cell.role, cell.heads) for cell in table.holds[0].holds] == [("TH", "Row"), ("TD", "")]


def test_pieces_that_merely_stand_side_by_side_are_no_table():
    assert roles(told(ruled([[page_text("left"), page_text("right")]], [100, 100]))) == ["Document", ["P"], ["P"]]


def test_a_picture_is_told_in_words():
    figure = told(drawn(20, 20, lambda canvas, *_: canvas.rect(0, 0, 9, 9, fill=1), "a square"), Spacer(0, 1)).holds[0]
    assert (figure.role, figure.alt) == ("Figure", "a square")


def test_what_is_drawn_inside_a_picture_is_told_by_its_words_alone():
    def pen(canvas):
        with ink_of(canvas, Element("Figure", "a gauge")), ink_of(canvas, Element("P")):
            canvas.drawString(0, 0, "42")

    assert roles(drawn_on_a_canvas(pen).document) == ["Document", ["Figure"]]


def test_a_part_that_leaves_no_ink_holds_none():
    def pen(canvas):
        canvas.drawString(0, 0, "page 1")
        with ink_of(canvas, Element("P")):
            canvas.setFillGray(0)

    assert drawn_on_a_canvas(pen).document.holds[0].holds == []


PAINTING = {"Tj", "TJ", "S", "f", "B", "B*", "f*", "Do"}


def marked(content: bytes) -> list[list[str]]:
    """The marks around each thing that is painted on the first page, from outside."""
    around, found = [], []
    with pikepdf.open(io.BytesIO(content)) as pdf:
        for step in pikepdf.parse_content_stream(pdf.pages[0]):
            name = str(step.operator)
            if name in ("BMC", "BDC"):
                around.append(str(step.operands[0]))
            elif name == "EMC":
                around.pop()
            elif name in PAINTING:
                found.append(list(around))
    assert around == []
    return found


def test_whatever_is_painted_is_either_a_part_or_furniture():
    def pen(canvas, *_):
        canvas.rect(0, 0, 9, 9, fill=1)
        with furniture(canvas), ink_of(canvas, Element("P")):
            canvas.drawString(0, 0, "again")

    marks = marked(made(page_text("One."), drawn(20, 20, pen), page_text("Two."), drawn(20, 20, pen, "a square")))
    # the two words at the foot come first
    kinds = ["Artifact", "Artifact", "P", "Artifact", "Artifact", "P", "Figure", "Figure"]
    assert marks == [[f"/{kind}"] for kind in kinds]


def test_what_is_drawn_in_a_form_to_be_used_later_is_no_part():
    def pen(canvas):
        canvas.beginForm("later")
        with ink_of(canvas, Element("P")):
            canvas.drawString(0, 0, "later")
        canvas.endForm()

    assert drawn_on_a_canvas(pen).document.holds == []


@pytest.mark.parametrize(("kind", "where"), [(ReadableCanvas, ""), (Canvas, "mailto:desk@example.com"), (Canvas, "")])
def test_nothing_is_a_link_without_a_place_or_on_a_canvas_that_notes_nothing(kind, where):
    with leading(kind(io.BytesIO()), where, "to the desk", (90, 12)) as link:
        assert link is None


def test_furniture_is_told_nowhere():
    def pen(canvas):
        with furniture(canvas), part(canvas, Element("TR")), ink_of(canvas, Element("P")):
            canvas.drawString(0, 0, "page 1")

    assert drawn_on_a_canvas(pen).document.holds == []


@pytest.mark.parametrize("where", ["mailto:desk@example.com", "there"])
def test_what_leads_elsewhere_is_a_link_with_words(where):
    stream = io.BytesIO()
    canvas = ReadableCanvas(stream, pagesize=(200, 200))
    canvas.bookmarkHorizontal("there", 0, 0)
    with leading(canvas, where, "to the desk", (90, 12)) as link, ink_of(canvas, link):
        canvas.drawString(0, 0, "desk")
    canvas.save()
    (spot,) = pypdf.PdfReader(stream).pages[0]["/Annots"]
    assert (spot.get_object()["/Contents"], [type(held).__name__ for held in link.holds]) == (
        "to the desk",
        ["Ink", "LinkArea"],
    )


def test_parts_move_with_the_pages_before_them():
    assert Element("P", holds=[Ink(0, 3)]).later(2).holds == [Ink(2, 3)]


def test_the_number_after_the_last_is_told_to_whoever_adds_a_place_to_click():
    with pikepdf.open(io.BytesIO(made(leading_to("mailto:desk@example.com", page_text("Mail us"))))) as pdf:
        numbers = [int(number) for number in pdf.Root.StructTreeRoot.ParentTree.Nums[::2]]
        assert pdf.Root.StructTreeRoot.ParentTreeNextKey == max(numbers) + 1


def test_words_that_lead_nowhere_are_no_place_to_click():
    pieces = page_text("Mail us"), leading_to("mailto:desk@example.com", page_text("Mail us"))
    pages = [pypdf.PdfReader(io.BytesIO(made(piece))).pages[0] for piece in pieces]
    assert ["/Annots" in page for page in pages] == [False, True]


def test_every_run_of_ink_and_every_link_leads_back_to_its_part_by_number():
    mail = [leading_to("mailto:desk@example.com", page_text(f"Mail us {n}")) for n in range(2)]
    with pikepdf.open(io.BytesIO(made(page_text("One."), mail[0], PageBreak(), page_text("Two."), mail[1]))) as pdf:
        nums = list(pdf.Root.StructTreeRoot.ParentTree.Nums)
        parts = dict(zip((int(number) for number in nums[::2]), nums[1::2], strict=True))
        assert len(parts) == len(nums) / 2 == 4
        assert pdf.Root.MarkInfo.Marked is True
        for page in pdf.pages:
            runs = list(parts[int(page.obj.StructParents)])
            assert [[int(one.MCID) for one in run.K if "/MCID" in one] for run in runs] == [[0], [1]]
            (spot,) = page.obj.Annots
            held = [one.get("/Obj") for one in parts[int(spot.StructParent)].K]
            assert spot.objgen in [one.objgen for one in held if one is not None]
            assert page.obj.Tabs == "/S"


def test_only_cells_that_head_others_or_take_several_columns_carry_more_than_their_role():
    cells = [
        Element("TH", heads="Column", across=2),
        Element("TH", heads="Row"),
        Element("TD", across=3),
        Element("TD"),
    ]
    with pikepdf.new() as pdf:
        pdf.add_blank_page()
        write_structure(pdf, Element("Document", holds=cells))
        written = [dict(node.get("/A", {})) for node in pdf.Root.StructTreeRoot.K[0].K]
        assert [(str(one.get("/Scope", "")), one.get("/ColSpan")) for one in written] == [
            ("/Column", 2),
            ("/Row", None),
            ("", 3),
            ("", None),
        ]
        assert written[3] == {}
        assert "/Tabs" not in pdf.pages[0].obj


@pytest.mark.parametrize(("links", "tabs"), [(True, "/S"), (False, None)])
def test_a_page_without_parts_is_gone_through_in_their_order_where_it_has_links(links, tabs):
    with pikepdf.new() as pdf:
        page = pdf.add_blank_page()
        if links:
            page.obj.Annots = pikepdf.Array([])
        write_structure(pdf, Element("Document"))
        assert page.obj.get("/Tabs") == tabs
