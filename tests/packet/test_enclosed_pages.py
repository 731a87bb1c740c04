from __future__ import annotations

import io

import pikepdf
import pypdf
from packets import receipt, tampered

from claimpack.packet.enclosed_pages import page_count, with_pages_of


def without_links(pdf: pikepdf.Pdf) -> None:
    for page in pdf.pages:
        del page.obj.Annots


LETTER = receipt(lambda canvas: canvas.drawString(20, 20, "Dear maker"))
PACKET = tampered(without_links)


def enclosed() -> bytes:
    return with_pages_of(LETTER, PACKET)


def test_the_pages_of_the_packet_stand_behind_those_of_the_letter():
    said = [page.extract_text().strip() for page in pypdf.PdfReader(io.BytesIO(enclosed())).pages]
    assert (page_count(enclosed()), said[:2]) == (5, ["Dear maker", "page 1"])


def test_what_the_packet_carries_beside_its_pages_stays_behind():
    assert pypdf.PdfReader(io.BytesIO(enclosed())).attachments == {}


def test_a_letter_with_its_pages_is_the_same_bytes_every_time():
    assert enclosed() == enclosed()
