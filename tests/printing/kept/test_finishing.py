from __future__ import annotations

import io

import pikepdf
import pypdf
import pytest
from reportlab.pdfgen.canvas import Canvas

from claimpack.printing.document import Titles, document
from claimpack.printing.kept.finishing import finish, finished, is_for_ever
from claimpack.printing.kept.reading_order import Element
from claimpack.printing.lettering import page_text
from claimpack.printing.papers import PAPERS


@pytest.fixture(scope="module")
def letter() -> bytes:
    titles = Titles("A letter", "Quarry Road", "Quarry Road")
    return document(lambda: [page_text("One.")], PAPERS["letter"], titles)


@pytest.fixture(scope="module")
def reader(letter):
    return pypdf.PdfReader(io.BytesIO(letter))


def test_it_says_that_it_follows_pdf_a_3(letter):
    with pikepdf.open(io.BytesIO(letter)) as pdf:
        assert (pdf.open_metadata().pdfa_status, is_for_ever(pdf)) == ("3B", True)


def test_whoever_asks_whether_it_follows_pdf_a_leaves_it_as_it_is(letter):
    with pikepdf.open(io.BytesIO(letter)) as pdf:
        before = pdf.Root.Metadata.read_bytes(), dict(pdf.docinfo)
        assert is_for_ever(pdf)
        assert (pdf.Root.Metadata.read_bytes(), dict(pdf.docinfo)) == before


def test_both_sets_of_properties_say_the_same(reader):
    xmp, old = reader.xmp_metadata, reader.metadata
    assert (xmp.dc_title["x-default"], xmp.dc_creator, xmp.pdf_producer) == (old.title, [old.author], old.producer)


def test_it_says_what_its_colours_mean(reader):
    (intent,) = reader.root_object["/OutputIntents"]
    assert intent.get_object()["/DestOutputProfile"]["/N"] == 3


def test_it_tells_no_day_on_which_it_was_not_made(reader):
    assert (reader.metadata.creation_date, reader.xmp_metadata.xmp_create_date) == (None, None)


def test_its_pages_are_numbered_and_its_language_known(reader):
    assert (reader.page_labels, reader.root_object["/Lang"]) == (["1"], "en")


def test_a_reader_shows_its_title_and_not_the_name_of_the_file(reader):
    assert reader.root_object["/ViewerPreferences"]["/DisplayDocTitle"].value is True


def test_every_typeface_is_inside_it(letter):
    with pikepdf.open(io.BytesIO(letter)) as pdf:
        used = [
            str(font.BaseFont) for font in pdf.pages[0].resources["/Font"].values() if "/FontDescriptor" not in font
        ]
    assert used == []


def drawn(act=lambda canvas: None) -> bytes:
    """A file of two pages as the drawing engine leaves it."""
    written = io.BytesIO()
    canvas = Canvas(written, invariant=True)
    for _ in range(2):
        act(canvas)
        canvas.showPage()
    canvas.save()
    return written.getvalue()


@pytest.mark.parametrize(
    ("settings", "scaled", "turned"),
    [({}, None, 0), ({"actual_size": True}, "/None", 0), ({"turned": 90}, None, 90)],
)
def test_a_file_is_printed_as_large_as_it_is_or_turned_where_that_is_asked(settings, scaled, turned):
    reader = pypdf.PdfReader(io.BytesIO(finished(drawn(), Element("Document"), **settings)))
    assert reader.root_object["/ViewerPreferences"].get("/PrintScaling") == scaled
    assert [page.rotation for page in reader.pages] == [turned] * 2


@pytest.mark.parametrize(
    ("mark", "are_shown"),
    [
        (lambda canvas: None, False),
        (lambda canvas: (canvas.bookmarkPage("a"), canvas.addOutlineEntry("A", "a")), True),
    ],
)
def test_bookmarks_are_shown_on_opening_where_there_are_some(mark, are_shown):
    reader = pypdf.PdfReader(io.BytesIO(finished(drawn(mark), Element("Document"))))
    assert (reader.root_object.get("/PageMode") == "/UseOutlines") == are_shown


TOLD = {
    "Title": "A packet",
    "Author": "Quarry Road",
    "Subject": "Covered.",
    "Creator": "claimpack",
    "Producer": "Quarry Press",
    "CreationDate": "D:20260301",
}


@pytest.mark.parametrize("left_out", [None, "Author", "Subject", "Creator", "CreationDate"])
def test_what_its_properties_say_is_said_in_both_places_and_nothing_else(left_out):
    with pikepdf.open(io.BytesIO(drawn())) as pdf:
        told = {key: value for key, value in TOLD.items() if key != left_out}
        del pdf.docinfo
        pdf.docinfo.update(
            {f"/{key}": value for key, value in (told | {"Keywords": "x", "ModDate": "D:20260101"}).items()}
        )
        finish(pdf, Element("Document"), "es", for_ever=left_out is None)
        assert {key[1:]: str(value) for key, value in pdf.docinfo.items()} == told
        with pdf.open_metadata(set_pikepdf_as_editor=False, update_docinfo=False) as xmp:
            names = {
                "dc:creator": "Author",
                "dc:description": "Subject",
                "xmp:CreatorTool": "Creator",
                "pdf:Producer": "Producer",
                "xmp:CreateDate": "CreationDate",
            }
            assert {names[name] for name in names if name in xmp} == told.keys() - {"Title"}
            assert xmp.get("xmp:CreateDate") in ("2026-03-01", None)
            assert xmp["pdf:Producer"] == TOLD["Producer"]
            assert bool(xmp.pdfa_status) == (left_out is None)
