from __future__ import annotations

import io

import pikepdf
import pypdf
import pytest

from claimpack.printing.document import Titles, document
from claimpack.printing.kept.finishing import is_for_ever
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
    assert reader.viewer_preferences.display_doctitle


def test_every_typeface_is_inside_it(letter):
    with pikepdf.open(io.BytesIO(letter)) as pdf:
        used = [
            str(font.BaseFont) for font in pdf.pages[0].resources["/Font"].values() if "/FontDescriptor" not in font
        ]
    assert used == []
