"""Packets against what is published about PDF, PDF/A and attached files; every packet is read by other libraries."""

from __future__ import annotations

import io

import pikepdf
import pypdf
import pypdfium2
import pytest
from packets import Drawn, Parts, a_packet, drawn_pages

READ_BY_RUN = "pikepdf 10.18, run on packets; published.md section 10"


@pytest.fixture
def packet():
    with pikepdf.open(io.BytesIO(a_packet())) as pdf:
        yield pdf


@pytest.mark.memory
def test_boxes_count_seventy_second_parts_of_an_inch():
    # ISO 32000-1 8.3.2.3, 14.11.2: user space unit 1/72 inch; Letter is 8.5 x 11 in = 612 x 792.
    sizes = [pypdfium2.PdfDocument(a_packet()).get_page_size(page) for page in range(4)]
    assert sizes == [(8.5 * 72, 11 * 72)] * 4


@pytest.mark.source("ISO 19005-1/-2/-3, restated: files of any type only in PDF/A-3; every typeface inside")
def test_pdf_a_is_not_claimed_where_a_paper_lacks_its_typeface(packet):
    assert packet.open_metadata().pdfa_status == ""


@pytest.mark.source("ISO 19005-3:2012 6.8, validator rule 6.8-1: MIME type of an embedded file")
def test_each_embedded_file_has_its_mime_type(packet):
    assert {str(spec.obj.EF.F.Subtype) for spec in packet.attachments.values()} == {"/application/json"}


@pytest.mark.source("ISO 19005-3:2012 6.8: /F and /UF both name the file")
def test_each_file_is_named_twice(packet):
    assert {(str(spec.obj.F), str(spec.obj.UF)) for spec in packet.attachments.values()} == {
        (name, name) for name in packet.attachments
    }


@pytest.mark.source("ISO 19005-3:2012 6.8, validator rule 6.8-3: each file is linked from /AF of the document")
def test_each_file_is_linked_from_the_document(packet):
    linked = {entry.objgen for entry in packet.Root.AF}
    assert linked == {spec.obj.objgen for spec in packet.attachments.values()}


@pytest.mark.source("ISO 32000-2, PDF Association note: Source, Data, Alternative, Supplement, Unspecified in PDF/A-3")
def test_each_file_tells_how_it_relates_to_the_packet(packet):
    told = {name: str(spec.obj.AFRelationship) for name, spec in packet.attachments.items()}
    assert told == {
        "claim.json": "/Source",
        "plan.json": "/Source",
        "assessment.json": "/Data",
        "manifest.json": "/Supplement",
    }


@pytest.mark.source("ISO 19005-2/-3 6.3.2, 6.3.3: an annotation for a file needs an appearance")
def test_no_file_hangs_on_an_annotation(packet):
    kinds = {str(note.Subtype) for page in packet.pages for note in page.obj.get("/Annots", ())}
    assert "/FileAttachment" not in kinds


@pytest.mark.source(READ_BY_RUN)
def test_each_file_has_a_description_and_is_not_left_unspecified(packet):
    for spec in packet.attachments.values():
        assert spec.description
        assert spec.relationship != pikepdf.Name.Unspecified


@pytest.mark.source(READ_BY_RUN)
def test_the_syntax_is_clean(packet):
    assert packet.check_pdf_syntax() == []


@pytest.mark.source(READ_BY_RUN)
def test_a_packet_cut_short_is_not_clean():
    with pytest.raises(pikepdf.PdfError):
        pikepdf.open(io.BytesIO(a_packet()[:-60]), attempt_recovery=False)


@pytest.mark.practice
def test_the_same_input_twice_gives_the_same_bytes():
    # Common practice: CreationDate, ModDate, ID and XMP dates are fixed.
    assert Parts().assembled() == Parts().assembled()


@pytest.mark.practice
def test_another_input_gets_another_identifier():
    first, second = (
        pypdf.PdfReader(io.BytesIO(packet)).trailer["/ID"][0]
        for packet in (a_packet(), Parts(drawn=Drawn(drawn_pages(words="sheet"))).assembled())
    )
    assert first != second


@pytest.mark.memory
def test_the_day_is_the_same_in_both_sets_of_properties():
    # ISO 19005-3 6.6.3: CreationDate and xmp:CreateDate agree.
    reader = pypdf.PdfReader(io.BytesIO(a_packet()))
    assert reader.metadata["/CreationDate"] == "D:20260301"
    assert reader.xmp_metadata.xmp_create_date.date().isoformat() == "2026-03-01"


@pytest.mark.practice
def test_two_other_readers_find_the_same_pages():
    assert len(pypdf.PdfReader(io.BytesIO(a_packet())).pages) == len(pypdfium2.PdfDocument(a_packet())) == 4


@pytest.mark.practice
def test_two_other_readers_find_the_same_files():
    document = pypdfium2.PdfDocument(a_packet())
    found = {
        document.get_attachment(place).get_name(): bytes(document.get_attachment(place).get_data())
        for place in range(document.count_attachments())
    }
    assert found == {name: files[0] for name, files in pypdf.PdfReader(io.BytesIO(a_packet())).attachments.items()}


@pytest.mark.practice
def test_another_reader_shows_the_paper():
    text = pypdfium2.PdfDocument(a_packet())[3].get_textpage().get_text_bounded()
    assert "Paid in full" in text
